// Rule field/seat-spread: the seats hear much the same bass.

import type { SpreadFigures } from '../../fieldFigures.ts';
import { defineRule, type Rule } from '../rule.ts';
import { channelText } from './bassOf.ts';

/** One subwoofer in an untreated room makes about 5 to 6 dB: what lies above is worth a second look. Common practice, no source. */
const MOST_DB = 6;

export const fieldSeatSpread: Rule = defineRule<SpreadFigures>({
  code: 'field/seat-spread',
  severity: 'information',
  title: 'Seats differ in the bass',
  reason: 'What is right at one seat is wrong at another, and no equaliser mends both.',
  advice: 'Several subwoofers, other places for them, or damping of the lowest modes.',
  source:
    'mean spatial variance after Welti & Devantier, J. Audio Eng. Soc. 54 (2006) 347; the limit of 6 dB is common practice, no source',

  *find({ field, referenceSeat }) {
    const worst = (field?.spread ?? []).toSorted((a, b) => b.variance_db2 - a.variance_db2)[0];
    if (worst === undefined || worst.deviation_db <= MOST_DB) return;
    yield {
      path: referenceSeat === null ? ['seats'] : ['seats', referenceSeat],
      fact: worst,
      measured: { value: worst.deviation_db, unit: 'dB' },
      limit: { value: MOST_DB, unit: 'dB' },
    };
  },

  message: (spread, show) =>
    `Seats differ by ${show.level(spread.deviation_db)} (standard deviation, ${show.frequency(spread.from_hz)} to ${show.frequency(spread.to_hz)}) in ${channelText(spread)}; most at ${show.frequency(spread.worst.frequency_hz)}, ${show.level(spread.worst.level_db)}; predicted`,
});
