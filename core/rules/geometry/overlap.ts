// Rule geometry/overlap: no two things are at one place.

import { distance_m } from '../../acoustics/point.ts';
import { thingsOf } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

/** Half the width of the smallest loudspeakers, and less than any head. */
const LEAST_M = 0.05;

interface Fact {
  readonly id: string;
  readonly first: string;
  readonly distance_m: number;
}

export const geometryOverlap: Rule = defineRule<Fact>({
  code: 'geometry/overlap',
  severity: 'warning',
  title: 'Two things at one place',
  reason: 'One of the two was copied and not yet moved, or measured wrongly.',
  advice: 'Correct one of the positions.',
  source: 'geometry',

  *find({ room }) {
    const things = thingsOf(room);
    for (const [index, thing] of things.entries()) {
      for (const first of things.slice(0, index)) {
        const apart_m = distance_m(first.at, thing.at);
        if (LEAST_M <= apart_m) continue;
        yield {
          path: [...thing.path, 'at'],
          fact: { id: thing.id, first: first.id, distance_m: apart_m },
          measured: { value: apart_m, unit: 'm' },
          limit: { value: LEAST_M, unit: 'm' },
          related: [{ path: [...first.path, 'at'], message: 'The other one' }],
        };
      }
    }
  },

  message: ({ id, first, distance_m: apart_m }, show) =>
    0 < apart_m
      ? `${id} is only ${show.smallLength(apart_m)} from ${first}`
      : `${id} is at the same place as ${first}`,
});
