// Workers for the low end.
//
// What works it out is loaded where it is done, with the first job: an editor that starts does not wait for it.

import {
  type After,
  type Answers,
  type StartThread,
  type Worker,
  workerHere,
  workerInThread,
} from '../threads/worker.ts';
import type { FieldJob, FieldReply, FieldWorker } from './fieldJob.ts';

/** What goes to a thread that has a desk; it answers each `job` with one reply. */
export type ToFieldThread =
  | { readonly kind: 'job'; readonly job: FieldJob }
  | { readonly kind: 'forget'; readonly uri: string };

/** A desk behind its messages. */
export function fieldAnswers(): Answers<ToFieldThread, FieldReply> {
  const loading = import('./fieldJob.ts').then(({ createFieldDesk }) => createFieldDesk());
  return async (message) => {
    const desk = await loading;
    if (message.kind === 'job') return desk.work(message.job);
    desk.forget(message.uri);
    return null;
  };
}

export function fieldWorkerHere(after: After): FieldWorker {
  return fieldWorker(workerHere(fieldAnswers(), after));
}

export function fieldWorkerInThread(
  start: StartThread<ToFieldThread, FieldReply>,
  after: After,
): FieldWorker {
  const here = () => workerHere(fieldAnswers(), after);
  return fieldWorker(workerInThread({ start, here, fault: (why) => ({ fault: why }) }));
}

function fieldWorker({ work, tell, end }: Worker<ToFieldThread, FieldReply>): FieldWorker {
  return {
    work: (job, done) => work({ kind: 'job', job }, done),
    forget: (uri) => tell({ kind: 'forget', uri }),
    end,
  };
}
