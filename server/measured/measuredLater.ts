// The third phase in an editor: takes are read beside the typing, by a worker, and held against the plan when the hand rests.
//
// Of open files, and of whatever is asked for whole. Until an answer is there, what was known before stands in.

import type { MeasuredFigures } from '../../core/measured/measuredFigures.ts';
import type { Setup } from '../../core/setup.ts';
import type { Analysis } from '../analysis.ts';
import type { Files } from '../files/files.ts';
import { baseName } from '../files/uri.ts';
import {
  type Compared,
  createEntry,
  type Entry,
  hasTakes,
  isPending,
  lookAgain,
  mergedOf,
  release,
} from './measuredEntry.ts';
import type { MeasuredPhase } from './measuredPhase.ts';
import {
  createMeasuredQueue,
  type MeasuredQueue,
  type MeasuredQueueListener,
} from './measuredQueue.ts';
import type { MeasuredHost } from './measuredWorkers.ts';
import { createReadingCache } from './readingCache.ts';

export interface MeasuredListener extends Pick<MeasuredQueueListener, 'log'> {
  /** More is known of a file's takes now. */
  readonly changed: (uri: string) => void;
  /** A job about this file takes long. The answer ends the telling. */
  readonly long: (name: string, stop: () => void) => () => void;
}

/** Typing is faster than this; a pause is longer. */
const REST_MS = 150;
/** While many takes are read, what is known is told so often. */
const TELL_MS = 700;

export function measuredLater(
  host: MeasuredHost,
  files: Files,
  listener: MeasuredListener,
): MeasuredPhase {
  const entries = new Map<string, Entry>();
  const cache = createReadingCache();
  const teller = createTeller(host, (uri) => {
    if (entries.has(uri)) listener.changed(uri);
  });

  const queue: MeasuredQueue = createMeasuredQueue(host, files, {
    isWanted: (asked) =>
      asked.kind === 'take'
        ? [...entries.values()].some(({ wanted }) => wanted.has(asked.key))
        : entries.get(asked.uri)?.comparing?.whole === asked.setup,
    read: (key, request, reading) => {
      cache.set(key, request, reading);
      for (const [uri, entry] of entries) {
        if (!entry.wanted.has(key)) continue;
        release(entry);
        teller.tell(uri, isPending(entry, cache));
      }
    },
    verified: (uri, setup, figures) => {
      const entry = entries.get(uri);
      if (!entry?.comparing || entry.comparing.whole !== setup) return;
      entry.verified = { of: entry.comparing, figures };
      entry.comparing = null;
      release(entry);
      teller.tell(uri, false);
    },
    long: (asked, stop) =>
      listener.long(asked.kind === 'take' ? asked.request.file.name : baseName(asked.uri), stop),
    log: listener.log,
  });

  function take(analysis: Analysis, today: string, isWanted: boolean): Taken {
    const { setup, source } = analysis;
    if (setup === null || !hasTakes(analysis)) {
      forget(source.uri);
      return { analysis, isWhole: true };
    }
    const entry = entries.get(source.uri) ?? createEntry();
    entries.set(source.uri, entry);
    const measured = lookAgain(entry, analysis, setup, cache);
    queue.review();
    const isReading = isPending(entry, cache);
    if (isReading && isWanted)
      for (const [key, request] of entry.wanted)
        if (cache.get(key) === null) queue.ask({ kind: 'take', key, request });
    if (measured === null) return { analysis, isWhole: !isReading };
    const isCompared = isComparedWith(entry, setup, measured);
    if (!isCompared && !isReading && isWanted && analysis.isFieldOlder !== true)
      compare(entry, source.uri, { setup, measured, whole: { ...setup, measured } });
    return {
      analysis: mergedOf(entry, analysis, measured, today),
      isWhole: !isReading && isCompared,
    };
  }

  function compare(entry: Entry, uri: string, compared: Compared): void {
    const { comparing } = entry;
    if (comparing?.setup === compared.setup && comparing.measured === compared.measured) return;
    entry.comparing = compared;
    entry.callOff();
    entry.callOff = host.after(REST_MS, () =>
      queue.ask({ kind: 'verify', key: `verify ${uri}`, uri, setup: compared.whole }),
    );
    queue.review();
  }

  function forget(uri: string): void {
    const entry = entries.get(uri);
    if (!entry) return;
    entries.delete(uri);
    entry.callOff();
    release(entry);
    queue.review();
  }

  return {
    known: (analysis, today) => take(analysis, today, analysis.source.version !== null).analysis,
    whole: async (analysis, today) => {
      for (;;) {
        const { analysis: whole, isWhole } = take(analysis, today, true);
        const entry = entries.get(analysis.source.uri);
        if (isWhole || !entry) return whole;
        await new Promise<void>((go) => {
          entry.waiting = [...entry.waiting, go];
        });
        // Closed meanwhile: nothing more comes.
        if (entries.get(analysis.source.uri) !== entry) return whole;
      }
    },
    changedOnDisk: cache.changedOnDisk,
    forget,
  };
}

interface Taken {
  readonly analysis: Analysis;
  /** All takes are read, and held against the plan where there is one. */
  readonly isWhole: boolean;
}

/** Without the low end there is no plan to hold takes against. */
function isComparedWith(entry: Entry, setup: Setup, measured: MeasuredFigures): boolean {
  if (!setup.field) return true;
  return entry.verified?.of.setup === setup && entry.verified.of.measured === measured;
}

interface Teller {
  /** At once where all is known, else now and then. */
  readonly tell: (uri: string, isMoreToCome: boolean) => void;
}

function createTeller({ after }: MeasuredHost, changed: (uri: string) => void): Teller {
  const uris = new Set<string>();
  let callOff: (() => void) | null = null;
  function now(): void {
    callOff?.();
    callOff = null;
    const told = [...uris];
    uris.clear();
    for (const uri of told) changed(uri);
  }
  return {
    tell(uri, isMoreToCome) {
      uris.add(uri);
      if (!isMoreToCome) now();
      else callOff ??= after(TELL_MS, now);
    },
  };
}
