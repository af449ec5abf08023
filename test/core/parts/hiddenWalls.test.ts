// Reflections in rooms that are not convex: a wall that another one hides has none, and the others keep theirs.

import { describe, expect, test } from 'vitest';
import { isFreeWay } from '../../../core/acoustics/polygon.ts';
import { airPart } from '../../../core/parts/air.ts';
import { boundariesPart } from '../../../core/parts/boundaries.ts';
import { plan, point, roomWith, seat, spaceWith, speaker } from '../../support/rooms.ts';

/** An L: 6 × 4 m, and a wing of 2 × 3 m behind its right-hand end. Walls by the corner that they start from. */
const L_ROOM = plan(
  {
    front: [0, 0],
    right: [6, 0],
    wing_back: [6, 7],
    inner_side: [4, 7],
    inner_back: [4, 4],
    left: [0, 4],
  },
  2.8,
);

function surfacesSeen(ear: readonly [number, number]): readonly string[] {
  const room = roomWith({
    space: spaceWith({ shape: L_ROOM }),
    seats: [seat('mix', point(ear[0], ear[1], 1.2))],
    speakers: [speaker('left', 'L', point(1, 1, 1.2))],
  });
  const { air } = airPart(room, 293.15);
  return boundariesPart(room, air).boundaries[0]?.reflections.map(({ surface }) => surface) ?? [];
}

// Worked on paper: from (1, 1) to (3, 3.5) by way of y = 7 the sound would have to pass through y = 4 at x < 4, which is wall.
test('the far wall of the wing does not reflect to a seat that it cannot see', () => {
  const seen = surfacesSeen([3, 3.5]);
  expect(seen).not.toContain('wing_back');
  expect(seen).toEqual(expect.arrayContaining(['front', 'left', 'inner_back', 'floor', 'ceiling']));
});

test('a seat round the corner has no direct sound, and no floor beneath it', () => {
  const seen = surfacesSeen([4.2, 6.9]);
  expect(seen).not.toContain('floor');
});

describe('a free way', () => {
  const walls = L_ROOM.walls;
  test('inside one arm, along a wall, and across the corner', () => {
    expect(isFreeWay(walls, { x_m: 1, y_m: 1 }, { x_m: 5, y_m: 3 }, null)).toBe(true);
    expect(isFreeWay(walls, { x_m: 0, y_m: 1 }, { x_m: 0, y_m: 3 }, null)).toBe(true);
    expect(isFreeWay(walls, { x_m: 1, y_m: 3.5 }, { x_m: 5, y_m: 6 }, null)).toBe(false);
    expect(isFreeWay(walls, { x_m: 3, y_m: 1 }, { x_m: 5, y_m: 6 }, null)).toBe(true);
  });
});
