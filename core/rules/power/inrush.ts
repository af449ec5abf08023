// Rule power/inrush: switching everything on at once does not trip the circuit.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly circuit: string;
  readonly inrush_a: number;
  readonly rated_a: number;
}

/** A breaker of type B may trip at once from 3 times its rating. @source IEC 60898-1 (from memory) */
const TIMES_RATED = 3;

export const powerInrush: Rule = defineRule<Fact>({
  code: 'power/inrush',
  severity: 'hint',
  title: 'Inrush on a circuit',
  reason: 'If all that this circuit feeds is switched on together, the breaker may trip.',
  advice:
    'Switch on one after the other, in the order of the sheet, or by a sequencer that a licensed person fits.',
  source:
    'IEC 60898-1, type B: instantaneous tripping between 3 and 5 times the rating (from memory)',

  *find({ power }) {
    for (const { circuit, inrush_a, rated_a } of power.circuits) {
      if (rated_a === null || inrush_a <= TIMES_RATED * rated_a) continue;
      yield {
        path: ['circuits', circuit],
        fact: { circuit, inrush_a, rated_a },
        measured: { value: inrush_a, unit: 'A' },
        limit: { value: TIMES_RATED * rated_a, unit: 'A' },
      };
    }
  },

  message: ({ circuit, inrush_a, rated_a }) =>
    `Everything on ${circuit} at once draws up to ${inrush_a.toFixed(0)} A for a moment, ${(inrush_a / rated_a).toFixed(1)} times its rating`,
});
