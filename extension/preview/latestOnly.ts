// Runs a piece of work at most once at a time; calls while it runs lead to one more run after it, however many they are.

export function latestOnly(work: () => Promise<unknown>): () => void {
  let running = false;
  let again = false;
  const run = async (): Promise<void> => {
    running = true;
    do {
      again = false;
      await work().catch(() => undefined); // The work tells its own faults; a lost answer must not stop the next.
    } while (again);
    running = false;
  };
  return () => {
    if (running) again = true;
    else void run();
  };
}
