// Analogue filters as a chain of sections up to second order: complex response and group delay at any frequency.
//
// Crossover filters, all-passes, equaliser bands and loudspeakers' roll-offs are all such chains, so that one evaluator
// serves them and a device's whole path is a concatenation. What was measured takes its place in the chain as samples.
// Time factor e^{+jωt}.

import { type Complex, type ComplexResponse, magnitude_db, responseOf } from './complex.ts';
import { type SampledResponse, sampledAt, sampledDelay_s } from './sampledResponse.ts';

/** b2 p² + b1 p + b0 over a2 p² + a1 p + a0, with p = j f / corner_hz; coefficients from the highest power. */
export interface FilterSection {
  readonly corner_hz: number;
  readonly numerator: readonly [number, number, number];
  readonly denominator: readonly [number, number, number];
}

/** A section that is known by its samples only. */
export interface SampledSection {
  readonly sampled: SampledResponse;
}

/** Sections one after another; none is a wire. */
export type AnalogueFilter = readonly (FilterSection | SampledSection)[];

/** A filter that does nothing. */
export const WIRE: AnalogueFilter = [];

/** Complex response at one frequency (Hz, >= 0). */
export function filterAt(filter: AnalogueFilter, frequency_hz: number): Complex {
  // Number by number rather than by `times` and `over`: this is the innermost loop of every search.
  let re = 1;
  let im = 0;
  for (const section of filter) {
    if ('sampled' in section) {
      const by = sampledAt(section.sampled, frequency_hz);
      const turned = re * by.re - im * by.im;
      im = re * by.im + im * by.re;
      re = turned;
      continue;
    }
    const { corner_hz, numerator, denominator } = section;
    const x = frequency_hz / corner_hz;
    // By index: taking a triple apart by its iterator costs a first analysis as much as the rest of the filter.
    const upRe = numerator[2] - numerator[0] * x * x;
    const upIm = numerator[1] * x;
    const downRe = denominator[2] - denominator[0] * x * x;
    const downIm = denominator[1] * x;
    const norm = downRe * downRe + downIm * downIm;
    const byRe = (upRe * downRe + upIm * downIm) / norm;
    const byIm = (upIm * downRe - upRe * downIm) / norm;
    const next = re * byRe - im * byIm;
    im = re * byIm + im * byRe;
    re = next;
  }
  return { re, im };
}

/** Complex response over a grid of frequencies. */
export function filterResponse(
  filter: AnalogueFilter,
  frequencies_hz: ArrayLike<number>,
): ComplexResponse {
  return responseOf(frequencies_hz, (frequency_hz) => filterAt(filter, frequency_hz));
}

/** Level at one frequency, dB; a perfect null gives minus infinity. */
export function filterLevel_db(filter: AnalogueFilter, frequency_hz: number): number {
  return magnitude_db(filterAt(filter, frequency_hz));
}

/**
 * Group delay −dφ/dω at one frequency: exact for polynomials, from neighbouring samples otherwise.
 *
 * @returns seconds; NaN exactly on a zero of the response, where phase has a step
 */
export function groupDelay_s(filter: AnalogueFilter, frequency_hz: number): number {
  let delay_s = 0;
  for (const section of filter) {
    if ('sampled' in section) {
      delay_s += sampledDelay_s(section.sampled, frequency_hz);
      continue;
    }
    const { corner_hz, numerator, denominator } = section;
    const x = frequency_hz / corner_hz;
    const turn = phaseSlope(numerator, x) - phaseSlope(denominator, x);
    delay_s -= turn / (2 * Math.PI * corner_hz);
  }
  return delay_s;
}

/** Derivative of the polynomial's argument with respect to x, at p = jx. */
function phaseSlope([c2, c1, c0]: readonly [number, number, number], x: number): number {
  const real = c0 - c2 * x * x;
  const imaginary = c1 * x;
  if (c0 === 0 && c1 === 0) return 0; // p² alone: constant argument
  if (c0 === 0 && c2 === 0) return 0; // p alone
  return (real * c1 + imaginary * 2 * c2 * x) / (real * real + imaginary * imaginary);
}
