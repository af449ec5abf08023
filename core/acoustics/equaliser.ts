// Bands of a parametric equaliser as analogue prototypes: bell, low shelf, high shelf, and notch.

import type { AnalogueFilter } from './analogueFilter.ts';
import { positive } from './guard.ts';

export interface EqualiserBand {
  readonly kind: 'bell' | 'low_shelf' | 'high_shelf';
  readonly frequency_hz: number;
  readonly gain_db: number;
  readonly q: number;
}

/**
 * One band. A bell has its full gain at the frequency; a shelf has half its gain (in dB) there.
 *
 * The bell of +g dB and that of −g dB at the same Q cancel. Devices differ in what they call Q; this is the one meant here.
 *
 * @throws RangeError on a frequency or Q that is not > 0
 * @source W3C Note "Audio EQ Cookbook" (2021), analogue prototypes
 */
export function equaliserBand({ kind, frequency_hz, gain_db, q }: EqualiserBand): AnalogueFilter {
  const corner_hz = positive('frequency_hz', frequency_hz);
  const A = 10 ** (gain_db / 40);
  const damping = 1 / positive('q', q);
  const slant = Math.sqrt(A) * damping;
  switch (kind) {
    case 'bell':
      return [{ corner_hz, numerator: [1, damping * A, 1], denominator: [1, damping / A, 1] }];
    case 'low_shelf':
      return [{ corner_hz, numerator: [A, A * slant, A * A], denominator: [A, slant, 1] }];
    case 'high_shelf':
      return [{ corner_hz, numerator: [A * A, A * slant, A], denominator: [1, slant, A] }];
  }
}

/** All bands in a row. */
export function equaliser(bands: readonly EqualiserBand[]): AnalogueFilter {
  return bands.flatMap((band) => equaliserBand(band));
}

/**
 * Q of a bandwidth between the half-gain points, 1/(2 sinh((ln 2/2) octaves)).
 *
 * @source W3C Note "Audio EQ Cookbook" (2021)
 */
export function q_ofBandwidth(octaveCount: number): number {
  return 1 / (2 * Math.sinh((Math.LN2 / 2) * positive('octaveCount', octaveCount)));
}
