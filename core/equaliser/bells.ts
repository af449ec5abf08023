// The level of a bell over frequency and how it changes with the bell's frequency, Q and gain: what a fit turns over and over.
//
// |H|² = (t + a)/(t + b) with t = (1/x − x)², a = A²/Q², b = 1/(A²Q²), x = X(f)/X(f₀); X(f) = f for the analogue bell, and
// tan(πf/rate) for the digital one, which is the same bell through the bilinear transform.

import { positive } from '../acoustics/guard.ts';

/** A grid of frequencies made ready: ln X of each, and the way from a bell's frequency to its place among them and back. */
export interface BellGrid {
  readonly places: Float64Array;
  readonly placeOf: (frequency_hz: number) => number;
  readonly frequencyAt_hz: (place: number) => number;
}

/**
 * @param frequency_hz each > 0, and below half the rate where there is one
 * @param sampleRate_hz of the device that makes the bells; null for analogue ones, and for all where the rate matters little
 */
export function bellGrid(frequency_hz: ArrayLike<number>, sampleRate_hz: number | null): BellGrid {
  if (sampleRate_hz === null) {
    return {
      places: Float64Array.from(frequency_hz, (f_hz) => Math.log(positive('frequency_hz', f_hz))),
      placeOf: Math.log,
      frequencyAt_hz: Math.exp,
    };
  }
  const scale = Math.PI / sampleRate_hz;
  return {
    places: Float64Array.from(frequency_hz, (f_hz) => Math.log(Math.tan(f_hz * scale))),
    placeOf: (f_hz) => Math.log(Math.tan(f_hz * scale)),
    frequencyAt_hz: (place) => Math.atan(Math.exp(place)) / scale,
  };
}

const DB_PER_NEPER: number = 10 / Math.LN10;

/**
 * Adds a bell's level to `level_db`, and writes its slopes where they are wanted.
 *
 * @param places ln X of the grid
 * @param place ln X of the bell's frequency
 * @param lnQ ln Q
 * @param slopes `[by place | by ln Q | by gain]`, one after the other, each as long as the grid; dB per unit
 * @source W3C Note "Audio EQ Cookbook" (2021), peaking EQ; derivatives by hand
 */
export function addBell(
  places: Float64Array,
  place: number,
  lnQ: number,
  gain_db: number,
  level_db: Float64Array,
  slopes: Float64Array | null = null,
): void {
  const count = places.length;
  const A2 = 10 ** (gain_db / 20);
  const perQ2 = Math.exp(-2 * lnQ);
  const a = A2 * perQ2;
  const b = perQ2 / A2;
  for (let i = 0; i < count; i++) {
    const x = Math.exp((places[i] as number) - place);
    const apart = 1 / x - x;
    const t = apart * apart;
    level_db[i] = (level_db[i] as number) + DB_PER_NEPER * Math.log((t + a) / (t + b));
    if (slopes === null) continue;
    const perA = 1 / (t + a);
    const perB = 1 / (t + b);
    // dt/d(place) = 2(1/x² − x²) = 2 (1/x − x)(1/x + x)
    slopes[i] = DB_PER_NEPER * (perA - perB) * 2 * apart * (1 / x + x);
    slopes[count + i] = 2 * DB_PER_NEPER * (b * perB - a * perA);
    slopes[2 * count + i] = (a * perA + b * perB) / 2;
  }
}
