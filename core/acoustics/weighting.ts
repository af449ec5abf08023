// The frequency weightings A, C and Z of sound level meters, and what they do to band-limited pink noise.

import { positive } from './guard.ts';

export type Weighting = 'A' | 'C' | 'Z';

/** Pole frequencies. @source IEC 61672-1:2013, Annex E (figures from memory, checked against its Table 3) */
const F1_HZ = 20.598997;
const F2_HZ = 107.65265;
const F3_HZ = 737.86223;
const F4_HZ = 12194.217;

/**
 * Weighting at a frequency, 0 dB at 1 kHz.
 *
 * @param frequency_hz > 0; for a band its exact mid frequency, not the nominal one (up to 0.1 dB apart)
 * @returns dB
 * @source IEC 61672-1:2013, Annex E
 */
export function weighting_db(weighting: Weighting, frequency_hz: number): number {
  const f2 = positive('frequency_hz', frequency_hz) ** 2;
  if (weighting === 'Z') return 0;
  return weighting === 'A' ? a_db(f2) - a_db(1e6) : c_db(f2) - c_db(1e6);
}

/**
 * What a weighting takes from pink noise between two sharp edges: weighted level minus unweighted level.
 *
 * @param lower_hz > 0
 * @param upper_hz > lower_hz
 * @returns dB, by Simpson's rule over log frequency (error below 1e-5 dB for bands of the audible range)
 * @throws RangeError if the edges are not in order
 */
export function pinkNoiseWeighting_db(
  weighting: Weighting,
  lower_hz: number,
  upper_hz: number,
): number {
  const start = Math.log(positive('lower_hz', lower_hz));
  const width = Math.log(upper_hz) - start;
  positive('upper_hz / lower_hz, as a logarithm,', width);
  const stepCount = 2 * Math.max(16, Math.ceil(width * 40));
  let sum = 0;
  for (let i = 0; i <= stepCount; i++) {
    const frequency_hz = Math.exp(start + (width * i) / stepCount);
    const weight = i === 0 || i === stepCount ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * 10 ** (weighting_db(weighting, frequency_hz) / 10);
  }
  return 10 * Math.log10(sum / (3 * stepCount));
}

/**
 * Level of part of a pink noise: what remains when only a band of it is heard, equal density.
 *
 * @param band edges of the part, inside the whole
 * @param whole edges of the whole noise
 * @returns dB re the whole, both unweighted: 10 lg of the ratio of the widths in octaves
 */
export function pinkNoisePart_db(
  band: readonly [lower_hz: number, upper_hz: number],
  whole: readonly [lower_hz: number, upper_hz: number],
): number {
  const octaves = ([lower, upper]: readonly [number, number]) =>
    Math.log2(positive('upper_hz', upper) / positive('lower_hz', lower));
  return 10 * Math.log10(octaves(band) / octaves(whole));
}

function a_db(f2: number): number {
  const poles = Math.sqrt((f2 + F2_HZ ** 2) * (f2 + F3_HZ ** 2));
  return 20 * Math.log10((F4_HZ ** 2 * f2 * f2) / ((f2 + F1_HZ ** 2) * poles * (f2 + F4_HZ ** 2)));
}

function c_db(f2: number): number {
  return 20 * Math.log10((F4_HZ ** 2 * f2) / ((f2 + F1_HZ ** 2) * (f2 + F4_HZ ** 2)));
}
