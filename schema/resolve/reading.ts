// Reading: what piles up while one file is resolved: problems, references, gaps, stated ±, notes, habits.

import type { Range } from '../model/located.ts';
import type { ParsedFile } from '../model/parsedFile.ts';
import { isAtOrBelow, type Path } from '../model/path.ts';
import type { Problem, Related, TextFix } from '../model/problem.ts';
import type { Gap, GapReason } from '../model/quantities.ts';
import type { Reference, ReferenceKind } from '../model/resolved.ts';
import { MOST_PROBLEMS } from '../parse/limits.ts';
import { isUnknown, type Place, rangeOf } from './place.ts';

/** One per file and run; the readers of its parts add to it, and `resolveRoom` hands its lists out. */
export interface Reading {
  readonly file: ParsedFile;
  /** Paths at which the parse has already told an error: nothing is read or told there again. */
  readonly faulty: readonly Path[];
  readonly defaultSampleRate_hz: number | null;
  readonly problems: Problem[];
  readonly references: Reference[];
  readonly gaps: Gap[];
  readonly plusMinus: Record<string, number>;
  readonly notes: { readonly path: Path; readonly text: string }[];
  /** How often each unit was written, by its symbol. */
  readonly unitCounts: Map<string, number>;
}

export function startReading(file: ParsedFile, defaultSampleRate_hz: number | null): Reading {
  return {
    file,
    faulty: file.problems.filter(({ severity }) => severity === 'error').map(({ path }) => path),
    defaultSampleRate_hz,
    problems: [],
    references: [],
    gaps: [],
    plusMinus: {},
    notes: [],
    unitCounts: new Map(),
  };
}

export interface Told {
  readonly code: string;
  readonly severity?: Problem['severity'];
  readonly message: string;
  readonly fixes?: readonly TextFix[];
  readonly related?: readonly Related[];
}

/** Tells a problem at a place; what is not written anywhere has none to tell. */
export function tell(reading: Reading, place: Place, told: Told | (() => Told)): void {
  const range = rangeOf(place);
  if (range !== null) tellAt(reading, place.path, range, told);
}

/**
 * Tells a problem at a range inside a value.
 *
 * @param told a function where finding the words takes time: beyond so many problems, which nobody reads, it is not called
 */
export function tellAt(
  reading: Reading,
  path: Path,
  range: Range,
  told: Told | (() => Told),
): void {
  const isRead = reading.problems.length < MOST_PROBLEMS;
  const { code, severity, message, fixes, related } =
    typeof told !== 'function' ? told : isRead ? told() : UNREAD;
  reading.problems.push({
    code,
    severity: severity ?? 'error',
    path,
    range,
    message,
    fixes: fixes ?? [],
    ...(related === undefined ? {} : { related }),
  });
}

/** Stands for a problem that is only counted. */
const UNREAD: Told = { code: 'limits/too-many', message: '' };

/** Whether the parse has told an error exactly here. */
export function isFaulty(reading: Reading, path: Path): boolean {
  return reading.faulty.some(
    (faulty) => faulty.length === path.length && isAtOrBelow(faulty, path),
  );
}

/** Records that a value the computations would have used is not there, and why. */
export function recordGap(reading: Reading, place: Place): void {
  reading.gaps.push({ path: place.path, reason: gapReason(reading, place) });
}

function gapReason(reading: Reading, place: Place): GapReason {
  if (isUnknown(place)) return 'unknown';
  if (rangeOf(place) !== null) return 'in error';
  // A damaged part is left out of the tree: what is told at or below its path, or above it, made it so.
  const damaged = reading.faulty.some(
    (faulty) => faulty.length !== 0 && isAtOrBelow(faulty, place.path),
  );
  return damaged ? 'in error' : 'not recorded';
}

export function refer(
  reading: Reading,
  kind: ReferenceKind,
  word: { readonly id: string; readonly range: Range; readonly path: Path },
  target: Reference['target'],
): void {
  reading.references.push({ kind, ...word, target });
}
