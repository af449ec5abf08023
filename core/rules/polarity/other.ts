// Rule polarity/other: the polarity dialled in is the one that gives more bass at the seat.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly subs: readonly string[];
  readonly gain_db: number;
}

/** Twice the power: common practice, no source. */
const LIMIT_DB = 3;

export const polarityOther: Rule = defineRule<Fact>({
  code: 'polarity/other',
  severity: 'warning',
  title: 'The other polarity gives more bass',
  reason:
    'Of the two polarities the one that gives more bass at the seat is the one that adds up at the crossover.',
  advice:
    'Turn the polarity of the subwoofer, listen, and confirm it by a measurement of both together.',
  source: 'common practice, no source; predicted from the sum once the delays are set',

  *find({ crossovers, advice, signalPaths }) {
    for (const { otherPolarity_db, subs, path, set } of crossovers) {
      if (otherPolarity_db === undefined || otherPolarity_db < LIMIT_DB) continue;
      const switches = signalPaths
        .filter(({ target }) => subs.includes(target))
        .flatMap(({ stages }) => stages)
        .filter(({ kind }) => kind === 'polarity');
      const own = advice.find(
        (one) =>
          one.control === 'polarity' &&
          one.fix !== null &&
          (one.set === null || one.set === set) &&
          switches.some(({ device }) => device === one.device),
      );
      yield {
        path: own?.path ?? path,
        fact: { subs, gain_db: otherPolarity_db },
        measured: { value: otherPolarity_db, unit: 'dB' },
        limit: { value: LIMIT_DB, unit: 'dB' },
        fixes: own?.fix ? [own.fix] : [],
      };
    }
  },

  message: ({ subs, gain_db }, show) =>
    `The other polarity of ${subs.join(', ')} is predicted to give ${show.level(gain_db)} more where it meets the mains`,
});
