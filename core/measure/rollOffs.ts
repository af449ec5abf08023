// Where a response on the common grid falls off: its lower and upper end, 6 dB below the pass band, and how steeply it falls there.

import type { RollOff } from '../../schema/model/gear.ts';
import { SAMPLES } from '../acoustics/sampledResponse.ts';

export const SIX_DB = 6;
/** No loudspeaker falls, or is taken to go on falling, less or more steeply. Common practice, no source. */
export const LEAST_SLOPE_DB_OCT = 6;
export const MOST_SLOPE_DB_OCT = 48;
/** A slope is read down to so far below the pass band: deeper, noise stands in for it. */
const DEEPEST_DB = 20;

/**
 * Downwards and upwards from the loudest place to where it is 6 dB down.
 *
 * @param level_db on the common grid, re the pass band
 * @param firstIndex @param lastIndex what of the grid is known
 * @returns null at an end that never falls so far
 */
export function rollOffs(
  level_db: Float64Array,
  firstIndex: number,
  lastIndex: number,
): { readonly low: RollOff | null; readonly high: RollOff | null } {
  const highest = level_db
    .subarray(firstIndex, lastIndex + 1)
    .reduce((best, level, i, all) => ((all[best] as number) < level ? i : best), 0);
  const reference = firstIndex + highest;
  return {
    low: rollOff(level_db, reference, firstIndex, -1),
    high: rollOff(level_db, reference, lastIndex, 1),
  };
}

function rollOff(
  level_db: Float64Array,
  reference: number,
  end: number,
  step: 1 | -1,
): RollOff | null {
  const at = (i: number) => level_db[i] as number;
  let i = reference;
  while (i !== end && -SIX_DB < at(i)) i += step;
  if (-SIX_DB < at(i) || i === reference) return null;
  const share = (at(i - step) + SIX_DB) / (at(i - step) - at(i));
  const place = i - step + step * share;
  let deep = i;
  while (deep !== end && -DEEPEST_DB < at(deep) && at(deep + step) < at(deep)) deep += step;
  const octaves = Math.abs(deep - place) / SAMPLES.anOctave;
  const slope = 0 < octaves ? (-SIX_DB - at(deep)) / octaves : LEAST_SLOPE_DB_OCT;
  return {
    minus6db_hz: Math.round(SAMPLES.from_hz * 2 ** (place / SAMPLES.anOctave) * 100) / 100,
    slope_db_oct: Math.min(
      MOST_SLOPE_DB_OCT,
      Math.max(LEAST_SLOPE_DB_OCT, 6 * Math.round(slope / 6)),
    ),
  };
}
