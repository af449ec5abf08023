// Smoothing of responses over fractions of an octave: means of power, evenly weighted over the logarithm of frequency.

import { positive } from '../acoustics/guard.ts';

/** The shape of the mean: even over 1/n octave, or a bell of that width at half its height. */
export type SmoothingKernel = 'rectangular' | 'gaussian';

/** Points on the very edge of the window count in, in octaves. */
const SLACK = 1e-9;

/**
 * A response on a grid evenly spaced in octaves, smoothed. At the ends the window is cut off and its weights go on to sum to 1.
 *
 * @param frequencies_hz ascending, evenly spaced in octaves
 * @param levels_db at these frequencies
 * @param fractionCount n of 1/n octave
 * @returns dB of the mean power
 */
export function smoothed_db(
  frequencies_hz: Float64Array,
  levels_db: Float64Array,
  fractionCount: number,
  kernel: SmoothingKernel = 'rectangular',
): Float64Array {
  const n = positive('fractionCount', fractionCount);
  const octaves = frequencies_hz.map((f) => Math.log2(f));
  const power = levels_db.map((level) => 10 ** (level / 10));
  const reach = (kernel === 'rectangular' ? 1 / (2 * n) : 2 / n) + SLACK;
  const weightAt = (apart: number): number =>
    kernel === 'rectangular' ? 1 : Math.exp(-4 * Math.LN2 * (apart * n) ** 2);
  let first = 0;
  return octaves.map((middle) => {
    while ((octaves[first] as number) < middle - reach) first++;
    let sum = 0;
    let weights = 0;
    for (let j = first; j < octaves.length; j++) {
      const apart = (octaves[j] as number) - middle;
      if (reach < apart) break;
      const weight = weightAt(apart);
      sum += weight * (power[j] as number);
      weights += weight;
    }
    return 10 * Math.log10(sum / weights);
  });
}

/**
 * Mean power of a spectrum around each of some frequencies, even over 1/n octave in log frequency, by running sums.
 *
 * @param spectrum interleaved, bins 0 … count/2
 * @param binWidth_hz from bin to bin
 * @param fractionCount n of 1/n octave; windows narrower than a bin take the value between two bins
 * @returns power, not dB
 */
export function bandPowers(
  spectrum: Float64Array,
  binWidth_hz: number,
  frequencies_hz: Float64Array,
  fractionCount: number,
): Float64Array {
  return bandPowersOf(spectrum, binWidth_hz)(frequencies_hz, fractionCount);
}

export type BandPowers = (frequencies_hz: Float64Array, fractionCount: number) => Float64Array;

/** The same for whoever asks more than once about one spectrum: its running sums are made once. */
export function bandPowersOf(spectrum: Float64Array, binWidth_hz: number): BandPowers {
  const bins = spectrum.length / 2;
  // Running integrals of P/f and of 1/f, each bin taken as even over its width.
  const power = new Float64Array(bins + 1);
  for (let k = 1; k < bins; k++) {
    const size = (spectrum[2 * k] as number) ** 2 + (spectrum[2 * k + 1] as number) ** 2;
    power[k + 1] = (power[k] as number) + size * logWidth(k);
  }
  const upTo = (place: number): number => {
    const k = Math.min(bins - 1, Math.max(1, Math.floor(place + 0.5)));
    const size = (power[k + 1] as number) - (power[k] as number);
    const whole = logWidth(k);
    const inside = Math.log(Math.max(place, 0.5) / (k - 0.5));
    return (power[k] as number) + size * Math.min(1, inside / whole);
  };
  return (frequencies_hz, fractionCount) => {
    const half = 2 ** (1 / (2 * positive('fractionCount', fractionCount)));
    return frequencies_hz.map((frequency_hz) => {
      const place = frequency_hz / binWidth_hz;
      const low = Math.max(0.5, place / half);
      const high = Math.min(bins - 0.5, place * half);
      return high <= low ? 0 : (upTo(high) - upTo(low)) / Math.log(high / low);
    });
  };
}

/** ln((k + ½)/(k − ½)), of large k by its series: the next term is below 10⁻¹⁷ of the first. */
function logWidth(k: number): number {
  if (k < 256) return Math.log((k + 0.5) / (k - 0.5));
  const square = 1 / (k * k);
  return (1 + square * (1 / 12 + square * (1 / 80 + square / 448))) / k;
}
