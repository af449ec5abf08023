// Rule crossover/start-differs: where practice's start and the acoustic sum part ways, both are told.

import { defineRule, type Rule } from '../rule.ts';
import { outcomeText } from './figures.ts';

interface Fact {
  readonly practice: string;
  readonly best: string;
  readonly worse_db: number;
}

/** Less is nothing to talk about. */
const LIMIT_DB = 1;

export const crossoverStartDiffers: Rule = defineRule<Fact>({
  code: 'crossover/start-differs',
  severity: 'hint',
  title: 'Practice and sum name different crossovers',
  reason:
    'The start that practice names does not count the roll-off of the mains; the sum does, as far as data sheets tell it.',
  advice: 'Try both by ear and by measurement; keep what measures and sounds right.',
  source: 'common practice, no source, against the complex sum',

  *find({ crossovers }) {
    for (const { practice, ranked, path, current } of crossovers) {
      const [best] = ranked;
      if (practice === null || best === undefined) continue;
      const worse_db = practice.ripple_db - best.ripple_db;
      // Told while nothing, or the start itself, is dialled in: who has chosen otherwise knows.
      const isOpen =
        current === null || current.filter.frequency_hz === practice.filter.frequency_hz;
      if (!isOpen || worse_db <= LIMIT_DB || outcomeText(best) === outcomeText(practice)) continue;
      yield {
        path,
        fact: { practice: outcomeText(practice), best: outcomeText(best), worse_db },
        measured: { value: practice.ripple_db, unit: 'dB' },
        limit: { value: best.ripple_db, unit: 'dB' },
      };
    }
  },

  message: ({ practice, best, worse_db }, show) =>
    `Practice begins at ${practice}; by the sum ${best} is ${show.level(worse_db)} more even`,
});
