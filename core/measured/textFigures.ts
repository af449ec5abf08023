// What a response that someone else worked out still tells: its curve on a grid of bounded size, its level, its source's band.

import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import { thirdOctaves } from '../acoustics/thirdOctave.ts';
import { type LevelCurve, levelAt_db } from '../measure/correction.ts';
import {
  BELOW_STRONGEST_DB,
  levelBand,
  type SourceBand,
  strongBand,
} from '../measure/sourceBand.ts';
import type { MeasuredResponse, MeasuredTake } from './measuredFigures.ts';

export interface TextFigures {
  readonly response: MeasuredResponse;
  readonly level: NonNullable<MeasuredTake['level']>;
  readonly sourceBand: SourceBand;
}

/** A response with more points is averaged into so many an octave: nobody sees more. */
const MOST_POINTS = 1000;
const POINTS_PER_OCTAVE = 48;
/** Steps over which powers are averaged, an octave. */
const STEPS_PER_OCTAVE = 48;
/** Sound pressure levels of a room lie above this, levels against full scale or a reference below it. */
const LEAST_SPL_DB = 40;
const HEARD_HZ = [12.5, 20_000] as const;

/**
 * @param curve ascending, at least three points
 * @param phase_rad at the same frequencies; null where the file has none
 * @param isTimed whether its phases count from the moment of playing
 */
export function textFigures(
  curve: LevelCurve,
  phase_rad: Float64Array | null,
  isTimed: boolean,
): TextFigures {
  const sourceBand = bandOf(curve);
  const [from_hz, to_hz] = levelBand(sourceBand);
  const level_db = meanPower_db(curve, from_hz, to_hz);
  return {
    response: responseOf(curve, phase_rad, isTimed),
    level: { level_db, from_hz, to_hz, basis: LEAST_SPL_DB <= level_db ? 'spl' : 'relative' },
    sourceBand,
  };
}

function bandOf(curve: LevelCurve): SourceBand {
  const first_hz = curve.frequencies_hz[0] as number;
  const last_hz = curve.frequencies_hz.at(-1) as number;
  const bands = thirdOctaves(HEARD_HZ[0], HEARD_HZ[1]).filter(
    ({ exact_hz }) => first_hz <= exact_hz && exact_hz <= last_hz,
  );
  if (bands.length === 0) return { from_hz: first_hz, to_hz: last_hz };
  const powers = Float64Array.from(
    bands,
    ({ lower_hz, upper_hz }) => 10 ** (meanPower_db(curve, lower_hz, upper_hz) / 10),
  );
  const band = strongBand(bands, powers, BELOW_STRONGEST_DB);
  return { from_hz: Math.max(first_hz, band.from_hz), to_hz: Math.min(last_hz, band.to_hz) };
}

/** Even over the logarithm of frequency, of that part of a band which the curve covers. */
function meanPower_db(curve: LevelCurve, from_hz: number, to_hz: number): number {
  const low_hz = Math.max(from_hz, curve.frequencies_hz[0] as number);
  const high_hz = Math.min(to_hz, curve.frequencies_hz.at(-1) as number);
  const grid_hz =
    low_hz < high_hz ? logGrid_hz(low_hz, high_hz, STEPS_PER_OCTAVE) : Float64Array.of(high_hz);
  const powers = grid_hz.map((f) => 10 ** (levelAt_db(curve, f) / 10));
  return 10 * Math.log10(powers.reduce((sum, one) => sum + one, 0) / powers.length);
}

function responseOf(
  curve: LevelCurve,
  phase_rad: Float64Array | null,
  isTimed: boolean,
): MeasuredResponse {
  const phaseFrom = phase_rad === null ? null : isTimed ? 'playing' : 'arrival';
  if (curve.frequencies_hz.length <= MOST_POINTS)
    return {
      frequency_hz: Array.from(curve.frequencies_hz),
      level_db: Array.from(curve.levels_db),
      phase_rad: phase_rad === null ? null : Array.from(phase_rad),
      phaseFrom,
      smoothing: null,
    };
  const { frequencies_hz } = curve;
  const grid_hz = logGrid_hz(
    frequencies_hz[0] as number,
    frequencies_hz.at(-1) as number,
    POINTS_PER_OCTAVE,
  );
  return {
    frequency_hz: Array.from(grid_hz),
    level_db: thinned_db(curve, grid_hz),
    phase_rad: phase_rad === null ? null : nearest_rad(frequencies_hz, phase_rad, grid_hz),
    phaseFrom,
    smoothing: POINTS_PER_OCTAVE,
  };
}

/** The mean power of the points about each frequency; between two points where there are none. */
function thinned_db(curve: LevelCurve, grid_hz: Float64Array): readonly number[] {
  const half = 2 ** (1 / (2 * POINTS_PER_OCTAVE));
  let first = 0;
  return Array.from(grid_hz, (frequency_hz) => {
    while ((curve.frequencies_hz[first] ?? Infinity) < frequency_hz / half) first++;
    let sum = 0;
    let count = 0;
    for (let i = first; (curve.frequencies_hz[i] ?? Infinity) <= frequency_hz * half; i++) {
      sum += 10 ** ((curve.levels_db[i] as number) / 10);
      count++;
    }
    return count === 0 ? levelAt_db(curve, frequency_hz) : 10 * Math.log10(sum / count);
  });
}

/** Phases turn from point to point: the nearest one is a phase that was measured, a mean of two is none. */
function nearest_rad(
  frequencies_hz: Float64Array,
  phase_rad: Float64Array,
  grid_hz: Float64Array,
): readonly number[] {
  let i = 0;
  return Array.from(grid_hz, (frequency_hz) => {
    const apart = (index: number): number =>
      Math.abs((frequencies_hz[index] ?? Infinity) - frequency_hz);
    while (apart(i + 1) < apart(i)) i++;
    return phase_rad[i] as number;
  });
}
