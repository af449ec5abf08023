// The second phase in an editor: the low end is worked out beside the typing, by a worker, when the hand rests.
//
// Of open files, and of whatever is asked for whole. Until an answer is there, the field of the version before it stands in, so
// that nothing vanishes and comes back at each key.

import type { FieldPart } from '../../core/parts/field.ts';
import { createJudge, type Judge } from '../../core/rules/judge.ts';
import type { Setup } from '../../core/setup.ts';
import type { Analysis } from '../analysis.ts';
import type { FieldHost, FieldReply } from './fieldJob.ts';
import type { FieldPhase } from './fieldPhase.ts';
import {
  createFieldQueue,
  type FieldQueue,
  type FieldQueueListener,
  spaceOf,
} from './fieldQueue.ts';
import { isStillAbout, mergedField } from './mergedField.ts';

export interface FieldListener extends Pick<FieldQueueListener, 'long'> {
  /** A file's field is another now. */
  readonly changed: (uri: string) => void;
  /** It is the same as before, but no longer that of an older version. */
  readonly confirmed: (uri: string) => void;
  readonly log: (message: string) => void;
}

/** Typing is faster than this; a pause is longer. */
const REST_MS = 120;

interface Known {
  readonly part: FieldPart;
  readonly of: Setup;
}

interface Entry {
  readonly judge: Judge;
  /** What is known, and the setup that it was worked out from; null before the first answer. */
  known: Known | null;
  merged: { readonly of: Analysis; readonly known: Known; readonly whole: Analysis } | null;
  /** Asked for, newest; null once its answer is there. */
  wanted: Setup | null;
  /** A person stopped this space's job: it is not begun again before the space changes. */
  givenUp: string | null;
  callOff: () => void;
  waiting: readonly (() => void)[];
}

type Entries = Map<string, Entry>;

export function fieldLater(host: FieldHost, listener: FieldListener): FieldPhase {
  const entries: Entries = new Map();
  const queue = createFieldQueue(host, {
    long: listener.long,
    stopped: (uri, of) => {
      const entry = entries.get(uri);
      if (!entry) return;
      entry.givenUp = spaceOf(of);
      settle(entry, entry.wanted);
    },
    answered: (uri, of, reply) => {
      const entry = entries.get(uri);
      if (!entry) return;
      const wasOlder = entry.merged?.whole.isFieldOlder === true;
      const isNew = take(entry, of, reply, (fault) => listener.log(`${uri}: ${fault}`));
      if (isNew) listener.changed(uri);
      else if (wasOlder) listener.confirmed(uri);
    },
  });
  return {
    known: (analysis, today) => {
      const { setup, source } = analysis;
      if (setup === null) return analysis;
      if (source.version !== null)
        want(entryOf(entries, source.uri), source.uri, setup, host, queue);
      const entry = entries.get(source.uri);
      return entry ? merged(entry, analysis, setup, today) : analysis;
    },
    whole: async (analysis, today) => {
      const { setup, source } = analysis;
      if (setup === null) return analysis;
      const entry = entryOf(entries, source.uri);
      want(entry, source.uri, setup, host, queue);
      while (entry.wanted === setup)
        await new Promise<void>((go) => {
          entry.waiting = [...entry.waiting, go];
        });
      return merged(entry, analysis, setup, today);
    },
    quick: queue.quick,
    forget: (uri) => {
      const entry = entries.get(uri);
      entries.delete(uri);
      if (entry) settle(entry, entry.wanted);
      queue.drop(uri);
    },
  };
}

function entryOf(entries: Entries, uri: string): Entry {
  const entry = entries.get(uri) ?? {
    judge: createJudge(),
    known: null,
    merged: null,
    wanted: null,
    givenUp: null,
    callOff: () => undefined,
    waiting: [],
  };
  entries.set(uri, entry);
  return entry;
}

function want(entry: Entry, uri: string, setup: Setup, host: FieldHost, queue: FieldQueue): void {
  if (entry.wanted === setup || entry.known?.of === setup) return;
  if (entry.givenUp === spaceOf(setup)) return;
  entry.callOff();
  entry.wanted = setup;
  entry.callOff = host.after(REST_MS, () => queue.ask(uri, setup));
  // Whoever waits for an older version need not.
  release(entry);
}

/** @returns whether anything is another now */
function take(entry: Entry, of: Setup, reply: FieldReply, log: (fault: string) => void): boolean {
  if ('fault' in reply) log(`the low end could not be worked out: ${reply.fault}`);
  const part = 'part' in reply ? reply.part : FAILED;
  const before = entry.known?.part ?? null;
  const isSame = before !== null && JSON.stringify(before) === JSON.stringify(part);
  entry.known = { part: isSame ? before : part, of };
  settle(entry, of);
  return !isSame;
}

function settle(entry: Entry, of: Setup | null): void {
  if (entry.wanted !== of) return;
  entry.callOff();
  entry.wanted = null;
  release(entry);
}

function release(entry: Entry): void {
  const { waiting } = entry;
  entry.waiting = [];
  for (const go of waiting) go();
}

function merged(entry: Entry, analysis: Analysis, setup: Setup, today: string): Analysis {
  const { known } = entry;
  if (known === null) return analysis;
  if (known.of !== setup && !isStillAbout(known.part.field, setup.room)) return analysis;
  const { part } = known;
  const isKept = entry.merged?.of === analysis && entry.merged.known === known;
  if (entry.merged && isKept) return entry.merged.whole;
  const whole = {
    ...mergedField(analysis, part, today, entry.judge),
    isFieldOlder: known.of !== setup,
  };
  entry.merged = { of: analysis, known, whole };
  return whole;
}

/** A fault of ours: the rest of the room stands. */
const FAILED: FieldPart = {
  field: null,
  notes: [
    { path: [], message: 'The low end could not be worked out, by a fault of groundbass itself' },
  ],
};
