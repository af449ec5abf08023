// A thread that reads measurements, so that the editor's thread stays free for typing: the same script again, as for the low end.

import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { MeasuredJob } from '../measured/measuredJob.ts';
import { answerTo, type StartMeasuredThread } from '../measured/measuredWorkers.ts';

const SIGN = 'groundbass measurements';

/** True in the thread itself: then its script does nothing but `serveMeasured`. */
export function isMeasuredThread(): boolean {
  return !isMainThread && workerData === SIGN;
}

export const startMeasuredThread: StartMeasuredThread = (answer, failed) => {
  const worker = new Worker(process.argv[1] ?? '', { workerData: SIGN });
  worker.unref(); // It keeps nobody from leaving.
  worker.on('message', answer);
  worker.on('error', ({ message }) => failed(message));
  return {
    post: (job) => worker.postMessage(job),
    end: () => void worker.terminate(),
  };
};

/** The thread's own side: answers every job until it is ended. */
export function serveMeasured(): void {
  parentPort?.on('message', async (job: MeasuredJob) => {
    parentPort?.postMessage(await answerTo(job));
  });
}
