// Rule space/noise: continuous noise keeps to the noise rating of the listening-room standards, in each band that is known.

import type { BackgroundFigures, NoiseBand } from '../../backgroundFigures.ts';
import { MOST_NR, PREFERRED_NR } from '../../noiseLimits.ts';
import { defineRule, type Found, type Rule } from '../rule.ts';

type Fact =
  | { readonly kind: 'nr'; readonly nr: number }
  | { readonly kind: 'band' | 'preferred'; readonly band: NoiseBand }
  | { readonly kind: 'nc'; readonly nc: number; readonly range: readonly [number, number] }
  | { readonly kind: 'level'; readonly level_dba: number; readonly limit_dba: number }
  | { readonly kind: 'likely'; readonly level_dba: number };

/** Half the last digit told, and a hair: a level on the curve as printed is not beyond it. */
const ROUNDING_DB = 0.0501;
/** By how much NR usually lies below the level in dBA. @source common practice, no source: NR ≈ dBA − 5 … 8 */
const USUALLY_BELOW_DB = [5, 8] as const;

export const spaceNoise: Rule = defineRule<Fact>({
  code: 'space/noise',
  severity: 'warning',
  title: 'Background noise',
  reason: 'Noise masks reverberation tails and low passages, and people then turn up.',
  advice: 'Find the band that decides the rating; look at ventilation and equipment first.',
  source:
    'ITU-R BS.1116-3 and EBU Tech 3276: NR 10 preferred, never above NR 15 (from memory); curves: ISO/R 1996:1971',

  *find({ background: noise }) {
    if (!noise) return;
    if (noise.from === 'bands') yield* ofBands(noise);
    else if (noise.from === 'nr') yield* ofRating(noise);
    else if (noise.from === 'nc') yield* ofCriterion(noise);
    else yield* ofLevel(noise);
  },

  message(fact, show) {
    switch (fact.kind) {
      case 'nr':
        return `Background noise of NR ${fact.nr}, at most NR ${MOST_NR} is asked for`;
      case 'band':
        return `Background noise of ${show.level(fact.band.level_db)} at ${show.frequency(fact.band.frequency_hz)}: NR ${rounded(fact.band.nr)}, at most ${show.level(fact.band.limit_db)} (NR ${MOST_NR}) is asked for`;
      case 'preferred':
        return `Background noise of NR ${rounded(fact.band.nr)}, decided at ${show.frequency(fact.band.frequency_hz)}: ${show.level(fact.band.level_db)}, at most ${show.level(fact.band.preferred_db)} (NR ${PREFERRED_NR}) is preferred`;
      case 'nc':
        return MOST_NR < fact.range[0]
          ? `Background noise of NC ${fact.nc} is NR ${rounded(fact.range[0])} or more, at most NR ${MOST_NR} is asked for`
          : `Background noise of NC ${fact.nc} may be up to NR ${rounded(fact.range[1])}, at most NR ${MOST_NR} is asked for; octave bands would tell`;
      case 'level':
        return `Background noise of ${fact.level_dba} dBA is louder than a noise along the whole curve of NR ${MOST_NR}, ${fact.limit_dba.toFixed(1)} dBA: it exceeds the curve in some band`;
      case 'likely':
        return `Background noise of ${fact.level_dba} dBA is usually about NR ${likely(fact.level_dba)}, at most NR ${MOST_NR} is asked for; a single figure hides tones, octave bands would tell`;
    }
  },
});

function* ofRating({ nr, path }: BackgroundFigures): Generator<Found<Fact>> {
  if (nr === null || nr <= MOST_NR) return;
  yield { path, fact: { kind: 'nr', nr }, ...figures(nr, MOST_NR, 'NR') };
}

/** Each band beyond the most, at its line; where none is, the one that keeps the room from what is preferred. */
function* ofBands({ bands, governing_hz }: BackgroundFigures): Generator<Found<Fact>> {
  const beyond = bands.filter(({ isBeyond }) => isBeyond);
  for (const band of beyond) {
    yield {
      path: band.path,
      fact: { kind: 'band', band },
      ...figures(band.level_db, band.limit_db, 'dB'),
    };
  }
  const band = bands.find(({ frequency_hz }) => frequency_hz === governing_hz);
  if (0 < beyond.length || !band || band.level_db <= band.preferred_db + ROUNDING_DB) return;
  yield {
    path: band.path,
    fact: { kind: 'preferred', band },
    severity: 'hint',
    ...figures(band.level_db, band.preferred_db, 'dB'),
  };
}

/** Certain where every noise on that curve is beyond; else worth a word. */
function* ofCriterion({ nc, nrRange, path }: BackgroundFigures): Generator<Found<Fact>> {
  if (nc === null || nrRange === null || nrRange[1] <= MOST_NR) return;
  const isCertain = MOST_NR < nrRange[0];
  yield {
    path,
    fact: { kind: 'nc', nc, range: nrRange },
    severity: isCertain ? 'warning' : 'information',
    ...figures(isCertain ? nrRange[0] : nrRange[1], MOST_NR, 'NR'),
  };
}

function* ofLevel({ level_dba, limit_dba, path }: BackgroundFigures): Generator<Found<Fact>> {
  if (level_dba === null) return;
  if (limit_dba + ROUNDING_DB < level_dba) {
    yield {
      path,
      fact: { kind: 'level', level_dba, limit_dba },
      ...figures(level_dba, limit_dba, 'dBA'),
    };
  } else if (MOST_NR < level_dba - USUALLY_BELOW_DB[1]) {
    yield {
      path,
      fact: { kind: 'likely', level_dba },
      severity: 'information',
      ...figures(level_dba, MOST_NR + USUALLY_BELOW_DB[1], 'dBA'),
    };
  }
}

function figures(value: number, limit: number, unit: string) {
  return { measured: { value, unit }, limit: { value: limit, unit } };
}

/** Away from the limit, so that a rating just beyond it does not read as on it. */
function rounded(nr: number): string {
  return (Math.ceil(nr * 10 - 1e-9) / 10).toFixed(1);
}

function likely(level_dba: number): string {
  const [least, most] = USUALLY_BELOW_DB;
  return `${Math.floor(level_dba - most)} to ${Math.ceil(level_dba - least)}`;
}
