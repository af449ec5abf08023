// Fractional-octave bands: exact mid frequencies and edges to base 10, and the nominal names that people read.

import { positive } from './guard.ts';

export interface FrequencyBand {
  /** number of the band, 0 at (or, for even fractions, just above) 1 kHz */
  readonly index: number;
  /** the name of the band; for other fractions than 1 and 3 the exact mid frequency to three figures */
  readonly nominal_hz: number;
  readonly exact_hz: number;
  readonly lower_hz: number;
  readonly upper_hz: number;
}

/** Octave ratio of the base-10 system. @source IEC 61260-1:2014, 5.2: G = 10^(3/10) */
export const OCTAVE_RATIO: number = 10 ** 0.3;

/** Nominal third-octave figures of a decade. @source ISO 266:1997 */
const NOMINAL_DECADE = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8] as const;

/**
 * One band by its number.
 *
 * @param bandsPerOctaveCount 1, 2, 3, 6, 12, 24 …
 * @source IEC 61260-1:2014: f = 1000 G^(x/b) for odd b, 1000 G^((2x+1)/(2b)) for even b; edges f G^(±1/(2b))
 */
export function bandAt(index: number, bandsPerOctaveCount: number): FrequencyBand {
  const b = positive('bandsPerOctaveCount', bandsPerOctaveCount);
  const exponent = b % 2 === 0 ? (2 * index + 1) / (2 * b) : index / b;
  const exact_hz = 1000 * OCTAVE_RATIO ** exponent;
  const edge_ratio = OCTAVE_RATIO ** (1 / (2 * b));
  return {
    index,
    nominal_hz: nominal_hz(index, b, exact_hz),
    exact_hz,
    lower_hz: exact_hz / edge_ratio,
    upper_hz: exact_hz * edge_ratio,
  };
}

/**
 * The bands whose nominal frequencies lie within a range.
 *
 * @param from_hz > 0, nominal: 20 includes the band at 19.95 Hz
 * @param to_hz nominal, included
 * @returns ascending; empty if the range holds no mid frequency
 */
export function bands(
  bandsPerOctaveCount: number,
  from_hz: number,
  to_hz: number,
): readonly FrequencyBand[] {
  const b = positive('bandsPerOctaveCount', bandsPerOctaveCount);
  const indexOf = (frequency_hz: number) =>
    (b * Math.log(positive('frequency_hz', frequency_hz) / 1000)) / Math.log(OCTAVE_RATIO);
  const found: FrequencyBand[] = [];
  const last = Math.ceil(indexOf(to_hz)) + 1;
  for (let index = Math.floor(indexOf(from_hz)) - 1; index <= last; index++) {
    const band = bandAt(index, b);
    if (from_hz <= band.nominal_hz && band.nominal_hz <= to_hz) found.push(band);
  }
  return found;
}

/** Third octaves by nominal frequency, both ends included: `thirdOctaves(20, 200)` are eleven bands. */
export function thirdOctaves(from_hz: number, to_hz: number): readonly FrequencyBand[] {
  return bands(3, from_hz, to_hz);
}

/** Octaves by nominal frequency, both ends included: `octaves(63, 4000)` are seven bands. */
export function octaves(from_hz: number, to_hz: number): readonly FrequencyBand[] {
  return bands(1, from_hz, to_hz);
}

/** The band of a fraction in which a frequency lies; an upper edge belongs to the band above. */
export function bandHolding(frequency_hz: number, bandsPerOctaveCount: number): FrequencyBand {
  const b = bandsPerOctaveCount;
  const x = (b * Math.log(positive('frequency_hz', frequency_hz) / 1000)) / Math.log(OCTAVE_RATIO);
  const guess = b % 2 === 0 ? Math.floor(x) : Math.round(x);
  const band = bandAt(guess, b);
  if (frequency_hz < band.lower_hz) return bandAt(guess - 1, b);
  return band.upper_hz <= frequency_hz ? bandAt(guess + 1, b) : band;
}

/** Exact mid frequency of the third octave (or octave) that people call by a nominal figure. */
export function exactFrequency_hz(nominal_hz: number): number {
  return bandAt(Math.round(10 * Math.log10(positive('nominal_hz', nominal_hz) / 1000)), 3).exact_hz;
}

function nominal_hz(index: number, b: number, exact_hz: number): number {
  if (b !== 1 && b !== 3) return Number(exact_hz.toPrecision(3));
  const third = b === 1 ? 3 * index : index;
  const decade = Math.floor(third / 10);
  const figure = NOMINAL_DECADE[third - 10 * decade] ?? Number.NaN;
  return Number((figure * 10 ** (decade + 3)).toPrecision(3));
}
