// The curve that a measured noise is held against: the file's own rating or criterion, else what the standards ask for.

import type { BackgroundNoise } from '../../schema/model/room.ts';
import { type BandLevel, ncCurveAt, nrCurve } from '../acoustics/noiseCurves.ts';
import { bandName } from '../bandName.ts';
import { MOST_NR } from '../noiseLimits.ts';
import type { MeasuredNoise } from './measuredFigures.ts';

export interface NoiseLimit {
  readonly curve: 'NR' | 'NC';
  readonly rating: number;
  /** The file tells it, not the standards. */
  readonly isOwn: boolean;
  readonly levels: readonly BandLevel[];
}

export function noiseLimit(given: BackgroundNoise | null): NoiseLimit {
  const nc = given?.nc ?? null;
  const nr = given?.nr ?? null;
  if (nr === null && nc !== null)
    return { curve: 'NC', rating: nc, isOwn: true, levels: ncCurveAt(nc) };
  const rating = nr ?? MOST_NR;
  return { curve: 'NR', rating, isOwn: nr !== null, levels: nrCurve(rating) };
}

export interface BandBeyond {
  readonly frequency_hz: number;
  readonly level_db: number;
  readonly limit_db: number;
}

/** Half the last digit told, and a hair: a level on the curve as printed is not beyond it. */
const ROUNDING_DB = 0.0501;

/** The octaves of a recording that lie above the curve, the furthest first. */
export function bandsBeyond(
  { noise }: MeasuredNoise,
  { levels }: NoiseLimit,
): readonly BandBeyond[] {
  if (noise?.basis !== 'spl') return [];
  return noise.octaves
    .flatMap(({ frequency_hz, level_db }): readonly BandBeyond[] => {
      const limit_db = levels.find(({ nominal_hz }) => nominal_hz === frequency_hz)?.level_db;
      return limit_db !== undefined && limit_db + ROUNDING_DB < level_db
        ? [{ frequency_hz, level_db, limit_db }]
        : [];
    })
    .toSorted((one, other) => other.level_db - other.limit_db - (one.level_db - one.limit_db));
}

/** As it may stand under `space.background_noise`. */
export function noiseText({ noise }: MeasuredNoise): string | null {
  if (noise?.basis !== 'spl' || noise.octaves.length === 0) return null;
  const bands = noise.octaves.map(
    ({ frequency_hz, level_db }) => `${bandName(frequency_hz)}: ${level_db.toFixed(1)} dB`,
  );
  return `{ bands: { ${bands.join(', ')} } }`;
}
