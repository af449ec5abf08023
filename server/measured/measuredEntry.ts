// What the third phase remembers of one room file: what is wanted, what is known, what was shown.

import type { MeasuredFigures } from '../../core/measured/measuredFigures.ts';
import { measuredFigures, type Recording, recordingsOf } from '../../core/measured/measuredOf.ts';
import { NOTHING_READ } from '../../core/measured/takeReading.ts';
import type { VerificationFigures } from '../../core/measured/verification.ts';
import { createJudge, type Judge } from '../../core/rules/judge.ts';
import type { Setup } from '../../core/setup.ts';
import type { Analysis } from '../analysis.ts';
import { mergedMeasured } from './mergedMeasured.ts';
import type { ReadingCache } from './readingCache.ts';
import { MOST_TAKES, requestsOf, type TakeRequest } from './takeRequests.ts';

export interface Entry {
  readonly judge: Judge;
  /** Readings that are wanted, by their keys. */
  wanted: ReadonlyMap<string, TakeRequest>;
  figures: { readonly parts: readonly unknown[]; readonly measured: MeasuredFigures | null } | null;
  /** The last comparison with the plan, and what it was made of. */
  verified: { readonly of: Compared; readonly figures: VerificationFigures | null } | null;
  /** The comparison that is asked for. */
  comparing: Compared | null;
  merged: { readonly parts: readonly unknown[]; readonly whole: Analysis } | null;
  callOff: () => void;
  waiting: readonly (() => void)[];
}

/** The setup before this phase, its takes, and the two together. */
export interface Compared {
  readonly setup: Setup;
  readonly measured: MeasuredFigures;
  readonly whole: Setup;
}

export function createEntry(): Entry {
  return {
    judge: createJudge(),
    wanted: new Map(),
    figures: null,
    verified: null,
    comparing: null,
    merged: null,
    callOff: () => undefined,
    waiting: [],
  };
}

/** Whoever waits looks again. */
export function release(entry: Entry): void {
  const { waiting } = entry;
  entry.waiting = [];
  for (const go of waiting) go();
}

export function hasTakes({ setup }: Analysis): boolean {
  return setup?.room.sessions?.some((session) => recordingsOf(session).length !== 0) ?? false;
}

export function isPending({ wanted }: Entry, cache: ReadingCache): boolean {
  return [...wanted.keys()].some((key) => cache.get(key) === null);
}

/**
 * Looks again at what the room's takes are made of.
 *
 * @returns the very same figures while takes and readings are the same; null while nothing is known
 */
export function lookAgain(
  entry: Entry,
  analysis: Analysis,
  { room }: Setup,
  cache: ReadingCache,
): MeasuredFigures | null {
  const { sessions = [] } = room;
  const requestsIn = requestsOf(analysis);
  const requests = new Map<Recording, TakeRequest | null>();
  for (const session of sessions)
    for (const { recording, request } of requestsIn(session))
      requests.set(recording, requests.size < MOST_TAKES ? request : null);
  const wanted = [...requests.values()].filter((request) => request !== null);
  entry.wanted = new Map(wanted.map((request) => [cache.keyOf(request), request]));
  const readings = new Map(
    [...requests].map(([take, request]) => [
      take,
      request === null ? NOTHING_READ : (cache.get(cache.keyOf(request)) ?? cache.older(request)),
    ]),
  );
  const parts = [sessions, ...readings.values()];
  if (!sameItems(entry.figures?.parts ?? [], parts)) {
    const isNothing = parts.slice(1).every((reading) => reading === null);
    const measured = isNothing ? null : measuredFigures(room, (take) => readings.get(take) ?? null);
    entry.figures = { parts, measured };
  }
  return entry.figures?.measured ?? null;
}

/** The analysis with what is known; the very same while nothing of it is another. */
export function mergedOf(
  entry: Entry,
  analysis: Analysis,
  measured: MeasuredFigures,
  today: string,
): Analysis {
  const known = entry.verified?.figures ?? null;
  const verification = known !== null && isStillAbout(known, measured) ? known : null;
  const parts = [analysis, measured, verification, today];
  if (entry.merged === null || !sameItems(entry.merged.parts, parts)) {
    const whole = mergedMeasured(analysis, measured, verification, today, entry.judge);
    entry.merged = { parts, whole };
  }
  return entry.merged.whole;
}

/** Whether every take that a comparison speaks of is still there: then it may stand in while the new one is made. */
function isStillAbout({ takes }: VerificationFigures, { sessions }: MeasuredFigures): boolean {
  const ids = new Set(
    sessions.flatMap(({ session, takes: own }) => own.map(({ take }) => `${session}.${take}`)),
  );
  return takes.every(({ session, take }) => ids.has(`${session}.${take}`));
}

function sameItems(one: readonly unknown[], other: readonly unknown[]): boolean {
  return one.length === other.length && one.every((item, index) => item === other[index]);
}
