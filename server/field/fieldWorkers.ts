// Workers for the low end: in a thread of its own where the host has one, else in this very thread.
//
// What works it out is loaded where it is done, with the first job: an editor that starts does not wait for it.

import type { FieldDesk, FieldHost, FieldJob, FieldReply, FieldWorker } from './fieldJob.ts';

/** What goes to a thread that has a desk; it answers each `job` with one reply, in order. */
export type ToFieldThread =
  | { readonly kind: 'job'; readonly job: FieldJob }
  | { readonly kind: 'forget'; readonly uri: string };

/** A thread as its host gives it. */
export interface FieldThread {
  readonly post: (message: ToFieldThread) => void;
  readonly end: () => void;
}

/** @throws where the host has no threads; or it calls `failed`, then or later */
export type StartFieldThread = (
  answer: (reply: FieldReply) => void,
  failed: (why: string) => void,
) => FieldThread;

/** In this thread: each job as soon as nothing else is to be done. */
export function fieldWorkerHere(after: FieldHost['after']): FieldWorker {
  const loading = loadDesk();
  let callOff: () => void = () => undefined;
  return {
    work: (job, done) => {
      let isOff = false;
      const callOffTimer = after(0, async () => {
        const desk = await loading;
        if (!isOff) done(desk.work(job));
      });
      callOff = () => {
        isOff = true;
        callOffTimer();
      };
    },
    forget: (uri) => void loading.then((desk) => desk.forget(uri)),
    end: () => callOff(),
  };
}

async function loadDesk(): Promise<FieldDesk> {
  const { createFieldDesk } = await import('./fieldJob.ts');
  return createFieldDesk();
}

/** In a thread. One that fails before its first answer was never there: then this thread does the work. */
export function fieldWorkerInThread(
  start: StartFieldThread,
  after: FieldHost['after'],
): FieldWorker {
  let thread: FieldThread | null = null;
  let here: FieldWorker | null = null;
  let hasAnswered = false;
  let current: { readonly job: FieldJob; readonly done: (reply: FieldReply) => void } | null = null;

  function answer(reply: FieldReply): void {
    hasAnswered = true;
    const told = current?.done;
    current = null;
    told?.(reply);
  }

  function failed(why: string): void {
    thread = null;
    if (hasAnswered) answer({ fault: why });
    else {
      here ??= fieldWorkerHere(after);
      if (current !== null) here.work(current.job, answer);
    }
  }

  return {
    work(job, done) {
      current = { job, done };
      if (here !== null) return here.work(job, answer);
      try {
        thread ??= start(answer, failed);
        thread.post({ kind: 'job', job });
      } catch (error) {
        failed(error instanceof Error ? error.message : String(error));
      }
    },
    forget(uri) {
      here?.forget(uri);
      thread?.post({ kind: 'forget', uri });
    },
    end() {
      current = null;
      here?.end();
      thread?.end();
      thread = null;
    },
  };
}

/** The thread's own side. Asked one after another, it answers in that order. */
export function createFieldAnswers(): (message: ToFieldThread) => Promise<FieldReply | null> {
  const loading = loadDesk();
  return async (message) => {
    const desk = await loading;
    if (message.kind === 'job') return desk.work(message.job);
    desk.forget(message.uri);
    return null;
  };
}
