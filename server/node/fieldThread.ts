// A thread that works out the low end, so that the editor's thread stays free for typing.
//
// It runs the script that this process runs, started a second time under a sign of its own: there is no second file to ship or
// to find, be it the server's bundle or the command line's.

import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import {
  createFieldAnswers,
  type StartFieldThread,
  type ToFieldThread,
} from '../field/fieldWorkers.ts';

const SIGN = 'groundbass field';

/** True in the thread itself: then its script does nothing but `serveField`. */
export function isFieldThread(): boolean {
  return !isMainThread && workerData === SIGN;
}

export const startFieldThread: StartFieldThread = (answer, failed) => {
  const worker = new Worker(process.argv[1] ?? '', { workerData: SIGN });
  worker.unref(); // It keeps nobody from leaving.
  worker.on('message', answer);
  worker.on('error', ({ message }) => failed(message));
  return {
    post: (message) => worker.postMessage(message),
    end: () => void worker.terminate(),
  };
};

/** The thread's own side: answers every job, in order, until it is ended. */
export function serveField(): void {
  const answerTo = createFieldAnswers();
  parentPort?.on('message', async (message: ToFieldThread) => {
    const reply = await answerTo(message);
    if (reply !== null) parentPort?.postMessage(reply);
  });
}
