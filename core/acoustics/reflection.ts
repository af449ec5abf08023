// One reflection beside the direct sound: the notches and peaks it makes, how deep and how high they are.

import { positive } from './guard.ts';

/** What a single reflection does to the direct sound. */
export interface Comb {
  /** path of the reflection minus the direct path */
  readonly difference_m: number;
  readonly firstNotch_hz: number;
  readonly firstPeak_hz: number;
  /** level of the reflection re the direct sound, <= 0 unless the reflection is focused */
  readonly reflection_db: number;
  readonly notch_db: number;
  readonly peak_db: number;
}

/**
 * The comb of one reflection.
 *
 * @param direct_m > 0
 * @param reflected_m longer than the direct path
 * @param speedOfSound_m_s > 0
 * @param reflection_ratio pressure factor of the surface, 1 hard, 0 none; `reflectionFactor_ratio` gives it from α
 * @throws RangeError if the reflected path is not the longer one
 * @source geometry; notch 20 lg(1 − g), peak 20 lg(1 + g), g = R d/d′
 */
export function comb(
  direct_m: number,
  reflected_m: number,
  speedOfSound_m_s: number,
  reflection_ratio: number,
): Comb {
  const difference_m = positive('reflected_m - direct_m', reflected_m - direct_m);
  const gain_ratio = (reflection_ratio * positive('direct_m', direct_m)) / reflected_m;
  return {
    difference_m,
    firstNotch_hz: notch_hz(difference_m, speedOfSound_m_s, 0),
    firstPeak_hz: positive('speedOfSound_m_s', speedOfSound_m_s) / difference_m,
    reflection_db: 20 * Math.log10(gain_ratio),
    notch_db: notchDepth_db(gain_ratio),
    peak_db: peakHeight_db(gain_ratio),
  };
}

/**
 * The k-th notch of a path difference, (2k + 1) c/(2Δ), k = 0, 1, 2 …
 */
export function notch_hz(difference_m: number, speedOfSound_m_s: number, index: number): number {
  return ((2 * index + 1) * speedOfSound_m_s) / (2 * positive('difference_m', difference_m));
}

/** All notches up to a limit, ascending. */
export function notches_hz(
  difference_m: number,
  speedOfSound_m_s: number,
  limit_hz: number,
): readonly number[] {
  const first_hz = notch_hz(difference_m, speedOfSound_m_s, 0);
  const count = Math.max(0, Math.floor((limit_hz / first_hz + 1) / 2));
  return Array.from({ length: count }, (_, k) => (2 * k + 1) * first_hz);
}

/** Level at a notch re the direct sound, 20 lg(1 − g); minus infinity for g = 1. */
export function notchDepth_db(gain_ratio: number): number {
  return 20 * Math.log10(Math.abs(1 - gain_ratio));
}

/** Level at a peak re the direct sound, 20 lg(1 + g). */
export function peakHeight_db(gain_ratio: number): number {
  return 20 * Math.log10(1 + gain_ratio);
}

/** Pressure factor of a surface that absorbs a share α of the energy, √(1 − α); α beyond 1 counts as 1. */
export function reflectionFactor_ratio(absorption_ratio: number): number {
  return Math.sqrt(Math.max(0, 1 - absorption_ratio));
}

/** First notch of a wall straight behind a source, far listener: c/(4d), where the wall is a quarter wave away. */
export function quarterWave_hz(wallDistance_m: number, speedOfSound_m_s: number): number {
  return speedOfSound_m_s / (4 * positive('wallDistance_m', wallDistance_m));
}

/** The distance whose quarter-wave notch falls on a frequency, c/(4f). */
export function quarterWaveDistance_m(frequency_hz: number, speedOfSound_m_s: number): number {
  return speedOfSound_m_s / (4 * positive('frequency_hz', frequency_hz));
}
