// The band in which a source is strong: from the powers of its third octaves.

import type { FrequencyBand } from '../acoustics/thirdOctave.ts';

export interface SourceBand {
  readonly from_hz: number;
  readonly to_hz: number;
}

/**
 * The bands about the strongest that are within some decibels of it, without a gap; each the mean of an octave.
 *
 * @param powers_ratio of these third octaves, not dB
 */
export function strongBand(
  bands: readonly FrequencyBand[],
  powers_ratio: Float64Array,
  below_db: number,
): SourceBand {
  const means = powers_ratio.map((power, i) => {
    const near = [powers_ratio[i - 1] ?? power, power, powers_ratio[i + 1] ?? power];
    return near.reduce((sum, one) => sum + one) / near.length;
  });
  let strongest = 0;
  for (let i = 1; i < means.length; i++)
    if ((means[strongest] as number) < (means[i] as number)) strongest = i;
  const enough = (means[strongest] as number) * 10 ** (-below_db / 10);
  let first = strongest;
  let last = strongest;
  while (0 < first && enough <= (means[first - 1] as number)) first--;
  while (last + 1 < means.length && enough <= (means[last + 1] as number)) last++;
  return { from_hz: bands[first]?.lower_hz ?? 0, to_hz: bands[last]?.upper_hz ?? 0 };
}

/** A source is within so much of its strongest third octave in its own band. */
export const BELOW_STRONGEST_DB = 10;

/** Further below the strongest, ripples of the deconvolution would pass for the source. */
export const KNOWN_RANGE_DB = 40;
/** Levels below the shown range still shape the phase within. */
export const DEEPEST_HZ = 12.5;

/** The band over which a full-range source's level is told. @source EBU Tech 3343: 500 Hz to 2 kHz */
const LEVEL_BAND_HZ = [500, 2000] as const;

/** Over which band a source's level is told: the standard's, or its own where it does not cover that. */
export function levelBand({ from_hz, to_hz }: SourceBand): readonly [number, number] {
  const covers = from_hz <= LEVEL_BAND_HZ[0] && LEVEL_BAND_HZ[1] <= to_hz;
  return covers ? LEVEL_BAND_HZ : [from_hz, to_hz];
}
