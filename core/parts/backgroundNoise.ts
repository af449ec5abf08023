// Part of Setup: the background noise: its rating, what decides it, and what the figure given leaves open.

import type { Path } from '../../schema/model/path.ts';
import type { BackgroundNoise, NoiseLevel, Room } from '../../schema/model/room.ts';
import { noiseCriterion, noiseRating, nrCurve } from '../acoustics/noiseCurves.ts';
import {
  level_dba,
  type RatingRange,
  ratingsOfCriterion,
  ratingsOfLevel,
} from '../acoustics/noiseOfOneFigure.ts';
import type { BackgroundFigures, NoiseBand } from '../backgroundFigures.ts';
import { bandName } from '../bandName.ts';
import { MOST_NR, PREFERRED_NR } from '../noiseLimits.ts';
import type { Note } from '../setup.ts';
import { type NoiseOctave, noiseOctaves, OCTAVES_HZ } from './noiseOctaves.ts';

export interface NoisePart {
  /** null where the file says nothing that can be read. */
  readonly background: BackgroundFigures | null;
  readonly notes: readonly Note[];
}

const PATH: Path = ['space', 'background_noise'];
/** Half the last digit told, and a hair: a level on the curve as printed is not beyond it. */
const ROUNDING_DB = 0.0501;
const NOTHING: NoisePart = { background: null, notes: [] };
/** What a survey of noise should hold; 31.5 Hz is often beyond the meter. @source ISO/R 1996:1971 has curves from 31.5 Hz, S12.2 from 63 Hz */
const EXPECTED_HZ = OCTAVES_HZ.filter((nominal_hz) => 63 <= nominal_hz);

export function noisePart({ space }: Pick<Room, 'space'>): NoisePart {
  const given = space.backgroundNoise;
  if (given === null) return NOTHING;
  if (given.nr !== null) return { background: { ...figures('nr'), nr: given.nr }, notes: [] };
  if (0 < (given.bands?.length ?? 0)) return ofBands(given.bands ?? []);
  if (given.level) return ofLevel(given.level);
  return typeof given.nc === 'number' ? ofCriterion(given.nc) : NOTHING;
}

function figures(from: BackgroundFigures['from']): BackgroundFigures {
  return {
    from,
    path: [...PATH, from],
    nr: null,
    governing_hz: null,
    nrRange: null,
    nc: null,
    ncGoverning_hz: null,
    level_dba: null,
    limit_dba: level_dba(nrCurve(MOST_NR)),
    bands: [],
  };
}

function ofBands(given: NonNullable<BackgroundNoise['bands']>): NoisePart {
  const { octaves, leftOut } = noiseOctaves(given);
  const { path } = figures('bands');
  return {
    background: backgroundOfOctaves(octaves, path, (key) => [...path, key]),
    notes: bandNotes(octaves, leftOut),
  };
}

/**
 * Octaves against the curves.
 *
 * @param path of the whole, `pathOf` of each octave by its key
 */
export function backgroundOfOctaves(
  octaves: readonly NoiseOctave[],
  path: Path,
  pathOf: (key: string) => Path,
): BackgroundFigures {
  const rated = noiseRating(octaves);
  const criterion = noiseCriterion(octaves);
  return {
    ...figures('bands'),
    path,
    nr: rated?.rating ?? null,
    governing_hz: rated?.governing_hz ?? null,
    nc: criterion?.rating ?? null,
    ncGoverning_hz: criterion?.governing_hz ?? null,
    level_dba: octaves.length === 0 ? null : level_dba(octaves),
    bands: octaves.map((octave) => bandOf(octave, pathOf(octave.key))),
  };
}

function bandOf({ nominal_hz, level_db }: NoiseOctave, path: Path): NoiseBand {
  const on = (nr: number) =>
    nrCurve(nr).find((band) => band.nominal_hz === nominal_hz)?.level_db ?? 0;
  const limit_db = on(MOST_NR);
  return {
    frequency_hz: nominal_hz,
    level_db,
    nr: noiseRating([{ nominal_hz, level_db }])?.rating ?? 0,
    preferred_db: on(PREFERRED_NR),
    limit_db,
    isBeyond: limit_db + ROUNDING_DB < level_db,
    path,
  };
}

function bandNotes(octaves: readonly NoiseOctave[], leftOut: readonly string[]): readonly Note[] {
  const path: Path = [...PATH, 'bands'];
  const missing = EXPECTED_HZ.filter(
    (nominal_hz) => !octaves.some((octave) => octave.nominal_hz === nominal_hz),
  );
  return [
    ...(leftOut.length === 0
      ? []
      : [
          {
            path,
            message: `Left out of the noise rating, as no whole octave of the NR curves: ${leftOut.join(', ')}`,
          },
        ]),
    ...(missing.length === 0
      ? []
      : [
          {
            path,
            message:
              octaves.length === 0
                ? 'No noise rating: no octave from 31.5 Hz to 8 kHz is whole'
                : `The noise rating is of the bands given; none at ${missing.map(bandName).join(', ')}`,
          },
        ]),
  ];
}

/** Only dBA: what counts in the others may lie below the lowest curve. */
function ofLevel({ level_db, weighting }: NoiseLevel): NoisePart {
  const path: Path = [...PATH, 'level'];
  if (weighting !== 'A') {
    const message =
      'A level that is not in dBA cannot be held against noise ratings: measure octave bands';
    return { background: figures('level'), notes: [{ path, message }] };
  }
  const range = ratingsOfLevel(level_db);
  return {
    background: {
      ...figures('level'),
      level_dba: level_db,
      nrRange: [range.lower, range.upper],
    },
    notes: [
      {
        path,
        message: `A single figure hides tones and rumble: this one can be ${rangeText(range)}; octave bands would tell`,
      },
    ],
  };
}

function ofCriterion(nc: number): NoisePart {
  const range = ratingsOfCriterion(nc);
  return {
    background: { ...figures('nc'), nc, nrRange: [range.lower, range.upper] },
    notes: [
      {
        path: [...PATH, 'nc'],
        message: `The standards ask by noise rating: this NC can be ${rangeText(range)}; octave bands would tell`,
      },
    ],
  };
}

function rangeText({ lower, upper }: RatingRange): string {
  return `NR ${Math.floor(lower)} to ${Math.ceil(upper)}`;
}
