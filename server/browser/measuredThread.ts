// A web worker below the server's own that reads measurements: the same script again, under a name of its own, as for the low end.

import type { MeasuredJob, MeasuredReply } from '../measured/measuredJob.ts';
import { answerTo, type StartMeasuredThread } from '../measured/measuredWorkers.ts';

const NAME = 'groundbass measurements';
const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

/** True in the nested worker: then its script does nothing but `serveMeasured`. */
export function isMeasuredThread(): boolean {
  return scope.name === NAME;
}

export const startMeasuredThread: StartMeasuredThread = (answer, failed) => {
  const worker = new Worker(scope.location.href, { name: NAME });
  worker.onmessage = ({ data }: MessageEvent<MeasuredReply>) => answer(data);
  worker.onerror = ({ message }) => failed(message);
  return {
    post: (job) => worker.postMessage(job),
    end: () => worker.terminate(),
  };
};

/** The nested worker's own side: answers every job until it is ended. */
export function serveMeasured(): void {
  scope.onmessage = async ({ data }: MessageEvent<MeasuredJob>) => {
    scope.postMessage(await answerTo(data));
  };
}
