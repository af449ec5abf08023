// One job at a time on one worker: a person is told of a job that takes long, and may stop it.

import type { After, Worker } from './worker.ts';

export interface OneJobHost<Work, Reply> {
  readonly start: () => Pick<Worker<Work, Reply>, 'work' | 'end'>;
  readonly after: After;
}

export interface OneJob<Job, Work, Reply> {
  readonly current: () => Job | null;
  /** Whether a person has been told of the current one. */
  readonly isLong: () => boolean;
  /** There must be no current one. */
  readonly begin: (job: Job) => void;
  /** What the worker does for the current job, which is over when the reply is taken; a reply to one that was stopped is not. */
  readonly give: (work: Work, take: (reply: Reply) => void) => void;
  /** The current job is over. */
  readonly finish: () => void;
  /** In the middle of the current job. What the worker has kept goes with it. */
  readonly stop: () => void;
}

/** After this a person wants to know what keeps the machine busy. */
const LONG_MS = 1000;

interface Running<Job> {
  readonly job: Job;
  isLong: boolean;
  endTelling: () => void;
}

/** @param long tells of a job that takes long, and answers how the telling ends; null where the job is not told of */
export function createOneJob<Job, Work, Reply>(
  host: OneJobHost<Work, Reply>,
  long: (job: Job) => (() => void) | null,
): OneJob<Job, Work, Reply> {
  let worker: ReturnType<typeof host.start> | null = null;
  let running: Running<Job> | null = null;

  function finish(): void {
    running?.endTelling();
    running = null;
  }

  return {
    current: () => running?.job ?? null,
    isLong: () => running?.isLong ?? false,
    begin(job) {
      const mine: Running<Job> = { job, isLong: false, endTelling: () => undefined };
      running = mine;
      mine.endTelling = host.after(LONG_MS, () => {
        mine.isLong = true;
        mine.endTelling = long(job) ?? (() => undefined);
      });
    },
    give(work, take) {
      const mine = running;
      worker ??= host.start();
      worker.work(work, (reply) => {
        if (running !== mine) return;
        finish();
        take(reply);
      });
    },
    finish,
    stop() {
      finish();
      worker?.end();
      worker = null;
    },
  };
}
