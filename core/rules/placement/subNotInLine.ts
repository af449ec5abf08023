// Rule placement/sub-not-in-line: a single subwoofer stands in line with the mains, as a start.

import { lengthText, sourceAt } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

/** Nearer to the line than this it counts as in line: common practice, no source. */
const NEAR_M = 0.5;

interface Fact {
  readonly sub: string;
  readonly behind_m: number;
}

export const subNotInLine: Rule = defineRule<Fact>({
  code: 'placement/sub-not-in-line',
  severity: 'information',
  title: 'Subwoofer not in line with the mains',
  reason: 'In line with the mains it needs little delay and is least heard as a place of its own.',
  advice: 'Begin in line with the mains; elsewhere, delay and crossover have to make up for it.',
  source: 'common practice, no source',

  *find({ room, placement }) {
    if (room.subwoofers.length !== 1) return;
    for (const { source: sub, behindMains_m: behind_m } of placement ?? []) {
      const at = sourceAt(room, sub);
      if (behind_m === null || at === null || Math.abs(behind_m) <= NEAR_M) continue;
      const path = ['subwoofers', sub, 'at', 'y'];
      yield {
        path,
        fact: { sub, behind_m },
        measured: { value: Math.abs(behind_m), unit: 'm' },
        limit: { value: NEAR_M, unit: 'm' },
        fixes: [
          {
            title: `Move ${sub} into line with the mains`,
            edits: [{ do: 'set', path, value: lengthText(at.y_m + behind_m, room.habits) }],
            safe: false,
          },
        ],
      };
    }
  },

  message: ({ sub, behind_m }, show) =>
    `${sub} stands ${show.length(Math.abs(behind_m))} ${
      0 < behind_m ? 'behind' : 'in front of'
    } the line of the mains`,
});
