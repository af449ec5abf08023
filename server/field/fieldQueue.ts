// The queue before the worker: one job runs, one version of each file waits, and it is always the newest.

import type { Setup } from '../../core/setup.ts';
import type { FieldHost, FieldReply, FieldWorker } from './fieldJob.ts';

export interface FieldQueue {
  /** Takes the place of what waits for this file. */
  readonly ask: (uri: string, of: Setup) => void;
  /** Nothing of this file is wanted any more. */
  readonly drop: (uri: string) => void;
}

export interface FieldQueueListener {
  readonly answered: (uri: string, of: Setup, reply: FieldReply) => void;
  /** A person had enough of this job. */
  readonly stopped: (uri: string, of: Setup) => void;
  /** A job takes long: what it is about, and how a person may stop it. The answer ends the telling. */
  readonly long: (uri: string, stop: () => void) => () => void;
}

/** After this a person wants to know what keeps the machine busy. */
const LONG_MS = 1000;

interface Running {
  readonly uri: string;
  readonly of: Setup;
  isLong: boolean;
  endTelling: () => void;
}

export function createFieldQueue(host: FieldHost, listener: FieldQueueListener): FieldQueue {
  const waiting = new Map<string, Setup>();
  let worker: FieldWorker | null = null;
  let running: Running | null = null;

  function next(): void {
    const [first] = waiting;
    if (running !== null || first === undefined) return;
    const [uri, of] = first;
    waiting.delete(uri);
    const job: Running = { uri, of, isLong: false, endTelling: () => undefined };
    running = job;
    job.endTelling = host.after(LONG_MS, () => tellLong(job));
    worker ??= host.start();
    const { room, air, space, referenceSeat } = of;
    worker.work({ uri, of: { room, air, space, referenceSeat } }, (reply) => {
      if (running !== job) return;
      job.endTelling();
      running = null;
      listener.answered(uri, of, reply);
      next();
    });
  }

  function tellLong(job: Running): void {
    job.isLong = true;
    job.endTelling = listener.long(job.uri, () => {
      if (running !== job) return;
      stop();
      listener.stopped(job.uri, job.of);
      next();
    });
  }

  /** In the middle of a job. What the worker has kept goes with it. */
  function stop(): void {
    running?.endTelling();
    running = null;
    worker?.end();
    worker = null;
  }

  return {
    ask(uri, of) {
      waiting.set(uri, of);
      // A long job is about the room's shape; one about another shape is not worth its end.
      if (running?.uri === uri && running.isLong && spaceOf(running.of) !== spaceOf(of)) stop();
      next();
    },
    drop(uri) {
      waiting.delete(uri);
      if (running?.uri === uri && running.isLong) stop();
      worker?.forget(uri);
      next();
    },
  };
}

/** The same text for the same mesh. */
export function spaceOf({ room }: Setup): string {
  return JSON.stringify(room.space);
}
