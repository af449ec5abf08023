// From the recording of a sweep to the impulse response, by division of spectra.

import { createFourier } from './fourier.ts';
import { leadCount, periodCount, type SweepDesign } from './sweep.ts';

/**
 * What keeps the division from blowing up where nothing was played, as a share of the greatest power in the played spectrum:
 * 80 dB below it, 47 dB below the power of a ten-octave sweep's last octave.
 */
const FLOOR_RATIO = 1e-8;

/**
 * H = Y X* / (|X|² + ε max|X|²), both filled up with zeros to one length.
 *
 * @param recording what was recorded, from the moment at which playing began (or near it)
 * @param played what was played, in the same sample rate
 * @param atLeastCount length of the answer, which is circular: what does not fit in comes in again at the other end, of the recording too
 * @param band where given, nothing outside it is kept: there the division holds noise only
 */
export function deconvolved(
  recording: Float64Array,
  played: Float64Array,
  atLeastCount: number,
  band?: { readonly from_hz: number; readonly to_hz: number; readonly sampleRate_hz: number },
): Float64Array {
  const fourier = createFourier(Math.max(atLeastCount, played.length));
  const x = fourier.spectrumOf(played);
  const y = fourier.spectrumOf(recording);
  let most = 0;
  for (let i = 0; i < x.length; i += 2) {
    const power = (x[i] as number) ** 2 + (x[i + 1] as number) ** 2;
    if (most < power) most = power;
  }
  const perHz = band === undefined ? 0 : fourier.count / band.sampleRate_hz;
  const first = band === undefined ? 0 : 2 * Math.ceil(band.from_hz * perHz);
  const last = band === undefined ? x.length : 2 * Math.floor(band.to_hz * perHz) + 2;
  const floor = most === 0 ? 1 : FLOOR_RATIO * most;
  y.fill(0, 0, Math.min(first, y.length));
  if (last < y.length) y.fill(0, last);
  for (let i = first; i < Math.min(last, y.length); i += 2) {
    const xRe = x[i] as number;
    const xIm = x[i + 1] as number;
    const yRe = y[i] as number;
    const yIm = y[i + 1] as number;
    const power = xRe * xRe + xIm * xIm + floor;
    y[i] = (yRe * xRe + yIm * xIm) / power;
    y[i + 1] = (yIm * xRe - yRe * xIm) / power;
  }
  // A spectrum of a long sweep is large: the memory of one that is done with is used again.
  return fourier.signalOf(y, x);
}

/**
 * The repeats of a recording averaged into one, so that noise falls by 3 dB for each doubling.
 *
 * @returns the lead and one period; shorter where the recording ends before
 */
export function repeatsAveraged(recording: Float64Array, design: SweepDesign): Float64Array {
  const lead = leadCount(design);
  const period = periodCount(design);
  const whole = Math.min(design.repeatCount, Math.floor((recording.length - lead) / period));
  if (whole < 2) return recording.subarray(0, lead + period);
  const mean = recording.slice(0, lead + period);
  for (let i = lead; i < mean.length; i++) {
    let sum = 0;
    for (let index = 0; index < whole; index++) sum += recording[i + index * period] as number;
    mean[i] = sum / whole;
  }
  return mean;
}
