// Rule crossover/too-low: the crossover leaves room above the mains' own roll-off.

import { defineRule, type Rule } from '../rule.ts';
import { adviceOn, suggestionFixes } from './figures.ts';

interface Fact {
  readonly crossover_hz: number;
  readonly minus6db_hz: number;
}

const RATIO = 1.5;

export const crossoverTooLow: Rule = defineRule<Fact>({
  code: 'crossover/too-low',
  severity: 'information',
  title: "Crossover near the mains' roll-off",
  reason:
    "The electrical high-pass comes on top of the mains' own roll-off: together they are steeper and turn phase further than the low-pass of the subwoofer.",
  advice:
    'Raise the crossover to 1.5 to 2 times the -6 dB point, or let the roll-off itself be the high-pass.',
  source: 'common practice, no source; the sum shows how much it costs',

  *find(setup) {
    for (const figures of setup.crossovers) {
      const { current, mainsMinus6db_hz, ranked, path } = figures;
      const crossover_hz = current?.filter.frequency_hz ?? Infinity;
      const best_hz = ranked[0]?.filter.frequency_hz ?? 0;
      if (mainsMinus6db_hz === null || RATIO * mainsMinus6db_hz <= crossover_hz) continue;
      // Where the sum is as good as any that the device offers, the rule of thumb has nothing to add.
      if (best_hz <= crossover_hz || adviceOn(setup, figures)?.agrees !== false) continue;
      yield {
        path,
        fact: { crossover_hz, minus6db_hz: mainsMinus6db_hz },
        measured: { value: crossover_hz, unit: 'Hz' },
        limit: { value: RATIO * mainsMinus6db_hz, unit: 'Hz' },
        fixes: suggestionFixes(setup, figures),
      };
    }
  },

  message: ({ crossover_hz, minus6db_hz }, show) =>
    `${show.frequency(crossover_hz)} is ${(crossover_hz / minus6db_hz).toFixed(2)} times the mains' -6 dB point (${show.frequency(minus6db_hz)}); 1.5 to 2 times sums better`,
});
