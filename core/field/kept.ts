// A store that keeps the last few answers by a text key.

/** The answer for a key: the kept one, or a new one. */
export type Kept<Answer> = (key: string, make: () => Answer) => Answer;

/** @param most how many are kept; the one that was not asked for longest goes first */
export function kept<Answer>(most: number): Kept<Answer> {
  const store = new Map<string, Answer>();
  return (key, make) => {
    const answer = store.get(key) ?? make();
    store.delete(key);
    store.set(key, answer);
    const [oldest] = store.keys();
    if (most < store.size && oldest !== undefined) store.delete(oldest);
    return answer;
  };
}
