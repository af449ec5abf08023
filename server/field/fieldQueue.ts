// The queue before the worker: one job runs, one version of each file waits, and it is always the newest.

import type { Setup } from '../../core/setup.ts';
import { createOneJob } from '../threads/oneJob.ts';
import type { FieldAsk, FieldHost, FieldJob, FieldReply, FieldWorker } from './fieldJob.ts';

export interface FieldQueue {
  /** Takes the place of what waits for this file. */
  readonly ask: (uri: string, of: Setup) => void;
  /** Before all that waits; null where what runs takes long, or is stopped meanwhile. */
  readonly quick: (uri: string, of: Setup, ask: FieldAsk) => Promise<FieldReply | null>;
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

interface Quick {
  readonly uri: string;
  readonly of: Setup;
  readonly ask: FieldAsk;
  readonly done: (reply: FieldReply | null) => void;
}

interface Running {
  /** null for what the room's file asked for. */
  readonly quick: Quick | null;
  readonly uri: string;
  readonly of: Setup;
}

export function createFieldQueue(host: FieldHost, listener: FieldQueueListener): FieldQueue {
  const waiting = new Map<string, Setup>();
  const quicks: Quick[] = [];
  let worker: FieldWorker | null = null;
  const start = () => {
    worker = host.start();
    return worker;
  };
  const desk = createOneJob<Running, FieldJob, FieldReply>({ ...host, start }, tellLong);

  function next(): void {
    if (desk.current() !== null) return;
    const quick = quicks.shift() ?? null;
    const [uri, of] = quick ? [quick.uri, quick.of] : ([...waiting][0] ?? []);
    if (uri === undefined || of === undefined) return;
    if (quick === null) waiting.delete(uri);
    desk.begin({ quick, uri, of });
    const { room, air, space, referenceSeat, crossovers } = of;
    const about = { uri, of: { room, air, space, referenceSeat, crossovers } };
    desk.give(quick ? { ...about, ask: quick.ask } : about, (reply) => {
      if (quick) quick.done(reply);
      else listener.answered(uri, of, reply);
      next();
    });
  }

  function tellLong(job: Running): () => void {
    // A hand does not wait.
    for (const { done } of quicks.splice(0)) done(null);
    return listener.long(job.uri, () => {
      if (desk.current() !== job) return;
      stop();
      if (job.quick === null) listener.stopped(job.uri, job.of);
      next();
    });
  }

  function stop(): void {
    desk.current()?.quick?.done(null);
    desk.stop();
    worker = null;
  }

  const isLong = (uri: string) => desk.current()?.uri === uri && desk.isLong();

  return {
    ask(uri, of) {
      waiting.set(uri, of);
      // A long job is about the room's shape; one about another shape is not worth its end.
      const running = desk.current();
      if (running !== null && isLong(uri) && spaceOf(running.of) !== spaceOf(of)) stop();
      next();
    },
    quick: (uri, of, ask) =>
      desk.isLong()
        ? Promise.resolve(null)
        : new Promise((done) => {
            quicks.push({ uri, of, ask, done });
            next();
          }),
    drop(uri) {
      waiting.delete(uri);
      if (isLong(uri)) stop();
      worker?.forget(uri);
      next();
    },
  };
}

/** The same text for the same mesh. */
export function spaceOf({ room }: Setup): string {
  return JSON.stringify(room.space);
}
