// How far a whole response lies outside a target or the standards' mask, by third octaves.

import type { FrequencyBand } from '../acoustics/thirdOctave.ts';
import type { BandLevel } from './thirdOctaveLevels.ts';
import { meanLevel_db } from './thirdOctaveLevels.ts';

export interface BandOff {
  readonly band: FrequencyBand;
  /** Re the target or the mask's middle. */
  readonly off_db: number;
  /** How far beyond the limit, > 0. */
  readonly beyond_db: number;
  readonly limit_db: number;
}

/** The mask's level 0 is the mean of these. @source EBU Tech 3276, ITU-R BS.1116 (from memory): 200 Hz to 4 kHz */
const MEAN_HZ = [200, 4000] as const;
const LEAST_BANDS = 6;

/** @source EBU Tech 3276, ITU-R BS.1116 (from memory): ±3 dB from 50 Hz, below 2 kHz; then the lower limit falls to −6 dB at 16 kHz */
const MASK = {
  from_hz: 50,
  to_hz: 16_000,
  most_db: 3,
  least_db: -3,
  end_db: -6,
  falls_hz: 2000,
} as const;

/** Lower limit of the mask at a frequency, dB re the mean. */
export function maskFloor_db(frequency_hz: number): number {
  if (frequency_hz <= MASK.falls_hz) return MASK.least_db;
  const octaves = Math.log2(MASK.to_hz / MASK.falls_hz);
  return (
    MASK.least_db +
    ((MASK.end_db - MASK.least_db) * Math.log2(frequency_hz / MASK.falls_hz)) / octaves
  );
}

/** Bands outside the mask; null where the take does not reach over the middle band. */
export function outsideMask(levels: readonly BandLevel[]): readonly BandOff[] | null {
  const middle = levels.filter(
    ({ band }) => MEAN_HZ[0] <= band.nominal_hz && band.nominal_hz <= MEAN_HZ[1],
  );
  if (middle.length < LEAST_BANDS) return null;
  const mean_db = meanLevel_db(middle);
  return levels
    .filter(({ band }) => MASK.from_hz <= band.nominal_hz && band.nominal_hz <= MASK.to_hz)
    .flatMap(({ band, level_db }) => {
      const off_db = level_db - mean_db;
      const limit_db = off_db < 0 ? maskFloor_db(band.nominal_hz) : MASK.most_db;
      const beyond_db = off_db < 0 ? limit_db - off_db : off_db - limit_db;
      return 0 < beyond_db ? [{ band, off_db, beyond_db, limit_db }] : [];
    });
}

/** Bands farther from a target than is allowed; the target is laid through the middle of what was measured. */
export function outsideTarget(
  levels: readonly BandLevel[],
  target_db: (frequency_hz: number) => number,
  tolerance_db: number,
): readonly BandOff[] {
  const offs = levels.map(({ band, level_db }) => ({
    band,
    level_db: level_db - target_db(band.exact_hz),
  }));
  const sorted = offs.map(({ level_db }) => level_db).toSorted((a, b) => a - b);
  const middle_db = sorted[Math.floor(sorted.length / 2)] ?? 0;
  return offs.flatMap(({ band, level_db }) => {
    const off_db = level_db - middle_db;
    const beyond_db = Math.abs(off_db) - tolerance_db;
    return 0 < beyond_db
      ? [{ band, off_db, beyond_db, limit_db: Math.sign(off_db) * tolerance_db }]
      : [];
  });
}

export function worstOf(offs: readonly BandOff[]): BandOff | undefined {
  return offs.toSorted((a, b) => b.beyond_db - a.beyond_db)[0];
}
