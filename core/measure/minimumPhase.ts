// The phase that a response must have at least, from its level alone.

import type { Fourier } from './fourier.ts';

/** Levels this far below the highest are lifted to it: the logarithm of a null would ring over all frequencies. */
const FLOOR_DB = 200;
/** Steepest continuation beyond the trusted band, nepers an octave: 96 dB. */
const STEEPEST_NEPERS = (96 / 20) * Math.LN10;

/**
 * Minimum phase of a spectrum by the folded cepstrum. Outside the band in which the level is known it is taken to go on as
 * steeply as in the octave at the band's edge: the phase inside depends on it.
 *
 * @param fourier that the spectrum was made by
 * @param spectrum interleaved, bins 0 … a power of two; long enough that the cepstrum fits in
 * @param binWidth_hz from bin to bin
 * @param known the band in which the level is known
 * @returns radians at each bin, for e^{+jωt}; 0 at both ends
 * @source Oppenheim & Schafer, Discrete-Time Signal Processing, ch. on the cepstrum
 */
export function minimumPhase_rad(
  fourier: Fourier,
  spectrum: Float64Array,
  binWidth_hz: number,
  known: { readonly from_hz: number; readonly to_hz: number },
): Float64Array {
  const { count } = fourier;
  if (spectrum.length !== count + 2)
    throw new RangeError(`a spectrum of ${spectrum.length / 2} bins`);
  const cepstrum = fourier.signalOf(logarithms(spectrum, binWidth_hz, known));
  for (let i = 1; i < count / 2; i++) {
    cepstrum[i] = 2 * (cepstrum[i] as number);
    cepstrum[count - i] = 0;
  }
  const folded = fourier.spectrumOf(cepstrum);
  return Float64Array.from({ length: count / 2 + 1 }, (_, k) => folded[2 * k + 1] as number);
}

/** Logarithms of the magnitudes, as the real parts of a spectrum. */
function logarithms(
  spectrum: Float64Array,
  binWidth_hz: number,
  known: { readonly from_hz: number; readonly to_hz: number },
): Float64Array {
  const logs = new Float64Array(spectrum.length);
  const last = spectrum.length / 2 - 1;
  let most = 0;
  for (let i = 0; i < spectrum.length; i += 2) {
    const power = (spectrum[i] as number) ** 2 + (spectrum[i + 1] as number) ** 2;
    logs[i] = power;
    if (most < power) most = power;
  }
  const floor = most === 0 ? 1 : most * 10 ** (-FLOOR_DB / 10);
  for (let i = 0; i < logs.length; i += 2)
    logs[i] = 0.5 * Math.log(Math.max(floor, logs[i] as number));
  const from = Math.max(1, Math.ceil(known.from_hz / binWidth_hz));
  const to = Math.min(last, Math.floor(known.to_hz / binWidth_hz));
  if (to <= 2 * from) return logs;
  const meanAt = (middle: number): number => meanLog(logs, middle);
  const low = meanAt(from * 2 ** 0.25);
  const rise = clamped(meanAt(from * 2 ** 0.75) - low, (6 / 20) * Math.LN10) * 2;
  for (let k = 0; k < from; k++)
    logs[2 * k] = low + rise * (Math.log2(Math.max(k, 0.5) / from) - 0.25);
  const high = meanAt(to * 2 ** -0.25);
  const fall = clamped(meanAt(to * 2 ** -0.75) - high, 0) * 2;
  for (let k = to + 1; k <= last; k++) logs[2 * k] = high - fall * (Math.log2(k / to) + 0.25);
  return logs;
}

/** Mean over half an octave about a bin. */
function meanLog(logs: Float64Array, middle: number): number {
  const first = Math.round(middle * 2 ** -0.25);
  const last = Math.max(first, Math.round(middle * 2 ** 0.25));
  let sum = 0;
  let count = 0;
  for (let k = first; k <= last && 2 * k < logs.length; k++) {
    sum += logs[2 * k] as number;
    count++;
  }
  return sum / Math.max(1, count);
}

function clamped(value: number, least: number): number {
  return Math.min(STEEPEST_NEPERS / 2, Math.max(least, value));
}
