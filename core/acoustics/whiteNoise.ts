// White noise through filters, A-weighted: what is left of the hiss of electronics behind a low-pass or a loudspeaker's own ends.

import { thirdOctaves } from './thirdOctave.ts';
import { weighting_db } from './weighting.ts';

export interface NoiseBand {
  /** Exact mid frequency of a third octave, > 0. */
  readonly exact_hz: number;
  /** What the filters make of it. */
  readonly level_db: number;
}

const [LOWEST_HZ, HIGHEST_HZ] = [20, 20_000] as const;

/**
 * A-weighted level of white noise of which only these third octaves are left, re all of it from 20 Hz to 20 kHz.
 *
 * White: the same power in each hertz, so that a third octave holds power as its mid frequency. Bands that are not named hold nothing.
 *
 * @returns dB, <= 0 where nothing is amplified; minus infinity for no band
 * @source weighting: IEC 61672-1:2013, Annex E; electronics' noise as white: common practice, no source
 */
export function whiteNoiseLeft_db(bands: readonly NoiseBand[]): number {
  const power = ({ exact_hz, level_db }: NoiseBand) =>
    exact_hz * 10 ** ((weighting_db('A', exact_hz) + level_db) / 10);
  const sum = (all: readonly NoiseBand[]) => all.reduce((total, band) => total + power(band), 0);
  const whole = thirdOctaves(LOWEST_HZ, HIGHEST_HZ).map(({ exact_hz }) => ({
    exact_hz,
    level_db: 0,
  }));
  return 10 * Math.log10(sum(bands) / sum(whole));
}
