// Workers: whoever does a long job for the server, in a thread of its own where the host has one, else in this very thread.

/** One job at a time: its reply comes before the next one is given. */
export interface Worker<Message, Reply> {
  readonly work: (job: Message, done: (reply: Reply) => void) => void;
  /** A message that asks for no reply. */
  readonly tell: (message: Message) => void;
  /** Stops in the middle of a job too, if it can; no reply comes after it. */
  readonly end: () => void;
}

/** What a thread does with its messages, in their order; null where there is nothing to reply. */
export type Answers<Message, Reply> = (message: Message) => Promise<Reply | null>;

/** A thread as its host gives it. */
export interface Thread<Message> {
  readonly post: (message: Message) => void;
  readonly end: () => void;
}

/** @throws where the host has no threads; or it calls `failed`, then or later */
export type StartThread<Message, Reply> = (
  answer: (reply: Reply) => void,
  failed: (why: string) => void,
) => Thread<Message>;

/** Acts once after that time; the answer calls it off. */
export type After = (time_ms: number, act: () => void) => () => void;

/** In this thread: each job as soon as nothing else is to be done. */
export function workerHere<Message, Reply>(
  answers: Answers<Message, Reply>,
  after: After,
): Worker<Message, Reply> {
  let callOff: () => void = () => undefined;
  return {
    work: (job, done) => {
      let isOff = false;
      const callOffTimer = after(0, async () => {
        const reply = await answers(job);
        if (!isOff && reply !== null) done(reply);
      });
      callOff = () => {
        isOff = true;
        callOffTimer();
      };
    },
    tell: (message) => void answers(message),
    end: () => callOff(),
  };
}

export interface InThread<Message, Reply> {
  readonly start: StartThread<Message, Reply>;
  /** The reply that tells of a thread that failed. */
  readonly fault: (why: string) => Reply;
  /** Who does the work where there are no threads. */
  readonly here: () => Worker<Message, Reply>;
}

/** In a thread. One that fails before its first answer was never there: then this thread does the work. */
export function workerInThread<Message, Reply>(
  host: InThread<Message, Reply>,
): Worker<Message, Reply> {
  let thread: Thread<Message> | null = null;
  let here: Worker<Message, Reply> | null = null;
  let hasAnswered = false;
  let current: { readonly job: Message; readonly done: (reply: Reply) => void } | null = null;

  function answer(reply: Reply): void {
    hasAnswered = true;
    const told = current?.done;
    current = null;
    told?.(reply);
  }

  function failed(why: string): void {
    thread = null;
    if (hasAnswered) answer(host.fault(why));
    else {
      here ??= host.here();
      if (current !== null) here.work(current.job, answer);
    }
  }

  return {
    work(job, done) {
      current = { job, done };
      if (here !== null) return here.work(job, answer);
      try {
        thread ??= host.start(answer, failed);
        thread.post(job);
      } catch (error) {
        failed(error instanceof Error ? error.message : String(error));
      }
    },
    tell(message) {
      here?.tell(message);
      thread?.post(message);
    },
    end() {
      current = null;
      here?.end();
      thread?.end();
      thread = null;
    },
  };
}
