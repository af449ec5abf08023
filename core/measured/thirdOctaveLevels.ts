// A measured response by third octaves, as the standards judge it.

import { type FrequencyBand, thirdOctaves } from '../acoustics/thirdOctave.ts';
import type { MeasuredResponse } from './measuredFigures.ts';

export interface BandLevel {
  readonly band: FrequencyBand;
  readonly level_db: number;
}

/** Fewer points than this in a band say nothing of it. */
const LEAST_POINTS = 2;

/** Mean power of the points in each band; bands that the take supports only in part are left out. */
export function thirdOctaveLevels(
  { frequency_hz, level_db }: Pick<MeasuredResponse, 'frequency_hz' | 'level_db'>,
  from_hz: number,
  to_hz: number,
): readonly BandLevel[] {
  const [first = Number.POSITIVE_INFINITY, last = 0] = [frequency_hz[0], frequency_hz.at(-1)];
  return thirdOctaves(from_hz, to_hz).flatMap((band) => {
    if (band.lower_hz < first * 0.9 || last * 1.1 < band.upper_hz) return [];
    const inside = frequency_hz.flatMap((f_hz, i) =>
      band.lower_hz <= f_hz && f_hz < band.upper_hz ? [level_db[i] ?? null] : [],
    );
    const known = inside.filter((level) => level !== null);
    if (known.length < LEAST_POINTS || known.length < inside.length) return [];
    const power = known.reduce((sum, level) => sum + 10 ** (level / 10), 0) / known.length;
    return [{ band, level_db: 10 * Math.log10(power) }];
  });
}

export function meanLevel_db(levels: readonly BandLevel[]): number {
  return levels.reduce((sum, { level_db }) => sum + level_db, 0) / Math.max(1, levels.length);
}
