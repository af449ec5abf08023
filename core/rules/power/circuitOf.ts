// Rule power/circuit-of: every powered thing hangs on one known circuit, once.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly id: string;
  readonly circuits: readonly string[];
}

export const powerCircuitOf: Rule = defineRule<Fact>({
  code: 'power/circuit-of',
  severity: 'information',
  title: 'Circuit of a thing',
  reason: 'What hangs on no recorded circuit, or on two, makes the loads on the sheet wrong.',
  advice: 'Name it under the one circuit that feeds it.',
  source: 'the circuits of the file',

  *find({ room, power }) {
    if (room.circuits.length === 0) return;
    for (const id of power.up.flatMap(({ ids }) => ids)) {
      const circuits = room.circuits.filter(({ feeds }) => feeds.includes(id)).map((one) => one.id);
      if (circuits.length === 1) continue;
      const last = circuits.at(-1);
      yield {
        path: last === undefined ? ['circuits'] : ['circuits', last, 'feeds'],
        fact: { id, circuits },
      };
    }
  },

  message: ({ id, circuits }) =>
    circuits.length === 0
      ? `${id} hangs on no recorded circuit`
      : `${id} hangs on ${circuits.join(' and ')}`,
});
