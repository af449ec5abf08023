// Rule crossover/dip: the sum of main and subwoofer has no hole at the crossover.

import { defineRule, type Rule } from '../rule.ts';
import { dipNear, phaseFixes, suggestionFixes } from './figures.ts';

interface Fact {
  readonly dip_db: number;
  readonly dip_hz: number;
  readonly crossover_hz: number;
}

/** An uncorrelated sum of two equal halves would lie here; more is cancellation: common practice, no source. */
const LIMIT_DB = -3;
/** Half of the last digit shown. */
const ROUNDING_DB = 0.05;

export const crossoverDip: Rule = defineRule<Fact>({
  code: 'crossover/dip',
  severity: 'warning',
  title: 'Dip at the crossover',
  reason: 'Main and subwoofer cancel there: notes near the crossover are missing at the seat.',
  advice: 'Align the delays first, then polarity; then try the suggested crossover, and measure.',
  source:
    'complex sum of filters and natural roll-offs; limit 3 dB within half an octave: common practice, no source',

  *find(setup) {
    for (const figures of setup.crossovers) {
      if (figures.current === null) continue;
      const dip = dipNear(figures.current);
      if (LIMIT_DB - ROUNDING_DB <= dip.level_db) continue;
      yield {
        path: figures.path,
        fact: {
          dip_db: dip.level_db,
          dip_hz: dip.frequency_hz,
          crossover_hz: figures.current.filter.frequency_hz,
        },
        measured: { value: dip.level_db, unit: 'dB' },
        limit: { value: LIMIT_DB, unit: 'dB' },
        fixes: [...phaseFixes(setup, figures), ...suggestionFixes(setup, figures)],
      };
    }
  },

  message: ({ dip_db, dip_hz, crossover_hz }, show) =>
    `Predicted dip of ${show.level(-dip_db)} at ${show.frequency(dip_hz)}, beside the crossover at ${show.frequency(crossover_hz)}`,
});
