// Rule power/circuit-load: each circuit carries what it feeds, with room to spare.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly circuit: string;
  readonly load_a: number;
  readonly rated_a: number;
  readonly unknown: readonly string[];
}

const LIMIT = 0.8;

export const powerCircuitLoad: Rule = defineRule<Fact>({
  code: 'power/circuit-load',
  severity: 'warning',
  title: 'Load on a circuit',
  reason:
    'A circuit near its rating trips when everything plays loud, or warms its wiring for hours.',
  advice:
    'Spread the gear over circuits, and have a licensed person decide: the local code comes first.',
  source: '80 % of the rating for long loads: common practice, no source; the local code decides',

  *find({ power }) {
    for (const { circuit, load_a, rated_a, share, unknown } of power.circuits) {
      if (share === null || rated_a === null || share <= LIMIT) continue;
      yield {
        path: ['circuits', circuit],
        fact: { circuit, load_a, rated_a, unknown },
        severity: 1 < share ? 'error' : 'warning',
        measured: { value: load_a, unit: 'A' },
        limit: { value: LIMIT * rated_a, unit: 'A' },
      };
    }
  },

  message: ({ circuit, load_a, rated_a, unknown }) =>
    `${circuit} carries ${load_a.toFixed(1)} A at rated power, ${((100 * load_a) / rated_a).toFixed(0)} % of its ${rated_a} A${
      unknown.length === 0 ? '' : `, ${unknown.join(', ')} not counted`
    }`,
});
