// The comment in a sweep's WAV file, by which the analysis knows again what was played.

import type { SweepDesign } from '../../core/measure/sweep.ts';

/** Keys in the order in which they stand. */
const KEYS = [
  ['from', 'from_hz'],
  ['to', 'to_hz'],
  ['length', 'length_s'],
  ['level', 'level_dbfs'],
  ['fade-in', 'fadeIn_s'],
  ['fade-out', 'fadeOut_s'],
  ['lead', 'lead_s'],
  ['gap', 'gap_s'],
  ['repeats', 'repeatCount'],
] as const;

export function sweepTag(design: SweepDesign): string {
  return `exponential sweep ${KEYS.map(([word, key]) => `${word}=${design[key]}`).join(' ')}`;
}

/** @returns null where the comment tells of no sweep, or of one that cannot be */
export function sweepFromTag(comment: string, sampleRate_hz: number): SweepDesign | null {
  if (!comment.startsWith('exponential sweep ')) return null;
  const words = new Map(
    comment
      .slice(0, 1000)
      .split(' ')
      .map((word) => word.split('=', 2) as [string, string | undefined]),
  );
  const figure = (word: string): number => Number(words.get(word) ?? Number.NaN);
  const design: SweepDesign = {
    sampleRate_hz,
    from_hz: figure('from'),
    to_hz: figure('to'),
    length_s: figure('length'),
    level_dbfs: figure('level'),
    fadeIn_s: figure('fade-in'),
    fadeOut_s: figure('fade-out'),
    lead_s: figure('lead'),
    gap_s: figure('gap'),
    repeatCount: figure('repeats'),
  };
  return possible(design) ? design : null;
}

function possible(design: SweepDesign): boolean {
  const { from_hz, to_hz, sampleRate_hz, length_s, lead_s, gap_s, repeatCount } = design;
  return (
    0 < from_hz &&
    from_hz < to_hz &&
    to_hz <= sampleRate_hz / 2 &&
    0 < length_s &&
    length_s < 600 &&
    0 <= lead_s &&
    0 <= gap_s &&
    Number.isInteger(repeatCount) &&
    0 < repeatCount &&
    Number.isFinite(design.level_dbfs + design.fadeIn_s + design.fadeOut_s + lead_s + gap_s)
  );
}
