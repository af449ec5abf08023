// Rule levels/pair: left and right of a pair are equally loud at the reference seat.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly louder: string;
  readonly other: string;
  readonly apart_db: number;
  readonly limit_db: number;
}

/** Where the policy has no `pair_level`: common practice, no source. */
const LIMIT_DB = 0.5;

export const levelsPair: Rule = defineRule<Fact>({
  code: 'levels/pair',
  severity: 'warning',
  title: 'Pair not equally loud',
  reason: 'The phantom centre moves towards the louder one, and every balance with it.',
  advice: 'Set both to the same level; make up for unequal distances with the trims.',
  source:
    '0.5 dB: common practice, no source (BS.1116 and EBU Tech 3276 set each to ±0.25 dB, from memory); gains and sensitivities as dialled in, free field',

  *find({ room, levels: { pairs } }) {
    const limit_db = room.policy.tolerances.pair_level ?? LIMIT_DB;
    for (const { left, right, difference_db } of pairs ?? []) {
      const apart_db = Math.abs(difference_db);
      if (apart_db <= limit_db + 0.005) continue;
      const [louder, other] = 0 < difference_db ? [left, right] : [right, left];
      yield {
        path: ['speakers', louder],
        fact: { louder, other, apart_db, limit_db },
        measured: { value: apart_db, unit: 'dB' },
        limit: { value: limit_db, unit: 'dB' },
        related: [{ path: ['speakers', other], message: 'The quieter one of the pair' }],
      };
    }
  },

  message: ({ louder, other, apart_db, limit_db }, show) =>
    `${louder} is ${show.level(apart_db)} louder than ${other} at the seat; ${show.level(limit_db)} is asked for`,
});
