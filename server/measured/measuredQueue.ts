// The queue before the worker of the third phase: one job runs; takes come before comparisons, each in the order asked for.

import { NOTHING_READ, type TakeReading } from '../../core/measured/takeReading.ts';
import type { VerificationFigures } from '../../core/measured/verification.ts';
import type { Setup } from '../../core/setup.ts';
import type { Files } from '../files/files.ts';
import type { MeasuredJob, MeasuredReply } from './measuredJob.ts';
import type { MeasuredHost, MeasuredWorker } from './measuredWorkers.ts';
import { takeFilesOf } from './takeFilesOf.ts';
import type { TakeRequest } from './takeRequests.ts';

export type Asked =
  | { readonly kind: 'take'; readonly key: string; readonly request: TakeRequest }
  | { readonly kind: 'verify'; readonly key: string; readonly uri: string; readonly setup: Setup };

export interface MeasuredQueueListener {
  /** Whether anybody still wants it; asked before its files are read, and of a job that takes long. */
  readonly isWanted: (asked: Asked) => boolean;
  readonly read: (key: string, request: TakeRequest, reading: TakeReading) => void;
  /** null where it could not be worked out. */
  readonly verified: (uri: string, setup: Setup, figures: VerificationFigures | null) => void;
  /** A job takes long: how a person may stop it. The answer ends the telling. */
  readonly long: (asked: Asked, stop: () => void) => () => void;
  readonly log: (message: string) => void;
}

export interface MeasuredQueue {
  /** What has this key already, waiting or running, is not asked for again. */
  readonly ask: (asked: Asked) => void;
  /** Something may be wanted no more: a long job that is not is stopped. */
  readonly review: () => void;
}

/** After this a person wants to know what keeps the machine busy. */
const LONG_MS = 1000;

interface Running {
  readonly asked: Asked;
  isLong: boolean;
  endTelling: () => void;
}

export function createMeasuredQueue(
  host: MeasuredHost,
  files: Files,
  listener: MeasuredQueueListener,
): MeasuredQueue {
  const waiting = new Map<string, Asked>();
  let worker: MeasuredWorker | null = null;
  let running: Running | null = null;

  function next(): void {
    if (running !== null) return;
    for (const [key, asked] of waiting) if (!listener.isWanted(asked)) waiting.delete(key);
    const all = [...waiting.values()];
    const asked = all.find(({ kind }) => kind === 'take') ?? all[0];
    if (asked === undefined) return;
    waiting.delete(asked.key);
    const job: Running = { asked, isLong: false, endTelling: () => undefined };
    running = job;
    job.endTelling = host.after(LONG_MS, () => tellLong(job));
    void begin(job);
  }

  async function begin(job: Running): Promise<void> {
    const { asked } = job;
    if (asked.kind === 'verify')
      return give(job, { kind: 'verify', setup: asked.setup }, (reply) => {
        const isThere = reply.kind === 'verify';
        listener.verified(asked.uri, asked.setup, isThere ? reply.verification : null);
      });
    const { files: found, faults } = await takeFilesOf(asked.request, files);
    if (running !== job) return;
    const told = (reading: TakeReading): void =>
      listener.read(asked.key, asked.request, {
        ...reading,
        faults: [...reading.faults, ...faults],
      });
    if (found === null) return end(job, () => told(NOTHING_READ));
    give(job, { kind: 'take', files: found }, (reply) =>
      told(reply.kind === 'take' ? reply.reading : FAILED),
    );
  }

  function give(job: Running, work: MeasuredJob, take: (reply: MeasuredReply) => void): void {
    worker ??= host.start();
    worker.work(work, (reply) => {
      if (running !== job) return;
      if (reply.kind === 'fault') listener.log(`measurements: ${reply.fault}`);
      end(job, () => take(reply));
    });
  }

  function end(job: Running, tell: () => void): void {
    job.endTelling();
    running = null;
    tell();
    next();
  }

  function tellLong(job: Running): void {
    const { asked } = job;
    job.isLong = true;
    if (listener.isWanted(asked))
      job.endTelling = listener.long(asked, () => {
        if (running !== job) return;
        stop(job);
        if (asked.kind === 'take') listener.read(asked.key, asked.request, STOPPED);
        else listener.verified(asked.uri, asked.setup, null);
      });
    else stop(job);
  }

  /** In the middle of a job. */
  function stop(job: Running): void {
    job.endTelling();
    running = null;
    worker?.end();
    worker = null;
    next();
  }

  return {
    ask(asked) {
      if (running?.asked.key !== asked.key) waiting.set(asked.key, asked);
      next();
    },
    review() {
      if (running?.isLong && !listener.isWanted(running.asked)) stop(running);
    },
  };
}

/** A fault of ours: the rest of the room stands. */
const FAILED: TakeReading = {
  ...NOTHING_READ,
  faults: [
    {
      code: 'measurement/unreadable',
      severity: 'error',
      message: 'the file could not be analysed, by a fault of groundbass itself',
    },
  ],
};

const STOPPED: TakeReading = {
  ...NOTHING_READ,
  refusals: ['Not read: it took long, and was stopped'],
};
