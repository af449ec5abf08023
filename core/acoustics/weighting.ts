// The frequency weightings A, C and Z of sound level meters, and what they do to band-limited pink noise.

import { positive } from './guard.ts';

export type Weighting = 'A' | 'C' | 'Z';

/** Pole frequencies: 20.60, 107.7, 737.9 and 12 194 Hz. */
const [F1_HZ, F2_HZ, F3_HZ, F4_HZ] = poleFrequencies_hz();

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

/**
 * The exact pole frequencies from the standard's rounded corner frequencies.
 *
 * @source IEC 61672-1:2013, Annex E, Eq. (E.2)–(E.5) (from memory, checked against its Table 3): C falls by 3 dB at
 *         10^1.5 and 10^3.9 Hz; the further poles of A belong to 10^2.45 Hz
 */
function poleFrequencies_hz(): readonly [number, number, number, number] {
  const reference2 = 1000 ** 2;
  const low2 = 10 ** 3;
  const high2 = 10 ** 7.8;
  const D = Math.SQRT1_2;
  const c = low2 * high2;
  const b = (reference2 + c / reference2 - D * (low2 + high2)) / (1 - D);
  const root = Math.sqrt(b * b - 4 * c);
  const corner_hz = 10 ** 2.45;
  return [
    Math.sqrt((-b - root) / 2),
    ((3 - Math.sqrt(5)) / 2) * corner_hz,
    ((3 + Math.sqrt(5)) / 2) * corner_hz,
    Math.sqrt((-b + root) / 2),
  ];
}

function a_db(f2: number): number {
  const poles = Math.sqrt((f2 + F2_HZ ** 2) * (f2 + F3_HZ ** 2));
  return 20 * Math.log10((F4_HZ ** 2 * f2 * f2) / ((f2 + F1_HZ ** 2) * poles * (f2 + F4_HZ ** 2)));
}

function c_db(f2: number): number {
  return 20 * Math.log10((F4_HZ ** 2 * f2) / ((f2 + F1_HZ ** 2) * (f2 + F4_HZ ** 2)));
}
