// Rule geometry/outside: seats, loudspeakers and subwoofers are inside the room.

import { ceilingHeight_m } from '../../acoustics/ceiling.ts';
import { contains, wallDistances_m } from '../../acoustics/polygon.ts';
import { type RoomShape, roomShape } from '../../parts/roomShape.ts';
import { ROUNDING_M, type Thing, thingsOf } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

/** A loudspeaker built into a surface may have its centre this far behind it: more than any cabinet's depth. */
const BUILT_IN_M = 0.6;

interface Fact {
  readonly id: string;
  readonly beyond_m: number;
  readonly where: 'outside the room' | 'below the floor' | 'above the ceiling';
}

export const geometryOutside: Rule = defineRule<Fact>({
  code: 'geometry/outside',
  severity: 'error',
  title: 'Outside the room',
  reason: 'Distances, modes and reflections are computed inside the walls only.',
  advice:
    'Correct its position or the size of the room; say `mount: { flush_in: … }` where it is built into a wall.',
  source: 'geometry',

  *find({ room }) {
    const shape = roomShape(room.space);
    if (shape === null) return;
    for (const thing of thingsOf(room)) {
      const found = outside(shape, thing);
      if (found === null || found.beyond_m <= allowance_m(thing, found.where)) continue;
      yield {
        path: [...thing.path, 'at'],
        fact: { id: thing.id, ...found },
        measured: { value: found.beyond_m, unit: 'm' },
        limit: { value: 0, unit: 'm' },
        related: [{ path: ['space'], message: 'The size of the room' }],
      };
    }
  },

  message: ({ id, beyond_m, where }, show) => `${id} stands ${show.length(beyond_m)} ${where}`,
});

function outside(
  { plan, ceiling }: RoomShape,
  { at }: Thing,
): { readonly beyond_m: number; readonly where: Fact['where'] } | null {
  if (!contains(plan, at)) {
    return { beyond_m: Math.min(...wallDistances_m(plan, at)), where: 'outside the room' };
  }
  if (at.z_m < 0) return { beyond_m: -at.z_m, where: 'below the floor' };
  const above_m = ceiling === null ? 0 : at.z_m - ceilingHeight_m(ceiling, at);
  return 0 < above_m ? { beyond_m: above_m, where: 'above the ceiling' } : null;
}

/** Built into a wall it may be behind the wall; into the ceiling, above the ceiling. */
function allowance_m({ flushIn }: Thing, where: Fact['where']): number {
  if (flushIn === null) return ROUNDING_M;
  const isThere =
    where === 'above the ceiling'
      ? flushIn === 'ceiling'
      : where === 'below the floor'
        ? flushIn === 'floor'
        : flushIn !== 'ceiling' && flushIn !== 'floor';
  return isThere ? BUILT_IN_M : ROUNDING_M;
}
