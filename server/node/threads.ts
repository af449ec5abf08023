// Threads for what takes long, so that the editor's thread stays free for typing.
//
// Each runs the script that this process runs, started once more under a sign of its own: there is no second file to ship or to find,
// be it the server's bundle or the command line's.

import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { answersUnder } from '../threads/kinds.ts';
import type { StartThread } from '../threads/worker.ts';

export function startThread<Message, Reply>(sign: string): StartThread<Message, Reply> {
  return (answer, failed) => {
    const worker = new Worker(process.argv[1] ?? '', { workerData: sign });
    worker.unref(); // It keeps nobody from leaving.
    worker.on('message', answer);
    worker.on('error', ({ message }) => failed(message));
    return {
      post: (message) => worker.postMessage(message),
      end: () => void worker.terminate(),
    };
  };
}

/** In such a thread: answers every message, in order, until it is ended. @returns whether this is one */
export function serveAsThread(): boolean {
  const answers = isMainThread ? null : answersUnder(workerData);
  if (answers === null) return false;
  parentPort?.on('message', async (message: unknown) => {
    const reply = await answers(message);
    if (reply !== null) parentPort?.postMessage(reply);
  });
  return true;
}
