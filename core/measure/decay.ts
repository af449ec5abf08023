// Decay times of a squared impulse response by backward integration, free of the noise below it.

/** Where the decay meets the noise. */
export interface Knee {
  /** First sample that is left out. */
  readonly kneeIndex: number;
  /** Energy that the decay would still have had after it, as a sum over samples. */
  readonly tail_ratio: number;
  /** Mean square of the noise. */
  readonly noise_ratio: number;
  /** Highest smoothed level above the noise. */
  readonly peakToNoise_db: number;
}

/**
 * Levels of the backward integral of energy, 0 dB at the start.
 *
 * @param energy squared samples from the arrival on
 * @param endIndex first sample that is left out
 * @param tail_ratio energy after it, added throughout
 * @param deepest_db where the curve may end: the first sample below it is the last
 * @source Schroeder, J. Acoust. Soc. Am. 37 (1965) 409; ISO 3382-1 for the correction
 */
export function decayCurve_db(
  energy: Float64Array,
  endIndex: number,
  tail_ratio: number,
  deepest_db: number = Number.NEGATIVE_INFINITY,
): Float64Array {
  const end = Math.min(endIndex, energy.length);
  const curve = new Float64Array(end);
  let sum = tail_ratio;
  for (let i = end - 1; 0 <= i; i--) {
    sum += energy[i] as number;
    curve[i] = sum;
  }
  const whole = sum;
  for (let i = 0; i < end; i++) {
    const level = 10 * Math.log10((curve[i] as number) / whole);
    curve[i] = level;
    if (level < deepest_db) return curve.subarray(0, i + 1);
  }
  return curve;
}

/** A straight line through part of a decay curve. */
export interface DecayLine {
  /** To fall by 60 dB. */
  readonly decayTime_s: number;
  /** 1 − r² of the line: 0 for a straight decay; ISO 3382-2 warns above 0.010 (10 ‰). */
  readonly nonLinearity_ratio: number;
}

/** Ranges of the three times. @source ISO 3382-1: EDT 0 … −10; ISO 3382-2: T20 −5 … −25, T30 −5 … −35 dB */
export const DECAY_RANGES: Readonly<Record<'edt' | 't20' | 't30', readonly [number, number]>> = {
  edt: [0, -10],
  t20: [-5, -25],
  t30: [-5, -35],
};

/**
 * Least-squares line from the first sample at or below one level to the first at or below the other.
 *
 * @returns null where the curve does not reach so far, or does not fall
 */
export function decayLine(
  curve_db: Float64Array,
  sampleRate_hz: number,
  [from_db, to_db]: readonly [number, number],
): DecayLine | null {
  const first = firstBelow(curve_db, from_db);
  const last = firstBelow(curve_db, to_db);
  if (last === null || first === null || last <= first) return null;
  const count = last - first + 1;
  const middle = (first + last) / 2;
  let sum = 0;
  for (let i = first; i <= last; i++) sum += curve_db[i] as number;
  const mean = sum / count;
  let xy = 0;
  let yy = 0;
  for (let i = first; i <= last; i++) {
    const y = (curve_db[i] as number) - mean;
    xy += (i - middle) * y;
    yy += y * y;
  }
  const xx = (count * (count * count - 1)) / 12;
  const slope = xy / xx;
  if (!(slope < 0) || yy === 0) return null;
  return {
    decayTime_s: -60 / (slope * sampleRate_hz),
    nonLinearity_ratio: Math.max(0, 1 - (xy * xy) / (xx * yy)),
  };
}

function firstBelow(curve_db: Float64Array, level_db: number): number | null {
  const index = curve_db.findIndex((level) => level <= level_db);
  return index < 0 ? null : index;
}
