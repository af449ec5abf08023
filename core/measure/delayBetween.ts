// How much later one signal is than another, finer than a sample, by cross-correlation.

import { createFourier } from './fourier.ts';

/** Steps between samples in which the peak is sought, before the parabola. */
const STEPS = 16;
/** The turning factor is worked out anew so often, lest its errors add up. */
const RENEW = 512;

/**
 * Delay of `late` against `early`, by the highest point of their correlation (band-limited interpolation, then a parabola).
 *
 * @param circular the signals are one period of periodic ones, and their length is a power of two
 * @returns in samples as a share of the sample's length times their count: multiply by 1/sample rate; < 0 where `late` is
 *   early. 0 where one of them is silent
 */
export function delayBetween_s(
  early: Float64Array,
  late: Float64Array,
  sampleRate_hz: number,
  circular: boolean,
): number {
  const circle = circular ? Math.max(early.length, late.length) : null;
  return alignment(early, late, sampleRate_hz, circle).delay_s;
}

export interface Alignment {
  /** As `delayBetween_s`. */
  readonly delay_s: number;
  /** Of the two at that delay: 1 for the same signal, about 0 for signals that have nothing to do with each other. */
  readonly likeness_ratio: number;
}

/**
 * Delay of `late` against `early`, and how far the one then is the other.
 *
 * @param circleCount length of the circle that both are laid on, a power of two that holds `early`; null for signals that end
 */
export function alignment(
  early: Float64Array,
  late: Float64Array,
  sampleRate_hz: number,
  circleCount: number | null,
): Alignment {
  const fourier = createFourier(circleCount ?? early.length + late.length);
  const x = fourier.spectrumOf(early);
  const c = fourier.spectrumOf(late);
  for (let i = 0; i < c.length; i += 2) {
    const re = c[i] as number;
    const im = c[i + 1] as number;
    c[i] = re * (x[i] as number) + im * (x[i + 1] as number);
    c[i + 1] = im * (x[i] as number) - re * (x[i + 1] as number);
  }
  const correlation = fourier.signalOf(c);
  const peakIndex = highestIndex(correlation);
  const place = peakIndex + finePlace((apart) => signalAt(c, fourier.count, peakIndex + apart));
  const energies = energyOf(early) * energyOf(late);
  return {
    delay_s: (fourier.count / 2 < place ? place - fourier.count : place) / sampleRate_hz,
    likeness_ratio: energies === 0 ? 0 : (correlation[peakIndex] as number) / Math.sqrt(energies),
  };
}

/**
 * Where the highest point is, in samples from the highest sample: by quarters of a sample, then by sixteenths about the best quarter,
 * then by the parabola through three.
 */
function finePlace(valueAt: (apart: number) => number): number {
  const known = new Map<number, number>();
  const at = (step: number): number => {
    const value = known.get(step) ?? valueAt(step / STEPS);
    known.set(step, value);
    return value;
  };
  const best = (first: number, last: number, step: number): number => {
    let highest = first;
    for (let one = first; one <= last; one += step) if (at(highest) < at(one)) highest = one;
    return highest;
  };
  const quarter = best(-STEPS, STEPS, STEPS / 4);
  const top = best(quarter - STEPS / 4 + 1, quarter + STEPS / 4 - 1, 1);
  return (top + parabolaTop(Float64Array.of(at(top - 1), at(top), at(top + 1)), 1)) / STEPS;
}

function energyOf(signal: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < signal.length; i++) sum += (signal[i] as number) ** 2;
  return sum;
}

/** Where the parabola through three neighbours has its top, from the middle one, −½ … ½ for a peak. */
export function parabolaTop(values: Float64Array, index: number): number {
  const before = values[index - 1] as number;
  const at = values[index] as number;
  const after = values[index + 1] as number;
  const bend = before - 2 * at + after;
  return bend === 0 ? 0 : (before - after) / (2 * bend);
}

export function highestIndex(values: Float64Array): number {
  let best = 0;
  for (let i = 1; i < values.length; i++)
    if ((values[best] as number) < (values[i] as number)) best = i;
  return best;
}

/** The periodic signal of a spectrum at any place between its samples (times count/2: only its shape matters). */
function signalAt(spectrum: Float64Array, count: number, place: number): number {
  const angle = (2 * Math.PI * place) / count;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  let re = 1;
  let im = 0;
  let sum = (spectrum[0] as number) / 2;
  for (let k = 1; k <= count / 2; k++) {
    if (k % RENEW === 0) {
      re = Math.cos(angle * k);
      im = Math.sin(angle * k);
    } else {
      const next = re * cos - im * sin;
      im = re * sin + im * cos;
      re = next;
    }
    const half = k === count / 2 ? 0.5 : 1;
    sum += half * ((spectrum[2 * k] as number) * re - (spectrum[2 * k + 1] as number) * im);
  }
  return sum;
}
