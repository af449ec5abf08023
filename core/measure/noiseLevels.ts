// Levels of a recorded noise: in octaves as a filter of class 1 has them, A-weighted, and as a whole.

import { bands, type FrequencyBand } from '../acoustics/thirdOctave.ts';
import { weighting_db } from '../acoustics/weighting.ts';
import { heldAt_db, type LevelCurve } from './correction.ts';
import { powerSpectrum } from './powerSpectrum.ts';

export interface NoiseLevels {
  /** Mean levels over the whole length, against a sine at full scale. */
  readonly octaves: readonly { readonly band: FrequencyBand; readonly level_dbfs: number }[];
  /** A-weighted, and unweighted: of what lies between 20 Hz and 20 kHz. */
  readonly a_dbfs: number;
  readonly whole_dbfs: number;
  readonly length_s: number;
}

/** The octaves of the noise curves. @source ISO/R 1996:1971: 31.5 Hz to 8 kHz */
const OCTAVES_HZ = [31.5, 8000] as const;
const HEARD_HZ = [20, 20_000] as const;
/** A full-scale sine is 0 dB, and its mean square a half. */
const SINE_RATIO = 2;

/** Shorter noise has no level in the lowest octave: 4.3 dB/√(B T) would be above 1 dB (Bendat and Piersol). */
export const SHORTEST_NOISE_S = 1;

/**
 * @param correction the microphone's own response, taken off; null for none
 * @source IEC 61672-1 for the A weighting (L_Aeq of the recording); IEC 61260-1 for the bands: Butterworth of the sixth order
 */
export function noiseLevels(
  signal: Float64Array,
  sampleRate_hz: number,
  correction: LevelCurve | null,
): NoiseLevels {
  const { powers_ratio, binWidth_hz } = powerSpectrum(signal, sampleRate_hz);
  const corrected =
    correction === null ? powers_ratio : taken(powers_ratio, binWidth_hz, correction);
  const level = (gainOf: (frequency_hz: number) => number): number => {
    let sum = 0;
    for (let k = 1; k < corrected.length; k++)
      sum += (corrected[k] as number) * gainOf(k * binWidth_hz);
    return 10 * Math.log10(Math.max(1e-30, SINE_RATIO * sum));
  };
  const isHeard = (f: number): boolean => HEARD_HZ[0] <= f && f <= HEARD_HZ[1];
  return {
    octaves: bands(1, ...OCTAVES_HZ)
      .filter(({ upper_hz }) => upper_hz < sampleRate_hz / 2)
      .map((band) => ({ band, level_dbfs: level((f) => bandGain(band, f)) })),
    a_dbfs: level((f) => (isHeard(f) ? 10 ** (weighting_db('A', f) / 10) : 0)),
    whole_dbfs: level((f) => (isHeard(f) ? 1 : 0)),
    length_s: signal.length / sampleRate_hz,
  };
}

/** |H|² of the band pass: half at both edges. */
function bandGain({ exact_hz, lower_hz, upper_hz }: FrequencyBand, frequency_hz: number): number {
  const off =
    (frequency_hz / exact_hz - exact_hz / frequency_hz) / ((upper_hz - lower_hz) / exact_hz);
  return 1 / (1 + off ** 6);
}

function taken(powers: Float64Array, binWidth_hz: number, curve: LevelCurve): Float64Array {
  return powers.map((power, k) => power * 10 ** (-heldAt_db(curve, k * binWidth_hz) / 10));
}
