// The mean power spectrum of a steady signal, by overlapping segments under a Hann window.

import { createFourier, powerOfTwoFrom } from './fourier.ts';

export interface PowerSpectrum {
  /** Power per bin: their sum is the signal's mean square. The first is that of 0 Hz. */
  readonly powers_ratio: Float64Array;
  readonly binWidth_hz: number;
}

/** Bins as narrow as 1 Hz: the lowest octave then holds some twenty. */
const NARROWEST_HZ = 1;

/**
 * @param signal any length above 16 samples; a constant in it is left out
 * @source Welch, IEEE Trans. Audio Electroacoust. 15 (1967) 70–73: segments that overlap by half
 */
export function powerSpectrum(signal: Float64Array, sampleRate_hz: number): PowerSpectrum {
  const wished = powerOfTwoFrom(sampleRate_hz / NARROWEST_HZ);
  const count = wished <= signal.length ? wished : powerOfTwoFrom(signal.length / 2 + 1);
  const fourier = createFourier(count);
  const window = hannWeights(count);
  const segments = Math.max(1, Math.floor(signal.length / (count / 2)) - 1);
  const powers_ratio = new Float64Array(count / 2 + 1);
  const mean = meanOf(signal);
  // Σ w² of a Hann window is 3/8 of its length.
  const gain = 2 / (count * (3 / 8) * count * segments);
  for (let segment = 0; segment < segments; segment++) {
    const first = Math.round((segment * count) / 2);
    const spectrum = fourier.spectrumOf(
      window.map((weight, i) => weight * ((signal[first + i] ?? mean) - mean)),
    );
    for (let k = 1; k < powers_ratio.length; k++) {
      const power = (spectrum[2 * k] as number) ** 2 + (spectrum[2 * k + 1] as number) ** 2;
      powers_ratio[k] = (powers_ratio[k] as number) + gain * power;
    }
  }
  return { powers_ratio, binWidth_hz: sampleRate_hz / count };
}

export function hannWeights(count: number): Float64Array {
  return Float64Array.from(
    { length: count },
    (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / count),
  );
}

function meanOf(signal: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < signal.length; i++) sum += signal[i] as number;
  return sum / Math.max(1, signal.length);
}
