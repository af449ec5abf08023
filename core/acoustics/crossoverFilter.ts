// Crossover filters: Butterworth, Linkwitz-Riley and Bessel high-passes and low-passes as analogue prototypes.

import type { AnalogueFilter, FilterSection } from './analogueFilter.ts';
import { positive } from './guard.ts';

export type CrossoverKind = 'butterworth' | 'linkwitz_riley' | 'bessel';
export type PassSide = 'high_pass' | 'low_pass';

/** A filter as gear offers it; the slope is 6 dB/octave an order. */
export interface CrossoverShape {
  readonly kind: CrossoverKind;
  readonly order: number;
}

/**
 * A high-pass or low-pass at a frequency.
 *
 * @param shape Butterworth of order 1–8, Bessel of order 1–4, Linkwitz-Riley of order 2, 4, 6 or 8
 * @param frequency_hz −3 dB point of Butterworth and Bessel, −6 dB point of Linkwitz-Riley; > 0
 * @throws RangeError on an order that does not exist
 */
export function crossoverFilter(
  shape: CrossoverShape,
  side: PassSide,
  frequency_hz: number,
): AnalogueFilter {
  switch (shape.kind) {
    case 'butterworth':
      return butterworth(shape.order, side, frequency_hz);
    case 'linkwitz_riley':
      return linkwitzRiley(shape.order, side, frequency_hz);
    case 'bessel':
      return bessel(shape.order, side, frequency_hz);
  }
}

/**
 * Butterworth: poles evenly on the unit circle, −3.01 dB at the frequency.
 *
 * @source Butterworth 1930; Q of the k-th pair is 1/(2 sin((2k − 1)π/(2n)))
 */
export function butterworth(order: number, side: PassSide, frequency_hz: number): AnalogueFilter {
  requireOrder('Butterworth', order, [1, 2, 3, 4, 5, 6, 7, 8]);
  const sections: FilterSection[] = [];
  for (let k = 1; k <= Math.floor(order / 2); k++) {
    const damping = 2 * Math.sin(((2 * k - 1) * Math.PI) / (2 * order));
    sections.push(pass(side, frequency_hz, [1, damping, 1]));
  }
  if (order % 2 === 1) sections.push(pass(side, frequency_hz, [0, 1, 1]));
  return sections;
}

/**
 * Linkwitz-Riley: a Butterworth of half the order, twice; −6.02 dB at the frequency, both sides sum to an all-pass
 * (orders 2 and 6 with one side inverted).
 *
 * @source Linkwitz, J. Audio Eng. Soc. 24 (1976) 2
 */
export function linkwitzRiley(order: number, side: PassSide, frequency_hz: number): AnalogueFilter {
  requireOrder('Linkwitz-Riley', order, [2, 4, 6, 8]);
  const half = butterworth(order / 2, side, frequency_hz);
  return [...half, ...half];
}

/** Pole pairs of Bessel low-passes, −3 dB at 1: natural frequency and Q; a single pole has Q 0. */
const BESSEL_POLES: Readonly<Record<number, readonly (readonly [frequency: number, q: number])[]>> =
  {
    1: [[1, 0]],
    2: [[1.272019649514, 0.5773502691896]],
    3: [
      [1.447617133147, 0.6910466258251],
      [1.32267579991, 0],
    ],
    4: [
      [1.430171559994, 0.521934581669],
      [1.603357516217, 0.8055382818417],
    ],
  };

/**
 * Bessel: flattest group delay of the low-pass, scaled to −3.01 dB at the frequency; the high-pass is its mirror image.
 *
 * @source Thomson 1949; poles are the roots of the reverse Bessel polynomials, tested against a general library
 */
export function bessel(order: number, side: PassSide, frequency_hz: number): AnalogueFilter {
  const poles = BESSEL_POLES[order];
  if (!poles) throw new RangeError(`Bessel of order ${order}: only 1, 2, 3, 4`);
  return poles.map(([natural, q]) => {
    const corner_hz = side === 'low_pass' ? frequency_hz * natural : frequency_hz / natural;
    return pass(side, corner_hz, q === 0 ? [0, 1, 1] : [1, 1 / q, 1]);
  });
}

function pass(
  side: PassSide,
  corner_hz: number,
  denominator: readonly [number, number, number],
): FilterSection {
  positive('frequency_hz', corner_hz);
  const first = denominator[0] === 0;
  if (side === 'low_pass') return { corner_hz, numerator: [0, 0, 1], denominator };
  return { corner_hz, numerator: first ? [0, 1, 0] : [1, 0, 0], denominator };
}

function requireOrder(name: string, order: number, orders: readonly number[]): void {
  if (!orders.includes(order)) {
    throw new RangeError(`${name} of order ${order}: only ${orders.join(', ')}`);
  }
}
