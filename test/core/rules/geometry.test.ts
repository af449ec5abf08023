// Rules on geometry: geometry/outside, inside-obstacle, in-keep-clear, overlap. References: the geometry itself.

import { describe, expect, test } from 'vitest';
import { geometryInKeepClear } from '../../../core/rules/geometry/inKeepClear.ts';
import { geometryInsideObstacle } from '../../../core/rules/geometry/insideObstacle.ts';
import { geometryOutside } from '../../../core/rules/geometry/outside.ts';
import { geometryOverlap } from '../../../core/rules/geometry/overlap.ts';
import type { Fixture } from '../../../schema/model/room.ts';
import { findingsOf, told } from '../../support/findingsOf.ts';
import {
  box,
  EMPTY_ROOM,
  plan,
  point,
  roomWith,
  seat,
  spaceWith,
  speaker,
  stereoRoom,
  subwoofer,
} from '../../support/rooms.ts';

describe('geometry/outside', () => {
  const inBox = (x: number, y: number, z: number, flushIn: string | null = null) =>
    roomWith({
      space: spaceWith({ shape: box(5, 4, 2.5) }),
      speakers: [speaker('left', 'L', point(x, y, z), { flushIn })],
    });

  test.each([
    [5.3, 1, 1.2, 'speakers.left.at: left stands 0.30 m outside the room'],
    [-0.3, -0.4, 1.2, 'speakers.left.at: left stands 0.50 m outside the room'],
    [1, 1, -0.02, 'speakers.left.at: left stands 0.02 m below the floor'],
    [1, 1, 2.6, 'speakers.left.at: left stands 0.10 m above the ceiling'],
  ])('%d, %d, %d', (x, y, z, want) => {
    expect(told(findingsOf(geometryOutside, inBox(x, y, z)))).toEqual([want]);
  });

  test('on a wall, on the floor, at the ceiling is inside', () => {
    for (const [x, y, z] of [
      [5, 4, 1],
      [0, 0, 0],
      [1, 1, 2.5],
    ] as const) {
      expect(findingsOf(geometryOutside, inBox(x, y, z))).toEqual([]);
    }
  });

  test('built into a wall it may be behind the wall, not above the ceiling', () => {
    expect(findingsOf(geometryOutside, inBox(1, -0.15, 1.2, 'front'))).toEqual([]);
    expect(findingsOf(geometryOutside, inBox(1, -0.7, 1.2, 'front')).length).toBe(1);
    expect(findingsOf(geometryOutside, inBox(1, 1, 2.6, 'front')).length).toBe(1);
    expect(findingsOf(geometryOutside, inBox(1, 1, 2.6, 'ceiling'))).toEqual([]);
  });

  test('in the notch of an L-shaped room, and under a slope', () => {
    const corners = {
      front: [0, 0],
      right: [5, 0],
      step: [5, 3],
      inner: [3, 3],
      back: [3, 6],
      left: [0, 6],
    } as const;
    const shape = plan(corners, 2.5);
    const room = roomWith({
      space: spaceWith({ shape }),
      seats: [seat('mix', point(4, 4, 1.2))],
    });
    expect(told(findingsOf(geometryOutside, room))).toEqual([
      'seats.mix.at: mix stands 1.00 m outside the room',
    ]);
    const ceiling = { height_m: 2.5, slopeX: 0, slopeY: -0.3 };
    const low = roomWith({
      space: spaceWith({ shape: { ...shape, ceiling } }),
      seats: [seat('mix', point(2, 5, 1.2))], // ceiling at 1.0 m there
    });
    expect(told(findingsOf(geometryOutside, low))).toEqual([
      'seats.mix.at: mix stands 0.20 m above the ceiling',
    ]);
  });

  test('quiet without a size or a place', () => {
    const lost = roomWith({ speakers: [speaker('left', 'L', point(9, 9, 9))] });
    expect(findingsOf(geometryOutside, lost)).toEqual([]);
    const unplaced = roomWith({
      space: spaceWith({ shape: box(5, 4, 2.5) }),
      speakers: [speaker('left', 'L', null)],
    });
    expect(findingsOf(geometryOutside, unplaced)).toEqual([]);
  });
});

const DESK: Fixture = {
  id: 'desk',
  kind: 'obstacle',
  x_m: [1.4, 3.2],
  y_m: [1.3, 2],
  z_m: [0, 0.75],
  because: null,
};
const DOOR: Fixture = {
  id: 'door',
  kind: 'keep_clear',
  x_m: [0, 0.95],
  y_m: [4.9, 6.18],
  z_m: null,
  because: 'way out',
};

describe('geometry/inside-obstacle', () => {
  const withSub = (z: number) =>
    roomWith({
      space: spaceWith({ fixtures: [DESK] }),
      subwoofers: [subwoofer('sub', point(2, 1.5, z))],
    });

  test('a subwoofer in the desk', () => {
    expect(told(findingsOf(geometryInsideObstacle, withSub(0.3)))).toEqual([
      'subwoofers.sub.at: sub is inside desk',
    ]);
  });

  test('on the desk it is not inside; nor with nothing recorded', () => {
    expect(findingsOf(geometryInsideObstacle, withSub(0.75))).toEqual([]);
    expect(findingsOf(geometryInsideObstacle, EMPTY_ROOM)).toEqual([]);
  });
});

describe('geometry/in-keep-clear', () => {
  const withThing = (x: number, z: number) =>
    roomWith({
      space: spaceWith({ fixtures: [DOOR] }),
      speakers: [speaker('rear', 'Ls', point(x, 5, z))],
      seats: [seat('guest', point(0.5, 5, 1.2))],
    });

  test('a loudspeaker before the door, a seat does not count', () => {
    expect(told(findingsOf(geometryInKeepClear, withThing(0.5, 1.2)))).toEqual([
      'speakers.rear.at: rear stands in door, which is to be kept clear (way out)',
    ]);
  });

  test('at its edge and above people’s heads it is out of the way', () => {
    expect(findingsOf(geometryInKeepClear, withThing(0.95, 1.2))).toEqual([]);
    expect(findingsOf(geometryInKeepClear, withThing(0.5, 2.3))).toEqual([]);
  });

  test('a region that is unknown in one direction reaches through the room', () => {
    const fixtures = [{ ...DOOR, y_m: null, because: null }];
    const room = roomWith({
      space: spaceWith({ fixtures }),
      subwoofers: [subwoofer('sub', point(0.5, 1, 0.3))],
    });
    expect(told(findingsOf(geometryInKeepClear, room))).toEqual([
      'subwoofers.sub.at: sub stands in door, which is to be kept clear',
    ]);
  });
});

describe('geometry/overlap', () => {
  const apart = (distance_m: number) =>
    stereoRoom({
      speakers: [
        speaker('left', 'L', point(1, 1, 1)),
        speaker('right', 'R', point(1 + distance_m, 1, 1)),
      ],
    });

  test('two loudspeakers at one place, or nearly', () => {
    expect(told(findingsOf(geometryOverlap, apart(0)))).toEqual([
      'speakers.right.at: right is at the same place as left',
    ]);
    expect(told(findingsOf(geometryOverlap, apart(0.02)))).toEqual([
      'speakers.right.at: right is only 20 mm from left',
    ]);
  });

  test('five centimetres are apart; places that are not known never meet', () => {
    expect(findingsOf(geometryOverlap, apart(0.05))).toEqual([]);
    const lost = roomWith({ speakers: [speaker('left', 'L', null), speaker('right', 'R', null)] });
    expect(findingsOf(geometryOverlap, lost)).toEqual([]);
  });
});
