// The acoustic sum of a main loudspeaker and a subwoofer around their crossover: level, ripple, and phase in the overlap.

import { delayAt } from './allPass.ts';
import { type AnalogueFilter, filterResponse } from './analogueFilter.ts';
import {
  type ComplexResponse,
  levels_db,
  phase_rad,
  polar,
  productOf,
  responseOf,
  sumOf,
  times,
  valueAt,
  wrapped_rad,
} from './complex.ts';
import { nearestIndex } from './frequencyGrid.ts';

/** One side of the sum, from signal to seat. */
export interface Branch {
  /** everything that shapes it: electrical filter, natural roll-off, equaliser, all-pass, in any order */
  readonly filter: AnalogueFilter;
  readonly level_db: number;
  readonly inverted: boolean;
  /** all that it is late by: delay set, latency, flight; only the difference between branches counts */
  readonly delay_s: number;
}

/** Complex response of a branch over a grid; e^{+jωt}. */
export function branchResponse(branch: Branch, frequencies_hz: ArrayLike<number>): ComplexResponse {
  const gain = polar((branch.inverted ? -1 : 1) * 10 ** (branch.level_db / 20), 0);
  const late = responseOf(frequencies_hz, (frequency_hz) =>
    times(gain, delayAt(branch.delay_s, frequency_hz)),
  );
  return productOf(late, filterResponse(branch.filter, frequencies_hz));
}

/** What a sum is worked out from; all arrays on one grid. */
export interface CrossoverSumInput {
  readonly frequencies_hz: Float64Array;
  readonly main: ComplexResponse;
  readonly sub: ComplexResponse;
  readonly crossover_hz: number;
  /** what the sum should be at each frequency; left out, 0 dB throughout */
  readonly target_db?: Float64Array | undefined;
}

export interface LevelAt {
  readonly frequency_hz: number;
  readonly level_db: number;
}

/** The sum over a stretch of frequencies, re its target. */
export interface Ripple {
  readonly from_hz: number;
  readonly to_hz: number;
  /** greatest minus least */
  readonly span_db: number;
  /** the least, often < 0 */
  readonly dip: LevelAt;
  /** the greatest */
  readonly bump: LevelAt;
  readonly rms_db: number;
}

/** The stretch where both sides count: their levels within 10 dB. */
export interface Overlap {
  readonly from_hz: number;
  readonly to_hz: number;
  /** where the two levels are nearest */
  readonly equal_hz: number;
  /** greatest difference of phase, 0 … π, and where it is */
  readonly worstPhase_rad: number;
  readonly worstPhase_hz: number;
  /** mean of cos of the phase difference: 1 together, 0 a quarter turn apart, −1 against each other */
  readonly coherence_ratio: number;
  readonly ripple: Ripple;
}

export interface CrossoverSum {
  readonly frequencies_hz: Float64Array;
  readonly main_db: Float64Array;
  readonly sub_db: Float64Array;
  readonly sum_db: Float64Array;
  /** phase of the sub minus that of the main, −π … π */
  readonly phaseDifference_rad: Float64Array;
  /** null if the levels come within 10 dB nowhere on the grid */
  readonly overlap: Overlap | null;
  /** one octave to either side of the crossover */
  readonly octaves: Ripple;
}

/** Levels this near count as overlap. Common practice, no source. */
export const OVERLAP_DB = 10;

/**
 * Sum of two branches, with what is left of dips, bumps and phase.
 *
 * @param input responses on one grid that covers at least an octave to either side of the crossover
 * @throws RangeError if the arrays differ in length
 */
export function crossoverSum(input: CrossoverSumInput): CrossoverSum {
  const { frequencies_hz, main, sub, crossover_hz } = input;
  const sum_db = levels_db(sumOf(main, sub));
  const main_db = levels_db(main);
  const sub_db = levels_db(sub);
  const phaseDifference_rad = frequencies_hz.map((_, i) =>
    wrapped_rad(phase_rad(valueAt(sub, i)) - phase_rad(valueAt(main, i))),
  );
  const error_db = sum_db.map((level_db, i) => level_db - (input.target_db?.[i] ?? 0));
  const inOctaves = indices(frequencies_hz, (f) => within(f, crossover_hz / 2, crossover_hz * 2));
  const stretch = overlapIndices(main_db, sub_db, nearestIndex(frequencies_hz, crossover_hz));
  return {
    frequencies_hz,
    main_db,
    sub_db,
    sum_db,
    phaseDifference_rad,
    overlap: stretch
      ? overlapOf(stretch, { frequencies_hz, main_db, sub_db, phaseDifference_rad, error_db })
      : null,
    octaves: ripple(frequencies_hz, error_db, inOctaves),
  };
}

