// Rule polarity/undecided: the two polarities of a subwoofer differ by enough to say which is right.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly subs: readonly string[];
  readonly apart_db: number;
}

/** Less is within what a prediction, or a noise reading, can be off: common practice, no source. */
const LIMIT_DB = 1.5;

export const polarityUndecided: Rule = defineRule<Fact>({
  code: 'polarity/undecided',
  severity: 'hint',
  title: 'Polarity undecided',
  reason:
    'Mains and subwoofer stand about a quarter turn apart at the crossover: either polarity gives as much bass, and neither adds up well.',
  advice: 'Set the delay first; then compare both polarities again, and measure both together.',
  source: 'less than 1.5 dB between the two: common practice, no source',

  *find({ crossovers }) {
    for (const { otherPolarity_db, subs, path } of crossovers) {
      const [sub] = subs;
      if (otherPolarity_db === undefined || sub === undefined) continue;
      const apart_db = Math.abs(otherPolarity_db);
      if (LIMIT_DB <= apart_db) continue;
      yield {
        path: ['subwoofers', sub],
        fact: { subs, apart_db },
        measured: { value: apart_db, unit: 'dB' },
        limit: { value: LIMIT_DB, unit: 'dB' },
        related: [{ path, message: 'The crossover' }],
      };
    }
  },

  message: ({ subs, apart_db }, show) =>
    `The two polarities of ${subs.join(', ')} are ${show.level(apart_db)} apart where it meets the mains: neither can be said to be right`,
});
