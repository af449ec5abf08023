// A job of the second phase: what the low end of one room is worked out from, and who does it, here or in another thread.

import { createFieldMaps, type FieldMaps } from '../../core/field/fieldMap.ts';
import { createTransfers } from '../../core/field/transfers.ts';
import type { FieldMap, FieldMapRequest } from '../../core/fieldFigures.ts';
import { createFieldWork, type FieldPart, type FieldWork } from '../../core/parts/field.ts';
import type { Setup } from '../../core/setup.ts';
import type { After } from '../threads/worker.ts';

/** What goes to the worker: of a setup, only what the field depends on. */
export interface FieldJob {
  /** Its caches are kept by file. */
  readonly uri: string;
  readonly of: Pick<Setup, 'room' | 'air' | 'space' | 'referenceSeat'> &
    Partial<Pick<Setup, 'crossovers'>>;
  /** Left out: the whole low end. */
  readonly ask?: FieldAsk;
}

/** What must come quickly: curves without their envelope, or a map. */
export type FieldAsk =
  | { readonly kind: 'follow' }
  | { readonly kind: 'map'; readonly request: FieldMapRequest };

export type FieldReply =
  | { readonly part: FieldPart }
  | { readonly map: FieldMap | null }
  | { readonly fault: string };

/** Does one job after another; keeps what the next one of the same file can use. */
export interface FieldDesk {
  readonly work: (job: FieldJob) => FieldReply;
  readonly forget: (uri: string) => void;
}

export function createFieldDesk(): FieldDesk {
  const works = new Map<string, { readonly field: FieldWork; readonly maps: FieldMaps }>();
  const made = () => {
    const transfers = createTransfers();
    return { field: createFieldWork(transfers), maps: createFieldMaps(transfers) };
  };
  return {
    work: ({ uri, of, ask }) => {
      const { field, maps } = works.get(uri) ?? made();
      works.set(uri, { field, maps });
      try {
        if (ask?.kind === 'map') return { map: maps(of, ask.request) };
        return { part: field(of, { envelope: ask === undefined }) };
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
  readonly after: After;
}