/**
 * The grid indices around a start where two levels are within `OVERLAP_DB`, without gaps.
 *
 * @returns ascending: the stretch at the start, or else the one nearest to it; null if there is none on the grid
 */
export function overlapIndices(
  a_db: Float64Array,
  b_db: Float64Array,
  start: number,
): readonly number[] | null {
  const near = (i: number) =>
    Math.abs((a_db[i] ?? Infinity) - (b_db[i] ?? -Infinity)) <= OVERLAP_DB;
  let seed = -1;
  for (let i = 0; i < a_db.length; i++)
    if (near(i) && (seed < 0 || Math.abs(i - start) < Math.abs(seed - start))) seed = i;
  if (seed < 0) return null;
  let first = seed;
  let last = seed;
  while (near(first - 1)) first--;
  while (near(last + 1)) last++;
  return Array.from({ length: last - first + 1 }, (_, i) => first + i);
}

function overlapOf(
  stretch: readonly number[],
  sum: {
    readonly frequencies_hz: Float64Array;
    readonly main_db: Float64Array;
    readonly sub_db: Float64Array;
    readonly phaseDifference_rad: Float64Array;
    readonly error_db: Float64Array;
  },
): Overlap {
  const at = (array: Float64Array, i: number) => array[i] ?? Number.NaN;
  const apart_db = (i: number) => Math.abs(at(sum.main_db, i) - at(sum.sub_db, i));
  const turned_rad = (i: number) => Math.abs(at(sum.phaseDifference_rad, i));
  const equal = stretch.reduce((best, i) => (apart_db(i) < apart_db(best) ? i : best));
  const worst = stretch.reduce((best, i) => (turned_rad(best) < turned_rad(i) ? i : best));
  const cosines = stretch.reduce((total, i) => total + Math.cos(turned_rad(i)), 0);
  return {
    from_hz: at(sum.frequencies_hz, stretch[0] ?? 0),
    to_hz: at(sum.frequencies_hz, stretch.at(-1) ?? 0),
    equal_hz: at(sum.frequencies_hz, equal),
    worstPhase_rad: turned_rad(worst),
    worstPhase_hz: at(sum.frequencies_hz, worst),
    coherence_ratio: cosines / stretch.length,
    ripple: ripple(sum.frequencies_hz, sum.error_db, stretch),
  };
}

/** Extremes and root mean square of an error over some indices of a grid. @throws RangeError if there are none */
function ripple(
  frequencies_hz: Float64Array,
  error_db: Float64Array,
  stretch: readonly number[],
): Ripple {
  const points = stretch.map(
    (i): LevelAt => ({
      frequency_hz: frequencies_hz[i] ?? Number.NaN,
      level_db: error_db[i] ?? Number.NaN,
    }),
  );
  const [first] = points;
  const last = points.at(-1);
  if (!first || !last) throw new RangeError('the grid holds no frequency near the crossover');
  const dip = points.reduce((low, p) => (p.level_db < low.level_db ? p : low));
  const bump = points.reduce((high, p) => (high.level_db < p.level_db ? p : high));
  const square = points.reduce((sum, { level_db }) => sum + level_db ** 2, 0) / points.length;
  return {
    from_hz: first.frequency_hz,
    to_hz: last.frequency_hz,
    span_db: bump.level_db - dip.level_db,
    dip,
    bump,
    rms_db: Math.sqrt(square),
  };
}

function indices(grid_hz: Float64Array, wanted: (frequency_hz: number) => boolean): number[] {
  return Array.from(grid_hz.keys()).filter((i) => wanted(grid_hz[i] ?? Number.NaN));
}

/** With a hair's breadth at the ends, so that a grid built from them counts them in. */
function within(frequency_hz: number, from_hz: number, to_hz: number): boolean {
  return from_hz * (1 - 1e-9) <= frequency_hz && frequency_hz <= to_hz * (1 + 1e-9);
}
