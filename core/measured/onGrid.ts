// A measured response on the grid of a planned one: means of power where it is finer, straight lines where it is coarser.

import type { MeasuredResponse } from './measuredFigures.ts';

/** Points farther apart than this leave a hole, not a line. */
const MOST_GAP_RATIO: number = 2 ** (1 / 3);

/**
 * @param frequency_hz ascending, evenly spaced in octaves
 * @returns dB by frequency of the grid; null where the take supports nothing
 */
export function onGrid_db(
  { frequency_hz: from_hz, level_db }: Pick<MeasuredResponse, 'frequency_hz' | 'level_db'>,
  frequency_hz: readonly number[],
): readonly (number | null)[] {
  const half = Math.sqrt((frequency_hz[1] ?? 2) / (frequency_hz[0] ?? 1));
  let first = 0;
  return frequency_hz.map((f_hz) => {
    while (first < from_hz.length && (from_hz[first] ?? 0) < f_hz / half) first++;
    let sum = 0;
    let count = 0;
    for (let i = first; i < from_hz.length && (from_hz[i] ?? 0) < f_hz * half; i++) {
      const level = level_db[i];
      if (level === null || level === undefined) return null;
      sum += 10 ** (level / 10);
      count++;
    }
    if (2 < count) return 10 * Math.log10(sum / count);
    return between(from_hz, level_db, f_hz);
  });
}

function between(
  from_hz: readonly number[],
  level_db: readonly (number | null)[],
  f_hz: number,
): number | null {
  const above = from_hz.findIndex((one) => f_hz <= one);
  const [high_hz, high] = [from_hz[above], level_db[above]];
  if (high_hz === undefined || high === null || high === undefined) return null;
  if (high_hz === f_hz) return high;
  const [low_hz, low] = [from_hz[above - 1], level_db[above - 1]];
  if (low_hz === undefined || low === null || low === undefined) return null;
  if (MOST_GAP_RATIO < high_hz / low_hz) return null;
  return low + ((high - low) * Math.log(f_hz / low_hz)) / Math.log(high_hz / low_hz);
}

/** Mean power over 1/n octave round each frequency of a grid that is evenly spaced in octaves. */
export function smoothed_db(
  frequency_hz: readonly number[],
  level_db: ArrayLike<number>,
  count: number | null,
): Float64Array {
  const step = Math.log2((frequency_hz[1] ?? 2) / (frequency_hz[0] ?? 1));
  const reach = count === null ? 0 : Math.floor(1 / (2 * count * step) + 1e-6);
  const power = Float64Array.from(level_db, (level) => 10 ** (level / 10));
  return power.map((_, i) => {
    const near = power.subarray(Math.max(0, i - reach), i + reach + 1);
    return 10 * Math.log10(near.reduce((sum, one) => sum + one, 0) / near.length);
  });
}

/** Phase between the points of a measured response, by the shorter way round; null where it has none. */
export function phaseOnGrid_rad(
  { frequency_hz: from_hz, phase_rad }: Pick<MeasuredResponse, 'frequency_hz' | 'phase_rad'>,
  frequency_hz: readonly number[],
): readonly (number | null)[] {
  return frequency_hz.map((f_hz) => {
    const above = from_hz.findIndex((one) => f_hz <= one);
    const [high_hz, high] = [from_hz[above], phase_rad?.[above]];
    const [low_hz, low] = [from_hz[above - 1], phase_rad?.[above - 1]];
    if (high_hz === f_hz) return high ?? null;
    if (high_hz === undefined || low_hz === undefined) return null;
    if (typeof high !== 'number' || typeof low !== 'number') return null;
    if (MOST_GAP_RATIO < high_hz / low_hz) return null;
    const turn = 2 * Math.PI;
    const way = high - low - turn * Math.round((high - low) / turn);
    return low + (way * (f_hz - low_hz)) / (high_hz - low_hz);
  });
}
