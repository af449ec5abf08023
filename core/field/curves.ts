// Response curves: what groups of drives come to at each seat, as they are and in the draws that make the envelope.

import type { ComplexResponse } from '../acoustics/complex.ts';
import type { CurveExtremes, FieldCurve } from '../fieldFigures.ts';
import type { Drive } from './drives.ts';
import { addPressure, level_dbspl, levels_dbspl, phases_rad, silence } from './sums.ts';

/** Transfers to the seats, from a source; null where it has none. */
export type TransfersOf = (source: string) => readonly ComplexResponse[] | null;

export interface CurveContext {
  readonly frequency_hz: readonly number[];
  readonly density_kg_m3: number;
  readonly seatCount: number;
}

/** Pressure of a group at each seat. */
export function pressures(
  drives: readonly Drive[],
  { frequency_hz, density_kg_m3, seatCount }: CurveContext,
  transfersOf: TransfersOf,
): readonly ComplexResponse[] {
  return Array.from({ length: seatCount }, (_, seat) => {
    const sum = silence(frequency_hz.length);
    for (const drive of drives) {
      const transfer = transfersOf(drive.source.id)?.[seat];
      if (transfer) addPressure(sum, transfer, drive, frequency_hz, density_kg_m3);
    }
    return sum;
  });
}

/** Level in a free field at 1 m, all drives of a group together by power: where the group plays. */
export function freeLevels_dbspl(drives: readonly Drive[], count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) =>
    level_dbspl(
      drives.reduce(
        (sum, { pressure_pa: { re, im } }) => sum + (re[i] ?? 0) ** 2 + (im[i] ?? 0) ** 2,
        0,
      ),
    ),
  );
}

export interface Envelope {
  readonly lower_db: Float64Array;
  readonly upper_db: Float64Array;
}

/** A curve as it is shown: rounded_db of a dB, thousandths of a radian. */
export function fieldCurve(
  pressure: ComplexResponse,
  envelope: Envelope | null,
  extremes: CurveExtremes | null,
): FieldCurve {
  return {
    level_db: rounded_db(levels_dbspl(pressure)),
    phase_rad: rounded(phases_rad(pressure), 1000),
    lower_db: envelope && rounded_db(envelope.lower_db),
    upper_db: envelope && rounded_db(envelope.upper_db),
    extremes,
  };
}

export function rounded_db(values: ArrayLike<number>): readonly number[] {
  return rounded(values, 100);
}

/** Never minus zero, which JSON does not keep. */
function rounded(values: ArrayLike<number>, perUnit: number): readonly number[] {
  return Array.from(values, (value) => Math.round(value * perUnit) / perUnit + 0);
}

/** The lowest and the highest of several curves at each frequency. */
export function envelopeOf(levels_db: readonly Float64Array[]): Envelope | null {
  const [first] = levels_db;
  if (first === undefined) return null;
  return {
    lower_db: first.map((_, i) => Math.min(...levels_db.map((curve) => curve[i] ?? 0))),
    upper_db: first.map((_, i) => Math.max(...levels_db.map((curve) => curve[i] ?? 0))),
  };
}

/**
 * A curve of a room in which sound is faster by a ratio: everything moves up in frequency.
 *
 * @param frequency_hz evenly spaced in octaves
 */
export function shifted_db(
  frequency_hz: readonly number[],
  level_db: Float64Array,
  ratio: number,
): Float64Array {
  const last = level_db.length - 1;
  const octaves = Math.log((frequency_hz[last] ?? 2) / (frequency_hz[0] ?? 1));
  const steps = (last * Math.log(ratio)) / octaves;
  return level_db.map((_, i) => {
    const from = Math.min(last, Math.max(0, i - steps));
    const low = Math.min(last - 1, Math.floor(from));
    const [a = 0, b = 0] = [level_db[low], level_db[low + 1]];
    return a + (from - low) * (b - a);
  });
}
