// What one figure for a whole noise (a level in dBA, a noise criterion) says of its noise rating: a range, for its bands are hidden.

import { power_db, power_ratio } from './decibel.ts';
import { type BandLevel, ncCurveAt, noiseRating, nrCurve } from './noiseCurves.ts';
import { exactFrequency_hz } from './thirdOctave.ts';
import { weighting_db } from './weighting.ts';

/** Ratings, both possible. */
export interface RatingRange {
  readonly lower: number;
  readonly upper: number;
}

/** Ratings between which a level is looked for, far beyond any room's; 60 halvings go to the last digit. */
const LEAST_NR = -200;
const MOST_NR = 400;
const HALVINGS = 60;

/**
 * A-weighted level of a noise from its octave bands.
 *
 * @returns dBA; −∞ for no bands
 * @source IEC 61672-1:2013 (A weighting at the bands' exact mid frequencies)
 */
export function level_dba(levels: readonly BandLevel[]): number {
  return power_db(
    levels.reduce(
      (sum, { nominal_hz, level_db }) =>
        sum + power_ratio(level_db + weighting_db('A', exactFrequency_hz(nominal_hz))),
      0,
    ),
  );
}

/**
 * The noise ratings that a level in dBA can hide, of a noise with all that it has between 31.5 Hz and 8 kHz.
 *
 * The least is the curve that has this level itself: a noise that keeps to a lower curve everywhere is less loud. The most is
 * that of a noise with all its level in the one octave where that weighs most.
 *
 * @param given_dba of the whole noise
 */
export function ratingsOfLevel(given_dba: number): RatingRange {
  if (!Number.isFinite(given_dba)) throw new RangeError(`given_dba ${given_dba} is no number`);
  let [low, high] = [LEAST_NR, MOST_NR];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (level_dba(nrCurve(middle)) < given_dba) low = middle;
    else high = middle;
  }
  const alone = nrCurve(0).map(({ nominal_hz }) => ({
    nominal_hz,
    level_db: given_dba - weighting_db('A', exactFrequency_hz(nominal_hz)),
  }));
  return { lower: (low + high) / 2, upper: ratingOf(alone) };
}

/**
 * The noise ratings of a noise that touches an NC curve in one band at least and exceeds it in none, from 63 Hz to 8 kHz.
 *
 * @param rating NC
 */
export function ratingsOfCriterion(rating: number): RatingRange {
  const curve = ncCurveAt(rating);
  return { lower: Math.min(...curve.map((band) => ratingOf([band]))), upper: ratingOf(curve) };
}

function ratingOf(levels: readonly BandLevel[]): number {
  const rated = noiseRating(levels);
  if (rated === null) throw new RangeError('no band of the NR curves');
  return rated.rating;
}
