// How far a thing stands outside the room, for the rule that says so and for those that then keep quiet about it.

import type { Point } from '../../../schema/model/quantities.ts';
import type { Space } from '../../../schema/model/room.ts';
import { ceilingHeight_m } from '../../acoustics/ceiling.ts';
import { contains, wallDistances_m } from '../../acoustics/polygon.ts';
import { type RoomShape, roomShape } from '../../parts/roomShape.ts';
import { ROUNDING_M } from '../places.ts';

export interface Beyond {
  readonly beyond_m: number;
  readonly where: 'outside the room' | 'below the floor' | 'above the ceiling';
}

/** A loudspeaker built into a surface may have its centre this far behind it: more than any cabinet's depth. */
const BUILT_IN_M = 0.6;

/** null inside, on a surface, built into one, or where the room's shape is not known. */
export function beyondRoom(
  space: Pick<Space, 'shape'>,
  { at, flushIn }: { readonly at: Point; readonly flushIn: string | null },
): Beyond | null {
  const shape = roomShape(space);
  const found = shape && outside(shape, at);
  return found !== null && allowance_m(flushIn, found.where) < found.beyond_m ? found : null;
}

function outside({ plan, ceiling }: RoomShape, at: Point): Beyond | null {
  if (!contains(plan, at)) {
    return { beyond_m: Math.min(...wallDistances_m(plan, at)), where: 'outside the room' };
  }
  if (at.z_m < 0) return { beyond_m: -at.z_m, where: 'below the floor' };
  const above_m = ceiling === null ? 0 : at.z_m - ceilingHeight_m(ceiling, at);
  return 0 < above_m ? { beyond_m: above_m, where: 'above the ceiling' } : null;
}

/** Built into a wall it may be behind the wall; into the ceiling, above the ceiling. */
function allowance_m(flushIn: string | null, where: Beyond['where']): number {
  if (flushIn === null) return ROUNDING_M;
  const isThere =
    where === 'above the ceiling'
      ? flushIn === 'ceiling'
      : where === 'below the floor'
        ? flushIn === 'floor'
        : flushIn !== 'ceiling' && flushIn !== 'floor';
  return isThere ? BUILT_IN_M : ROUNDING_M;
}
