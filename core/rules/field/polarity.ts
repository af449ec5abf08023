// Rule field/polarity: in the room as predicted, the subwoofer's polarity is the one that gives more bass at the reference seat.

import type { PolarityFigures } from '../../fieldFigures.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly figures: PolarityFigures;
  readonly gain_db: number;
}

/** So much is heard at once; less is for the measurement to say. Common practice, no source. */
const CLEAR_DB = 3;
/** Below this either is as good, as far as a prediction can tell. Common practice, no source. */
const UNDECIDED_DB = 1.5;

export const fieldPolarity: Rule = defineRule<Fact>({
  code: 'field/polarity',
  severity: 'information',
  title: 'Polarity, in the room',
  reason: 'Where loudspeaker and subwoofer both play, they should add up at the seat.',
  advice: 'Try both at the seat with noise at the crossover and keep the louder one; then measure.',
  source:
    '“which gives more bass at the seat”: common practice, no source; predicted field of the room',

  *find({ field, signalPaths }) {
    for (const figures of field?.polarity ?? []) {
      const gain_db = figures.turned_db - figures.asSet_db;
      if (gain_db < CLEAR_DB && UNDECIDED_DB <= Math.abs(gain_db)) continue;
      if (gain_db <= -UNDECIDED_DB) continue;
      const switched = signalPaths
        .filter(({ target, set }) => target === figures.sub && (set ?? null) === figures.set)
        .flatMap(({ stages }) => stages)
        .findLast(({ kind, settingPath }) => kind === 'polarity' && settingPath !== null);
      yield {
        path: switched?.settingPath ?? ['subwoofers', figures.sub],
        fact: { figures, gain_db },
        severity: gain_db < CLEAR_DB ? 'hint' : 'information',
        measured: { value: gain_db, unit: 'dB' },
        limit: { value: CLEAR_DB, unit: 'dB' },
      };
    }
  },

  message({ figures: { sub, overlap_hz, set }, gain_db }, show) {
    const [from_hz, to_hz] = overlap_hz;
    const where = `from ${show.frequency(from_hz)} to ${show.frequency(to_hz)}${set === null ? '' : ` (${set})`}`;
    return gain_db < CLEAR_DB
      ? `The room does not say which polarity of ${sub} is right: ${show.level(Math.abs(gain_db))} between them ${where}, predicted`
      : `Turned over, ${sub} would give ${show.level(gain_db)} more ${where} at the seat, predicted`;
  },
});
