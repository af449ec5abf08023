// The queue before the worker of the third phase: one job runs; takes come before comparisons, each in the order asked for.

import { NOTHING_READ, type TakeReading } from '../../core/measured/takeReading.ts';
import type { VerificationFigures } from '../../core/measured/verification.ts';
import type { Setup } from '../../core/setup.ts';
import type { Files } from '../files/files.ts';
import { createOneJob } from '../threads/oneJob.ts';
import type { MeasuredJob, MeasuredReply } from './measuredJob.ts';
import type { MeasuredHost } from './measuredWorkers.ts';
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

export function createMeasuredQueue(
  host: MeasuredHost,
  files: Files,
  listener: MeasuredQueueListener,
): MeasuredQueue {
  const waiting = new Map<string, Asked>();
  const desk = createOneJob<Asked, MeasuredJob, MeasuredReply>(host, tellLong);

  function next(): void {
    if (desk.current() !== null) return;
    for (const [key, asked] of waiting) if (!listener.isWanted(asked)) waiting.delete(key);
    const all = [...waiting.values()];
    const asked = all.find(({ kind }) => kind === 'take') ?? all[0];
    if (asked === undefined) return;
    waiting.delete(asked.key);
    desk.begin(asked);
    if (asked.kind === 'take') void read(asked);
    else verify(asked);
  }

  function verify({ uri, setup }: Extract<Asked, { readonly kind: 'verify' }>): void {
    give({ kind: 'verify', setup }, (reply) => {
      listener.verified(uri, setup, reply.kind === 'verify' ? reply.verification : null);
    });
  }

  async function read(asked: Extract<Asked, { readonly kind: 'take' }>): Promise<void> {
    const { files: found, faults } = await takeFilesOf(asked.request, files);
    if (desk.current() !== asked) return;
    const told = (reading: TakeReading): void =>
      listener.read(asked.key, asked.request, {
        ...reading,
        faults: [...reading.faults, ...faults],
      });
    if (found !== null)
      return give({ kind: 'take', files: found }, (reply) =>
        told(reply.kind === 'take' ? reply.reading : FAILED),
      );
    desk.finish();
    told(NOTHING_READ);
    next();
  }

  function give(work: MeasuredJob, take: (reply: MeasuredReply) => void): void {
    desk.give(work, (reply) => {
      if (reply.kind === 'fault') listener.log(`measurements: ${reply.fault}`);
      take(reply);
      next();
    });
  }

  function tellLong(asked: Asked): (() => void) | null {
    if (!listener.isWanted(asked)) {
      stop();
      return null;
    }
    return listener.long(asked, () => {
      if (desk.current() !== asked) return;
      stop();
      if (asked.kind === 'take') listener.read(asked.key, asked.request, STOPPED);
      else listener.verified(asked.uri, asked.setup, null);
    });
  }

  function stop(): void {
    desk.stop();
    next();
  }

  return {
    ask(asked) {
      if (desk.current()?.key !== asked.key) waiting.set(asked.key, asked);
      next();
    },
    review() {
      const running = desk.current();
      if (running !== null && desk.isLong() && !listener.isWanted(running)) stop();
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
