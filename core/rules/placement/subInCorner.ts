// Rule placement/sub-in-corner: a single subwoofer does not stand in a corner.

import { defineRule, type Rule } from '../rule.ts';

/** From the driver to the corner, on the plan: the sub stands in it. Common practice, no source. */
const NEAR_M = 0.6;

interface Fact {
  readonly sub: string;
  readonly distance_m: number;
}

export const subInCorner: Rule = defineRule<Fact>({
  code: 'placement/sub-in-corner',
  severity: 'information',
  title: 'Subwoofer in a corner',
  reason: 'In a corner it drives every mode fully: most level, least even.',
  advice: 'Move it along the front wall; several subwoofers may well do best in corners.',
  source:
    'common practice, no source; Welti & Devantier, J. Audio Eng. Soc. 54 (2006) 347 for several',

  *find({ room, placement }) {
    if (room.subwoofers.length !== 1) return;
    for (const { source: sub, fromCorner_m: distance_m } of placement ?? []) {
      if (distance_m === null || NEAR_M <= distance_m) continue;
      yield {
        path: ['subwoofers', sub, 'at'],
        fact: { sub, distance_m },
        measured: { value: distance_m, unit: 'm' },
        limit: { value: NEAR_M, unit: 'm' },
      };
    }
  },

  message: ({ sub, distance_m }, show) =>
    `${sub} is ${show.length(distance_m)} from a corner of the room`,
});
