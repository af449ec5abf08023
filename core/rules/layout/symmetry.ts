// Rule layout/symmetry: the right one of a pair is the mirror image of the left one, seen from the seat.

import type { Point } from '../../../schema/model/quantities.ts';
import { distance_m } from '../../acoustics/point.ts';
import { moveFix, ROUNDING_M } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';
import { type Stand, stands } from './layoutPath.ts';

/** Where the policy has no `symmetry`: ±1 cm for each of the two, common practice, no source. */
const TOLERANCE_M = 0.02;

interface Fact {
  readonly left: string;
  readonly right: string;
  readonly seat: string;
  readonly apart_m: number;
  readonly tolerance_m: number;
}

export const layoutSymmetry: Rule = defineRule<Fact>({
  code: 'layout/symmetry',
  severity: 'information',
  title: 'Pair not symmetric',
  reason:
    'A centimetre of difference is 0.03 ms: phantom sources move, and the pair colours differently.',
  advice: 'Place one as the mirror image of the other about the line ahead of the seat.',
  source: 'ITU-R BS.1116-3 §8.5 asks for symmetry; ±1 cm: common practice, no source',

  *find(setup) {
    const { room } = setup;
    const tolerance_m = room.policy.tolerances.symmetry ?? TOLERANCE_M;
    const all = stands(setup);
    for (const left of all) {
      const right = all.find((other) => isPartner(left, other));
      if (right === undefined) continue;
      const apart_m = distance_m(mirrored(left.at, left.ear), right.at);
      if (apart_m <= tolerance_m + ROUNDING_M) continue;
      yield {
        path: ['speakers', right.id, 'at'],
        fact: { left: left.id, right: right.id, seat: left.layout.seat, apart_m, tolerance_m },
        measured: { value: apart_m, unit: 'm' },
        limit: { value: tolerance_m, unit: 'm' },
        related: [{ path: ['speakers', left.id, 'at'], message: 'The other one of the pair' }],
        fixes: [mirrorFix(room, left, right), mirrorFix(room, right, left)],
      };
    }
  },

  message: ({ left, right, seat, apart_m, tolerance_m }, show) =>
    `${right} is ${show.smallLength(apart_m)} from the mirror image of ${left} about ${seat}, within ${show.smallLength(tolerance_m)} is asked for`,
});

function mirrorFix(room: Parameters<typeof moveFix>[0], from: Stand, moved: Stand) {
  const to = mirrored(from.at, from.ear);
  return moveFix(
    room,
    ['speakers', moved.id],
    moved.at,
    to,
    `Place ${moved.id} as the mirror image of ${from.id}`,
  );
}

function isPartner(left: Stand, other: Stand): boolean {
  return (
    left.layout === other.layout &&
    left.position.label.includes('+') &&
    other.position.label === left.position.label.replace('+', '-')
  );
}

/** About the upright plane through the seat, from front to back. */
function mirrored(at: Point, ear: Point): Point {
  return { ...at, x_m: 2 * ear.x_m - at.x_m };
}
