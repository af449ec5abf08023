// What a response curve comes to in a few figures: median, deepest dip, highest peak, and the usual "± dB".

import type { CurveExtremes, Extreme } from '../fieldFigures.ts';

/** Where bass is judged. */
export const JUDGED_HZ = { from: 20, to: 200 } as const;
/** A source plays where it is within 10 dB of its best: where two such levels still count in a sum. */
export const PLAYS_DB = 10;

/**
 * @param free_db the level without the room, by frequency: says where the source plays
 * @returns null where it plays at fewer than a dozen frequencies of the grid
 */
export function extremesOf(
  frequency_hz: readonly number[],
  level_db: ArrayLike<number>,
  free_db: ArrayLike<number>,
): CurveExtremes | null {
  const [first, last] = playsFrom(frequency_hz, free_db);
  if (last - first < 12) return null;
  const f_hz = frequency_hz.slice(first, last + 1);
  const levels_db = Float64Array.from(f_hz, (_, i) => level_db[first + i] ?? 0);
  const median_db = medianOf(levels_db);
  const smooth_db = thirdOctaves_db(f_hz, levels_db);
  return {
    from_hz: f_hz[0] ?? 0,
    to_hz: f_hz[f_hz.length - 1] ?? 0,
    median_db,
    dip: extreme(f_hz, levels_db, median_db, -1),
    peak: extreme(f_hz, levels_db, median_db, 1),
    plusMinus_db: (Math.max(...smooth_db) - Math.min(...smooth_db)) / 2,
  };
}

/** First and last place of the grid at which the source plays; nowhere: the last before the first. */
function playsFrom(
  frequency_hz: readonly number[],
  free_db: ArrayLike<number>,
): readonly [number, number] {
  let best_db = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < free_db.length; i++) best_db = Math.max(best_db, free_db[i] as number);
  let [first, last] = [0, -1];
  frequency_hz.forEach((f_hz, i) => {
    const plays = best_db - PLAYS_DB <= (free_db[i] ?? Number.NEGATIVE_INFINITY);
    if (!plays || f_hz < JUDGED_HZ.from || JUDGED_HZ.to < f_hz) return;
    if (last < 0) first = i;
    last = i;
  });
  return [first, last];
}

/** The highest (sign 1) or lowest (−1) place that stands out from both its neighbours; the outermost of all where there is none. */
function extreme(
  frequency_hz: readonly number[],
  level_db: Float64Array,
  median_db: number,
  sign: 1 | -1,
): Extreme {
  let [top, outermost] = [-1, 0];
  const height = (i: number) => sign * (level_db[i] as number);
  for (let i = 0; i < level_db.length; i++) {
    if (height(outermost) < height(i)) outermost = i;
    const isInside = 0 < i && i + 1 < level_db.length;
    const isTop = isInside && height(i - 1) <= height(i) && height(i + 1) < height(i);
    if (isTop && (top < 0 || height(top) < height(i))) top = i;
  }
  const at = top < 0 ? outermost : top;
  return { frequency_hz: frequency_hz[at] ?? 0, level_db: (level_db[at] ?? 0) - median_db };
}

export function medianOf(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const middle = Math.floor(sorted.length / 2);
  const [low, high] = [sorted[middle - 1] ?? sorted[0] ?? 0, sorted[middle] ?? 0];
  return sorted.length % 2 === 1 ? high : (low + high) / 2;
}

/** Mean power over a third of an octave round each frequency; frequencies ascend. */
export function thirdOctaves_db(
  frequency_hz: readonly number[],
  level_db: ArrayLike<number>,
): Float64Array {
  const half = 2 ** (1 / 6) * (1 + 1e-9);
  const power = Float64Array.from(level_db, (level) => 10 ** (level / 10));
  let from = 0;
  let to = 0;
  let sum = 0;
  // Both ends of the window only move upwards.
  return power.map((middle, i) => {
    const centre_hz = frequency_hz[i] as number;
    while (to < power.length && (frequency_hz[to] as number) <= centre_hz * half)
      sum += power[to++] as number;
    while ((frequency_hz[from] as number) < centre_hz / half) sum -= power[from++] as number;
    // What is left of subtracting great powers may fall below the middle's own, which is in the sum.
    return 10 * Math.log10(Math.max(sum, middle) / (to - from));
  });
}
