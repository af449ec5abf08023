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
  const best_db = Math.max(...Array.from(free_db));
  const inside = frequency_hz.flatMap((f_hz, i) => {
    const plays = best_db - PLAYS_DB <= (free_db[i] ?? Number.NEGATIVE_INFINITY);
    return plays && JUDGED_HZ.from <= f_hz && f_hz <= JUDGED_HZ.to ? [i] : [];
  });
  const [first, last] = [inside[0], inside[inside.length - 1]];
  if (first === undefined || last === undefined || last - first < 12) return null;
  const f_hz = frequency_hz.slice(first, last + 1);
  const levels_db = Array.from({ length: f_hz.length }, (_, i) => level_db[first + i] ?? 0);
  const median_db = medianOf(levels_db);
  const smooth_db = thirdOctaves_db(f_hz, levels_db);
  return {
    from_hz: f_hz[0] ?? 0,
    to_hz: f_hz[f_hz.length - 1] ?? 0,
    median_db,
    dip: turned(
      extreme(
        f_hz,
        levels_db.map((level) => median_db - level),
      ),
    ),
    peak: extreme(
      f_hz,
      levels_db.map((level) => level - median_db),
    ),
    plusMinus_db: (Math.max(...smooth_db) - Math.min(...smooth_db)) / 2,
  };
}

/** The highest place that has lower ones on both sides; the highest of all where there is none. */
function extreme(frequency_hz: readonly number[], height_db: readonly number[]): Extreme {
  const tops = height_db.flatMap((height, i) => {
    const [before, after] = [height_db[i - 1], height_db[i + 1]];
    return before !== undefined && after !== undefined && before <= height && after < height
      ? [i]
      : [];
  });
  const among = 0 < tops.length ? tops : height_db.map((_, i) => i);
  const at = among.reduce((best, i) => ((height_db[best] ?? 0) < (height_db[i] ?? 0) ? i : best));
  return { frequency_hz: frequency_hz[at] ?? 0, level_db: height_db[at] ?? 0 };
}

function turned({ frequency_hz, level_db }: Extreme): Extreme {
  return { frequency_hz, level_db: -level_db };
}

export function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const [low, high] = [sorted[middle - 1] ?? sorted[0] ?? 0, sorted[middle] ?? 0];
  return sorted.length % 2 === 1 ? high : (low + high) / 2;
}

/** Mean power over a third of an octave round each frequency; frequencies ascend. */
export function thirdOctaves_db(
  frequency_hz: readonly number[],
  level_db: readonly number[],
): readonly number[] {
  const half = 2 ** (1 / 6) * (1 + 1e-9);
  const power = level_db.map((level) => 10 ** (level / 10));
  let from = 0;
  let to = 0;
  let sum = 0;
  // Both ends of the window only move upwards.
  return frequency_hz.map((centre_hz, i) => {
    while (to < power.length && (frequency_hz[to] ?? 0) <= centre_hz * half)
      sum += power[to++] ?? 0;
    while ((frequency_hz[from] ?? 0) < centre_hz / half) sum -= power[from++] ?? 0;
    // What is left of subtracting great powers may fall below the middle's own, which is in the sum.
    return 10 * Math.log10(Math.max(sum, power[i] ?? 0) / (to - from));
  });
}
