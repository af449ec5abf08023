// Workers for the takes: in a thread of its own where the host has one, else in this very thread.
//
// What reads the takes is loaded where it is done, with the first job: an editor that starts does not wait for it.

import type { MeasuredJob, MeasuredReply } from './measuredJob.ts';

/** One job at a time: its reply comes before the next one is given. */
export interface MeasuredWorker {
  readonly work: (job: MeasuredJob, done: (reply: MeasuredReply) => void) => void;
  /** Stops in the middle of a job too, if it can; no reply comes after it. */
  readonly end: () => void;
}

/** Where a timer and a thread come from: the host's matter. */
export interface MeasuredHost {
  readonly start: () => MeasuredWorker;
  /** Acts once after that time; the answer calls it off. */
  readonly after: (time_ms: number, act: () => void) => () => void;
}

/** A thread as its host gives it; it answers each job with one reply. */
export interface MeasuredThread {
  readonly post: (job: MeasuredJob) => void;
  readonly end: () => void;
}

/** @throws where the host has no threads; or it calls `failed`, then or later */
export type StartMeasuredThread = (
  answer: (reply: MeasuredReply) => void,
  failed: (why: string) => void,
) => MeasuredThread;

/** In this thread: each job as soon as nothing else is to be done. */
export function measuredWorkerHere(after: MeasuredHost['after']): MeasuredWorker {
  let current: object | null = null;
  return {
    work: (job, done) => {
      const own = {};
      current = own;
      after(0, async () => {
        const reply = await answerTo(job);
        if (current === own) done(reply);
      });
    },
    end: () => {
      current = null;
    },
  };
}

/** In a thread. One that fails before its first answer was never there: then this thread does the work. */
export function measuredWorkerInThread(
  start: StartMeasuredThread,
  after: MeasuredHost['after'],
): MeasuredWorker {
  let thread: MeasuredThread | null = null;
  let here: MeasuredWorker | null = null;
  let hasAnswered = false;
  let current: {
    readonly job: MeasuredJob;
    readonly done: (reply: MeasuredReply) => void;
  } | null = null;

  function answer(reply: MeasuredReply): void {
    hasAnswered = true;
    const told = current?.done;
    current = null;
    told?.(reply);
  }

  function failed(why: string): void {
    thread = null;
    if (hasAnswered) answer({ kind: 'fault', fault: why });
    else {
      here ??= measuredWorkerHere(after);
      if (current !== null) here.work(current.job, answer);
    }
  }

  return {
    work(job, done) {
      current = { job, done };
      if (here !== null) return here.work(job, answer);
      try {
        thread ??= start(answer, failed);
        thread.post(job);
      } catch (error) {
        failed(error instanceof Error ? error.message : String(error));
      }
    },
    end() {
      current = null;
      here?.end();
      thread?.end();
      thread = null;
    },
  };
}

/** The thread's own side. */
export async function answerTo(job: MeasuredJob): Promise<MeasuredReply> {
  const { doJob } = await import('./measuredJob.ts');
  return doJob(job);
}
