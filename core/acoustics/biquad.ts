// Digital second-order sections at a sample rate: coefficients by the public cookbook formulas, response, group delay.

import { type Complex, over } from './complex.ts';
import { positive } from './guard.ts';

export type BiquadKind =
  | 'bell'
  | 'low_shelf'
  | 'high_shelf'
  | 'low_pass'
  | 'high_pass'
  | 'all_pass'
  | 'notch'
  | 'band_pass';

export interface BiquadShape {
  readonly kind: BiquadKind;
  readonly frequency_hz: number;
  /** only bell and shelves have one */
  readonly gain_db: number;
  readonly q: number;
}

/** (b0 + b1 z⁻¹ + b2 z⁻²)/(1 + a1 z⁻¹ + a2 z⁻²). */
export interface Biquad {
  readonly b: readonly [b0: number, b1: number, b2: number];
  readonly a: readonly [one: 1, a1: number, a2: number];
}

/**
 * Coefficients at a sample rate.
 *
 * @param sampleRate_hz more than twice the band's frequency
 * @throws RangeError on a frequency outside 0 … half the sample rate, or a Q that is not > 0
 * @source W3C Note "Audio EQ Cookbook" (2021); α = sin w / (2Q), also for shelves
 */
export function biquad(shape: BiquadShape, sampleRate_hz: number): Biquad {
  const frequency_hz = positive('frequency_hz', shape.frequency_hz);
  if (!(frequency_hz < sampleRate_hz / 2)) {
    throw new RangeError(`frequency_hz ${frequency_hz} is not below half of ${sampleRate_hz}`);
  }
  const w = (2 * Math.PI * frequency_hz) / sampleRate_hz;
  const A = 10 ** (shape.gain_db / 40);
  const alpha = Math.sin(w) / (2 * positive('q', shape.q));
  const [b0, b1, b2, a0, a1, a2] = coefficients(shape.kind, Math.cos(w), alpha, A);
  return { b: [b0 / a0, b1 / a0, b2 / a0], a: [1, a1 / a0, a2 / a0] };
}

type Six = readonly [number, number, number, number, number, number];

/** b0, b1, b2, a0, a1, a2 before division by a0; `cos` is cos w. */
function coefficients(kind: BiquadKind, cos: number, alpha: number, A: number): Six {
  const poles = [1 + alpha, -2 * cos, 1 - alpha] as const;
  switch (kind) {
    case 'bell':
      return [1 + alpha * A, -2 * cos, 1 - alpha * A, 1 + alpha / A, -2 * cos, 1 - alpha / A];
    case 'low_shelf':
      return shelf(cos, alpha, A, 1);
    case 'high_shelf':
      return shelf(cos, alpha, A, -1);
    case 'low_pass':
      return [(1 - cos) / 2, 1 - cos, (1 - cos) / 2, ...poles];
    case 'high_pass':
      return [(1 + cos) / 2, -(1 + cos), (1 + cos) / 2, ...poles];
    case 'all_pass':
      return [1 - alpha, -2 * cos, 1 + alpha, ...poles];
    case 'notch':
      return [1, -2 * cos, 1, ...poles];
    case 'band_pass':
      return [alpha, 0, -alpha, ...poles];
  }
}

/** Both shelves in one: `side` 1 low, −1 high, which mirrors cos w and the odd coefficients. */
function shelf(cos: number, alpha: number, A: number, side: 1 | -1): Six {
  const c = side * cos;
  const r = 2 * Math.sqrt(A) * alpha;
  return [
    A * (A + 1 - (A - 1) * c + r),
    side * 2 * A * (A - 1 - (A + 1) * c),
    A * (A + 1 - (A - 1) * c - r),
    A + 1 + (A - 1) * c + r,
    side * -2 * (A - 1 + (A + 1) * c),
    A + 1 + (A - 1) * c - r,
  ];
}

/** Complex response at a frequency. */
export function biquadAt(section: Biquad, frequency_hz: number, sampleRate_hz: number): Complex {
  const w = (2 * Math.PI * frequency_hz) / positive('sampleRate_hz', sampleRate_hz);
  return over(polynomial(section.b, w), polynomial(section.a, w));
}

/** Group delay −dφ/dω at a frequency, seconds; NaN exactly on a zero of the response. */
export function biquadGroupDelay_s(
  section: Biquad,
  frequency_hz: number,
  sampleRate_hz: number,
): number {
  const w = (2 * Math.PI * frequency_hz) / positive('sampleRate_hz', sampleRate_hz);
  return (sampleLag(section.b, w) - sampleLag(section.a, w)) / sampleRate_hz;
}

function polynomial([c0, c1, c2]: readonly [number, number, number], w: number): Complex {
  return {
    re: c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w),
    im: -(c1 * Math.sin(w) + c2 * Math.sin(2 * w)),
  };
}

/** Re{Σ k c_k z⁻ᵏ / Σ c_k z⁻ᵏ}: the delay of a polynomial in samples. */
function sampleLag(c: readonly [number, number, number], w: number): number {
  return over(polynomial([0, c[1], 2 * c[2]], w), polynomial(c, w)).re;
}
