// Band-limited pink noise for calibration, the same each time from the same seed.

import { positive } from '../acoustics/guard.ts';
import { chanceFrom } from './chance.ts';
import { fade } from './fade.ts';
import { createFourier, powerOfTwoFrom } from './fourier.ts';

export interface NoiseDesign {
  readonly sampleRate_hz: number;
  readonly from_hz: number;
  readonly to_hz: number;
  readonly length_s: number;
  /** Of the noise between its fades. */
  readonly level_dbfs: number;
  readonly fade_s: number;
  /** A whole number. */
  readonly seed: number;
}

/** Longer noise repeats itself, without a seam: 44 s at 48 kHz. */
const PERIOD_LIMIT_COUNT = 2 ** 21;

/**
 * Noise of the same power in each octave between two sharp edges, made in the frequency domain: amplitude 1/√f, phase by chance.
 *
 * @throws RangeError where the edges are not in order, reach half the sample rate, or hold no frequency of the period
 */
export function pinkNoise(design: NoiseDesign): Float64Array {
  const { sampleRate_hz, from_hz, to_hz, level_dbfs } = design;
  if (!(positive('from_hz', from_hz) < to_hz && to_hz <= sampleRate_hz / 2))
    throw new RangeError(`noise from ${from_hz} to ${to_hz} at ${sampleRate_hz}`);
  const length = Math.round(positive('length_s', design.length_s) * sampleRate_hz);
  const period = onePeriod(design, Math.min(PERIOD_LIMIT_COUNT, powerOfTwoFrom(length)));
  const signal = new Float64Array(length);
  let sum = 0;
  for (let i = 0; i < length; i++) {
    const value = period[i % period.length] as number;
    signal[i] = value;
    sum += value * value;
  }
  const gain = Math.sqrt(10 ** (level_dbfs / 10) / 2 / (sum / length));
  for (let i = 0; i < length; i++) signal[i] = (signal[i] as number) * gain;
  const fadeCount = Math.round(design.fade_s * sampleRate_hz);
  fade(signal, fadeCount, fadeCount);
  return signal;
}

function onePeriod(
  { sampleRate_hz, from_hz, to_hz, seed }: NoiseDesign,
  count: number,
): Float64Array {
  const fourier = createFourier(count);
  const spectrum = new Float64Array(count + 2);
  const chance = chanceFrom(seed);
  const first = Math.max(1, Math.ceil((from_hz * count) / sampleRate_hz));
  const last = Math.min(count / 2 - 1, Math.floor((to_hz * count) / sampleRate_hz));
  if (last < first) throw new RangeError(`no frequency from ${from_hz} to ${to_hz} in the period`);
  for (let k = first; k <= last; k++) {
    const angle = 2 * Math.PI * chance();
    spectrum[2 * k] = Math.cos(angle) / Math.sqrt(k);
    spectrum[2 * k + 1] = Math.sin(angle) / Math.sqrt(k);
  }
  return fourier.signalOf(spectrum);
}
