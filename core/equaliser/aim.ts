// Several seats as one: what a correction should be at each frequency, and what of the distance to the target no correction can change.

import type { FitSeat, FitTask, Null } from './fitTask.ts';
import { nullsOf } from './nulls.ts';

/** Σ over seats of w (r + e − t)² = W (e − d)² + rest, since the correction e is the same at every seat. */
export interface Aim {
  /** d, what a correction should be, dB. */
  readonly wanted_db: Float64Array;
  /** W, how much each frequency counts; 0 outside what is fitted. */
  readonly weights: Float64Array;
  /** The part that no correction changes, summed over the grid. */
  readonly rest: number;
  /** Σ W. */
  readonly total: number;
  /** Of each seat, in their order. */
  readonly nulls: readonly (readonly Null[])[];
  /** What counts of each seat: `[seat][frequency]`. */
  readonly counts: readonly Float64Array[];
}

/** @param seatWeights in the order of the task's seats */
export function aimOf(task: FitTask, seatWeights: readonly number[]): Aim {
  const { frequency_hz, seats, target_db, limits } = task;
  const nulls = seats.map(({ level_db }) =>
    limits.leaveNulls ? nullsOf(frequency_hz, level_db) : [],
  );
  const top_hz = limits.broadTo_hz ?? limits.to_hz;
  const counts = seats.map((_, seat) =>
    Float64Array.from(frequency_hz, (f_hz) => {
      const fitted = reaches(limits.from_hz, f_hz) && reaches(f_hz, top_hz);
      const lost = nulls[seat]?.some(({ from_hz, to_hz }) => from_hz <= f_hz && f_hz <= to_hz);
      return fitted && !lost ? 1 : 0;
    }),
  );
  const count = frequency_hz.length;
  const wanted_db = new Float64Array(count);
  const weights = new Float64Array(count);
  let rest = 0;
  let total = 0;
  for (let i = 0; i < count; i++) {
    const apart = seats.map(({ level_db }) => (target_db[i] ?? 0) - (level_db[i] ?? 0));
    const each = seats.map((_, seat) => (seatWeights[seat] ?? 0) * (counts[seat]?.[i] ?? 0));
    const weight = each.reduce((sum, one) => sum + one, 0);
    if (weight === 0) continue;
    const mean = apart.reduce((sum, one, seat) => sum + one * (each[seat] ?? 0), 0) / weight;
    wanted_db[i] = mean;
    weights[i] = weight;
    rest += apart.reduce((sum, one, seat) => sum + (each[seat] ?? 0) * (one - mean) ** 2, 0);
    total += weight;
  }
  return { wanted_db, weights, rest, total, nulls, counts };
}

/** RMS distance to the target over seats and frequencies that count, with a correction. */
export function distance_db(aim: Aim, correction_db: ArrayLike<number>): number {
  if (aim.total === 0) return 0;
  let square = aim.rest;
  for (let i = 0; i < aim.weights.length; i++)
    square += (aim.weights[i] ?? 0) * ((correction_db[i] ?? 0) - (aim.wanted_db[i] ?? 0)) ** 2;
  return Math.sqrt(square / aim.total);
}

/** The same at one seat. */
export function seatDistance_db(
  { target_db }: Pick<FitTask, 'target_db'>,
  { level_db }: FitSeat,
  counts: Float64Array,
  correction_db: ArrayLike<number>,
): number {
  let square = 0;
  let total = 0;
  counts.forEach((one, i) => {
    square += one * ((level_db[i] ?? 0) + (correction_db[i] ?? 0) - (target_db[i] ?? 0)) ** 2;
    total += one;
  });
  return total === 0 ? 0 : Math.sqrt(square / total);
}

/** a ≤ b, with room for what grids lose in the last digit. */
function reaches(a: number, b: number): boolean {
  return a <= b * (1 + 1e-9);
}
