// Fourier transforms of real signals, and convolution by them.
//
// Spectra are interleaved [re, im] of the bins 0 … size/2, with e^{−jωt} forward, so that a delay d shows as e^{−jωd}.

import { complexTransform } from './complexTransform.ts';

export interface Fourier {
  /** Length of the signals, a power of two. */
  readonly count: number;
  /** Spectrum of a signal; a shorter one is filled up with zeros, of a longer one what hangs over is added to its start. */
  readonly spectrumOf: (signal: Float64Array) => Float64Array;
  /** The signal of a spectrum; the inverse of `spectrumOf`. Written over the first `count` numbers of `signal` where that is given. */
  readonly signalOf: (spectrum: Float64Array, signal?: Float64Array) => Float64Array;
}

/**
 * Transforms of one length, with their tables.
 *
 * @param atLeastCount samples that must fit in; the length is the next power of two, at least 4
 */
export function createFourier(atLeastCount: number): Fourier {
  const count = powerOfTwoFrom(atLeastCount);
  const half = count / 2;
  const library = complexTransform(half);
  const packed = new Float64Array(count);
  const turns = twiddles(count);
  return {
    count,
    spectrumOf: (signal) => {
      fillFolded(packed, signal);
      const out = new Float64Array(count + 2);
      library.transform(out.subarray(0, count), packed);
      separate(out, half, turns);
      return out;
    },
    signalOf: (spectrum, given) => {
      join(packed, spectrum, half, turns);
      const signal = given?.subarray(0, count) ?? new Float64Array(count);
      library.inverseTransform(signal, packed);
      return signal;
    },
  };
}

/** On a circle that holds a sweep and its response, what comes after the circle's end belongs to its start. */
function fillFolded(circle: Float64Array, signal: Float64Array): void {
  const { length } = circle;
  circle.set(signal.length <= length ? signal : signal.subarray(0, length));
  if (signal.length < length) circle.fill(0, signal.length);
  for (let from = length; from < signal.length; from += length)
    for (let i = 0; i < length && from + i < signal.length; i++)
      circle[i] = (circle[i] as number) + (signal[from + i] as number);
}

/** The next power of two that is not less than a count, at least 4. */
export function powerOfTwoFrom(count: number): number {
  let power = 4;
  while (power < count) power *= 2;
  return power;
}

/** e^{−j2πk/count} for k = 0 … count/4, interleaved: products of a fine and a coarse turn, which is quicker than as many sines. */
function twiddles(count: number): Float64Array {
  const quarter = count / 4;
  const steps = 2 ** Math.floor(Math.log2(count) / 2);
  const turn = (2 * Math.PI) / count;
  const fineRe = Float64Array.from({ length: steps }, (_, i) => Math.cos(turn * i));
  const fineIm = Float64Array.from({ length: steps }, (_, i) => -Math.sin(turn * i));
  const table = new Float64Array(2 * quarter + 2);
  for (let first = 0; first <= quarter; first += steps) {
    const re = Math.cos(turn * first);
    const im = -Math.sin(turn * first);
    for (let i = 0; i < steps && first + i <= quarter; i++) {
      const fRe = fineRe[i] as number;
      const fIm = fineIm[i] as number;
      table[2 * (first + i)] = re * fRe - im * fIm;
      table[2 * (first + i) + 1] = re * fIm + im * fRe;
    }
  }
  return table;
}

/**
 * From the transform Z of the signal's pairs taken as complex numbers to the spectrum X of the signal, in place.
 *
 * @source Press et al., Numerical Recipes, §12.3: X[k] = (Z[k] + Z*[M−k])/2 − j/2 e^{−j2πk/N} (Z[k] − Z*[M−k])
 */
function separate(z: Float64Array, half: number, turns: Float64Array): void {
  const re0 = z[0] as number;
  const im0 = z[1] as number;
  z[0] = re0 + im0;
  z[1] = 0;
  z[2 * half] = re0 - im0;
  z[2 * half + 1] = 0;
  for (let k = 1; k <= half / 2; k++) {
    const i = 2 * k;
    const m = 2 * (half - k);
    const aRe = ((z[i] as number) + (z[m] as number)) / 2;
    const aIm = ((z[i + 1] as number) - (z[m + 1] as number)) / 2;
    const bRe = ((z[i] as number) - (z[m] as number)) / 2;
    const bIm = ((z[i + 1] as number) + (z[m + 1] as number)) / 2;
    const c = turns[i] as number;
    const s = turns[i + 1] as number;
    // −j w b, w = c + j s
    const tRe = c * bIm + s * bRe;
    const tIm = s * bIm - c * bRe;
    z[i] = aRe + tRe;
    z[i + 1] = aIm + tIm;
    z[m] = aRe - tRe;
    z[m + 1] = tIm - aIm;
  }
}

/** The inverse of `separate`, into another array. */
function join(z: Float64Array, x: Float64Array, half: number, turns: Float64Array): void {
  z[0] = ((x[0] as number) + (x[2 * half] as number)) / 2;
  z[1] = ((x[0] as number) - (x[2 * half] as number)) / 2;
  for (let k = 1; k <= half / 2; k++) {
    const i = 2 * k;
    const m = 2 * (half - k);
    const aRe = ((x[i] as number) + (x[m] as number)) / 2;
    const aIm = ((x[i + 1] as number) - (x[m + 1] as number)) / 2;
    const dRe = ((x[i] as number) - (x[m] as number)) / 2;
    const dIm = ((x[i + 1] as number) + (x[m + 1] as number)) / 2;
    const c = turns[i] as number;
    const s = turns[i + 1] as number;
    // b = j w* d, w* = c − j s
    const bRe = s * dRe - c * dIm;
    const bIm = c * dRe + s * dIm;
    z[i] = aRe + bRe;
    z[i + 1] = aIm + bIm;
    z[m] = aRe - bRe;
    z[m + 1] = bIm - aIm;
  }
}

/** Linear convolution of two signals, length a + b − 1. */
export function convolved(a: Float64Array, b: Float64Array): Float64Array {
  const fourier = createFourier(a.length + b.length - 1);
  const product = multiplied(fourier.spectrumOf(a), fourier.spectrumOf(b));
  return fourier.signalOf(product).slice(0, a.length + b.length - 1);
}

/** Product of two spectra of the same length, bin by bin. */
export function multiplied(a: Float64Array, b: Float64Array): Float64Array {
  const product = new Float64Array(a.length);
  for (let i = 0; i < a.length; i += 2) {
    const re = a[i] as number;
    const im = a[i + 1] as number;
    product[i] = re * (b[i] as number) - im * (b[i + 1] as number);
    product[i + 1] = re * (b[i + 1] as number) + im * (b[i] as number);
  }
  return product;
}
