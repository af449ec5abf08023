// Harmonic distortion from the recording of an exponential sweep: each harmonic's response stands before the linear one.

import { circularPart } from './circularPart.ts';
import { fade } from './fade.ts';
import { createFourier } from './fourier.ts';
import { type BandPowers, bandPowersOf } from './smoothing.ts';
import { harmonicLead_s, type SweepDesign } from './sweep.ts';

export interface HarmonicLevels {
  /** 2, 3, … */
  readonly order: number;
  /** Level against the fundamental at each excited frequency; NaN where it lies outside the sweep or in the noise. */
  readonly levels_db: Float64Array;
}

export interface Distortion {
  /** Excited frequencies. */
  readonly frequencies_hz: Float64Array;
  readonly harmonics: readonly HarmonicLevels[];
  /** All of them together, against the fundamental, as a ratio of amplitudes; NaN where no harmonic could be read. */
  readonly total_ratio: Float64Array;
}

const ORDERS = [2, 3, 4, 5] as const;
/** A harmonic must stand so far above the noise before it. */
const ABOVE_NOISE_DB = 10;
const SMOOTHING = 6;
/** Periods that a window must hold for its frequency to be told from its neighbours. */
const LEAST_PERIODS = 5;

/**
 * @param impulse circular, the linear response at `arrivalIndex`
 * @param arrivalIndex where the direct sound is
 * @param frequencies_hz excited frequencies wanted
 * @source Farina (2000): the harmonic of order n comes T ln n/ln(f₂/f₁) early
 */
export function distortion(
  impulse: Float64Array,
  arrivalIndex: number,
  design: SweepDesign,
  frequencies_hz: Float64Array,
): Distortion {
  const { sampleRate_hz } = design;
  const lead = (order: number): number => harmonicLead_s(design, order) * sampleRate_hz;
  // All windows alike, no longer than the closest two harmonics stand apart.
  const length = Math.floor(Math.min(lead(6) - lead(5), 0.3 * sampleRate_hz) * 0.9);
  const part = (startIndex: number): Float64Array => gated(impulse, startIndex, length);
  const fourier = createFourier(Math.max(length, sampleRate_hz));
  const binWidth_hz = sampleRate_hz / fourier.count;
  const powersOf = (startIndex: number): BandPowers =>
    bandPowersOf(fourier.spectrumOf(part(startIndex)), binWidth_hz);
  const before = Math.round(length * 0.2);
  const lowest_hz = (LEAST_PERIODS * sampleRate_hz) / length;
  const linear = powersOf(arrivalIndex - before)(frequencies_hz, SMOOTHING);
  // Halfway to the harmonic before it there is noise only.
  const quiet = powersOf(Math.round(arrivalIndex - (lead(7) + lead(8)) / 2) - before);
  const harmonics = ORDERS.map((order): HarmonicLevels => {
    const at = frequencies_hz.map((f) => f * order);
    const sound = powersOf(Math.round(arrivalIndex - lead(order)) - before)(at, SMOOTHING);
    const noise = quiet(at, SMOOTHING);
    return {
      order,
      levels_db: frequencies_hz.map((f, i) =>
        f < Math.max(design.from_hz, lowest_hz) ||
        design.to_hz < f * order ||
        (sound[i] as number) < (noise[i] as number) * 10 ** (ABOVE_NOISE_DB / 10)
          ? Number.NaN
          : 10 * Math.log10((sound[i] as number) / (linear[i] as number)),
      ),
    };
  });
  return {
    frequencies_hz,
    harmonics,
    total_ratio: frequencies_hz.map((_, i) => {
      const seen = harmonics
        .map(({ levels_db }) => levels_db[i] as number)
        .filter((l) => !Number.isNaN(l));
      return seen.length === 0
        ? Number.NaN
        : Math.sqrt(seen.reduce((sum, l) => sum + 10 ** (l / 10), 0));
    }),
  };
}

/** Part of a circular signal under a window with soft ends. */
function gated(signal: Float64Array, startIndex: number, length: number): Float64Array {
  const part = circularPart(signal, startIndex, length);
  const edge = Math.max(1, Math.floor(length * 0.1));
  fade(part, edge, edge);
  return part;
}
