// Two responses of the same take held against each other in third octaves: a difference of shape, and one of level.

import { bandAt, thirdOctaves } from '../acoustics/thirdOctave.ts';
import type { MeasuredResponse } from '../measured/measuredFigures.ts';
import type { ResponseDrift } from './driftFigures.ts';

/** Points of a third octave at which a response is read; finer grids than these are read between. */
const READINGS = 13;

/** A response is read between two points no further apart than this: a text may give octaves. */
const WIDEST_GAP_OCTAVES = 1.05;

/** Fewer bands say little of a shape. */
const FEWEST_BANDS = 3;

/**
 * @param earlier ascending
 * @param later ascending
 * @returns the mean difference over the bands that both cover, and what is left of it band by band; null below three bands
 */
export function responseDrift(
  earlier: MeasuredResponse,
  later: MeasuredResponse,
): { readonly mean_db: number; readonly response: ResponseDrift } | null {
  const differences = thirdOctaves(16, 20000).flatMap((band) => {
    const before_db = bandLevel_db(earlier, band.index);
    const after_db = bandLevel_db(later, band.index);
    if (before_db === null || after_db === null) return [];
    return [{ frequency_hz: band.nominal_hz, moved_db: after_db - before_db }];
  });
  if (differences.length < FEWEST_BANDS) return null;
  const mean_db = meanOf(differences.map(({ moved_db }) => moved_db));
  const left = differences.map(({ frequency_hz, moved_db }) => ({
    frequency_hz,
    moved_db: moved_db - mean_db,
  }));
  const worst = left.reduce((one, other) =>
    Math.abs(one.moved_db) < Math.abs(other.moved_db) ? other : one,
  );
  return {
    mean_db,
    response: {
      frequency_hz: left.map(({ frequency_hz }) => frequency_hz),
      moved_db: left.map(({ moved_db }) => moved_db),
      rms_db: Math.sqrt(meanOf(left.map(({ moved_db }) => moved_db ** 2))),
      worst,
    },
  };
}

/**
 * Mean power over a third octave, even in log frequency; null where a part of it is not known.
 *
 * @param bandIndex 0 at 1 kHz
 */
export function bandLevel_db(response: MeasuredResponse, bandIndex: number): number | null {
  const { lower_hz, upper_hz } = bandAt(bandIndex, 3);
  let power = 0;
  for (let index = 0; index < READINGS; index += 1) {
    const share = (index + 0.5) / READINGS;
    const level_db = levelAt_db(response, lower_hz * (upper_hz / lower_hz) ** share);
    if (level_db === null) return null;
    power += 10 ** (level_db / 10) / READINGS;
  }
  return 10 * Math.log10(power);
}

/** Between its neighbours in octaves and decibels; null where one of them is not known or they are far apart. */
function levelAt_db(
  { frequency_hz: grid_hz, level_db }: MeasuredResponse,
  frequency_hz: number,
): number | null {
  let [low, high] = [0, grid_hz.length - 1];
  const [first_hz = Number.POSITIVE_INFINITY, last_hz = 0] = [grid_hz[low], grid_hz[high]];
  if (frequency_hz < first_hz || last_hz < frequency_hz) return null;
  while (low + 1 < high) {
    const middle = (low + high) >> 1;
    if ((grid_hz[middle] ?? 0) <= frequency_hz) low = middle;
    else high = middle;
  }
  const [from_hz = 1, to_hz = 1] = [grid_hz[low], grid_hz[high]];
  const [from_db = null, to_db = null] = [level_db[low], level_db[high]];
  if (from_db === null || to_db === null) return null;
  const gap = Math.log2(to_hz / from_hz);
  if (WIDEST_GAP_OCTAVES < gap) return null;
  const share = gap === 0 ? 0 : Math.log2(frequency_hz / from_hz) / gap;
  return from_db + share * (to_db - from_db);
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
