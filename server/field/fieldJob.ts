// A job of the second phase: what the low end of one room is worked out from, and who does it, here or in another thread.

import { createFieldWork, type FieldPart, type FieldWork } from '../../core/parts/field.ts';
import type { Setup } from '../../core/setup.ts';

/** What goes to the worker: of a setup, only what the field depends on. */
export interface FieldJob {
  /** Its caches are kept by file. */
  readonly uri: string;
  readonly of: Pick<Setup, 'room' | 'air' | 'space' | 'referenceSeat'>;
}

export type FieldReply = { readonly part: FieldPart } | { readonly fault: string };

/** Does one job after another; keeps what the next one of the same file can use. */
export interface FieldDesk {
  readonly work: (job: FieldJob) => FieldReply;
  readonly forget: (uri: string) => void;
}

export function createFieldDesk(): FieldDesk {
  const works = new Map<string, FieldWork>();
  return {
    work: ({ uri, of }) => {
      const work = works.get(uri) ?? createFieldWork();
      works.set(uri, work);
      try {
        return { part: work(of, { envelope: true }) };
      } catch (error) {
        return { fault: error instanceof Error ? (error.stack ?? error.message) : String(error) };
      }
    },
    forget: (uri) => void works.delete(uri),
  };
}

/** Whoever works fields out for the server: one job at a time. */
export interface FieldWorker {
  /** The last job's reply comes before the next job. */
  readonly work: (job: FieldJob, done: (reply: FieldReply) => void) => void;
  readonly forget: (uri: string) => void;
  /** Stops in the middle of a job too, if it can; no reply comes after it. */
  readonly end: () => void;
}

/** Where a timer and a thread come from: the host's matter. */
export interface FieldHost {
  readonly start: () => FieldWorker;
  /** Acts once after that time; the answer calls it off. */
  readonly after: (time_ms: number, act: () => void) => () => void;
}
