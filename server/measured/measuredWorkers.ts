// Workers for the takes.
//
// What reads them is loaded where it is done, with the first job: an editor that starts does not wait for it.

import {
  type After,
  type Answers,
  type StartThread,
  type Worker,
  workerHere,
  workerInThread,
} from '../threads/worker.ts';
import type { MeasuredJob, MeasuredReply } from './measuredJob.ts';

export type MeasuredWorker = Pick<Worker<MeasuredJob, MeasuredReply>, 'work' | 'end'>;

/** Where a timer and a thread come from: the host's matter. */
export interface MeasuredHost {
  readonly start: () => MeasuredWorker;
  readonly after: After;
}

export const measuredAnswers: Answers<MeasuredJob, MeasuredReply> = async (job) => {
  const { doJob } = await import('./measuredJob.ts');
  return doJob(job);
};

export function measuredWorkerHere(after: After): MeasuredWorker {
  return workerHere(measuredAnswers, after);
}

export function measuredWorkerInThread(
  start: StartThread<MeasuredJob, MeasuredReply>,
  after: After,
): MeasuredWorker {
  return workerInThread({
    start,
    here: () => workerHere(measuredAnswers, after),
    fault: (why) => ({ kind: 'fault', fault: why }),
  });
}
