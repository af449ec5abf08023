// Boundaries: distances, single reflections at the reference seat, the bass gain of a subwoofer's place, and subwoofers' places.

import { expect, test } from 'vitest';
import { airPart } from '../../../core/parts/air.ts';
import { boundariesPart } from '../../../core/parts/boundaries.ts';
import { placementPart } from '../../../core/parts/placement.ts';
import type { Room } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import { geometrySetup } from '../../support/findingsOf.ts';
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

const AIR_343 = airPart(
  roomWith({ air: { ...EMPTY_ROOM.air, speedOfSound_m_s: 343 } }),
  293.15,
).air;

function boundariesOf(room: Room) {
  return boundariesPart(room, AIR_343).boundaries;
}

test('a side wall 1.2 m from the source and 2.4 m from the seat', () => {
  // Worked by hand from image sources: direct 2.6833 m, Δ 1.6434 m, 4.791 ms, 104.36 Hz, −4.15 dB, notch −8.41 dB
  const room = roomWith({
    space: spaceWith({ shape: box(8, 8, 6) }),
    seats: [seat('mix', point(2.4, 5.4, 3))],
    speakers: [speaker('one', 'L', point(1.2, 3, 3))],
  });
  const left = boundariesOf(room)[0]?.reflections.find(({ surface }) => surface === 'left');
  expectNear(left?.pathDifference_m ?? 0, 1.6434, 1e-3, 'm');
  expectNear(left?.behind_s ?? 0, 4.791e-3, 3e-6, 's');
  expectNear(left?.notch_hz ?? 0, 104.36, 0.02, 'Hz');
  expectNear(left?.level_db ?? 0, -4.15, 0.01, 'dB');
  expectNear(left?.depth_db ?? 0, -8.41, 0.01, 'dB');
});

test('six surfaces, nearest first, with their quarter waves', () => {
  const room = roomWith({
    space: spaceWith({ shape: box(5, 8, 3) }),
    speakers: [speaker('one', 'L', point(1.5, 1, 1.2))],
  });
  const surfaces = boundariesOf(room)[0]?.surfaces ?? [];
  expect(surfaces.map(({ surface }) => surface)).toEqual([
    'front',
    'floor',
    'left',
    'ceiling',
    'right',
    'back',
  ]);
  expectNear(surfaces[0]?.quarterWave_hz ?? 0, 85.75, 0.01, 'Hz'); // c/(4d), d = 1.0 m at 343 m/s
  expectNear(surfaces[2]?.quarterWave_hz ?? 0, 57.2, 0.05, 'Hz'); // table: d = 1.5 m is 57.2 Hz
});

test('absorption weakens the reflection by √(1 − α)', () => {
  const bare = {
    seats: [seat('mix', point(2.4, 5.4, 3))],
    speakers: [speaker('one', 'L', point(1.2, 3, 3))],
  };
  const absorption = { frequency_hz: [125], value: [0.75] };
  const surfaces = [{ name: 'left', covering: { kind: 'absorption', absorption } as const }];
  const room = roomWith({ ...bare, space: spaceWith({ shape: box(8, 8, 6), surfaces }) });
  const left = boundariesOf(room)[0]?.reflections.find(({ surface }) => surface === 'left');
  expectNear(left?.level_db ?? 0, -4.15 - 6.02, 0.01, 'dB'); // √0.25 is −6.02 dB
});

test('a loudspeaker built into a wall has no reflection from it', () => {
  const room = stereoRoom({
    speakers: [speaker('left', 'L', point(1.3, 0, 1.2), { flushIn: 'front' })],
  });
  const [figures] = boundariesOf(room);
  expect(figures?.surfaces.map(({ surface }) => surface)).not.toContain('front');
  expect(figures?.reflections.map(({ surface }) => surface)).not.toContain('front');
  expect(figures?.reflections.map(({ surface }) => surface)).toContain('back');
});

test('a plan gives what the box of the same walls gives', () => {
  const things = {
    seats: [seat('mix', point(2.4, 3.4, 1.2))],
    speakers: [speaker('one', 'L', point(1.2, 1, 1.3))],
  };
  const corners = { front: [0, 0], right: [5, 0], back: [5, 6], left: [0, 6] } as const;
  const asBox = roomWith({ ...things, space: spaceWith({ shape: box(5, 6, 3) }) });
  const asPlan = roomWith({ ...things, space: spaceWith({ shape: plan(corners, 3) }) });
  expect(boundariesOf(asPlan)[0]?.reflections).toEqual(boundariesOf(asBox)[0]?.reflections);
});

test('a subwoofer in the corner gains 9 dB of power, mains none are told', () => {
  // Waterhouse 1958: all distances 0 is +9.03 dB; x/λ = 0.25 for each is −6.74 dB
  const quarter_m = 343 / 40 / 4;
  const room = roomWith({
    space: spaceWith({ shape: box(8, 8, 8) }),
    speakers: [speaker('one', 'L', point(1, 1, 1))],
    subwoofers: [
      subwoofer('corner', point(0, 0, 0)),
      subwoofer('away', point(quarter_m, quarter_m, quarter_m)),
    ],
  });
  const [main, corner, away] = boundariesOf(room).map((one) => one.powerGainAt40Hz_db);
  expect(main).toBeNull();
  expectNear(corner ?? 0, 9.03, 0.005, 'dB');
  expectNear(away ?? 0, -6.74, 0.005, 'dB');
});

test('no seat: distances only; no room: nothing', () => {
  const alone = roomWith({
    space: spaceWith({ shape: box(5, 6, 3) }),
    speakers: [speaker('one', 'L', point(1, 1, 1))],
  });
  expect(boundariesOf(alone)[0]?.reflections).toEqual([]);
  expect(boundariesOf(alone)[0]?.surfaces.length).toBe(6);
  expect(boundariesOf(roomWith({ speakers: [speaker('one', 'L', point(1, 1, 1))] }))).toEqual([]);
});

test('a ceiling of 45° over source and seat: mirrored by hand', () => {
  // z = y: the source at y 4, z 1 mirrors to y 1, z 4; the seat at y 6, z 1 (same x)
  const corners = { front: [0, 0.5], right: [4, 0.5], back: [4, 9], left: [0, 9] } as const;
  const ceiling = { height_m: 0, slopeX: 0, slopeY: 1 };
  const room = roomWith({
    space: spaceWith({ shape: { ...plan(corners, 1), ceiling } }),
    seats: [seat('mix', point(2, 6, 1))],
    speakers: [speaker('one', 'L', point(2, 4, 1))],
  });
  const [figures] = boundariesOf(room);
  const reflection = figures?.reflections.find(({ surface }) => surface === 'ceiling');
  expectNear(reflection?.pathDifference_m ?? 0, Math.hypot(5, 3) - 2, 1e-9, 'm');
  const above = figures?.surfaces.find(({ surface }) => surface === 'ceiling');
  expectNear(above?.distance_m ?? 0, 3 / Math.SQRT2, 1e-9, 'm');
});

test('a panel counts where the reflection meets it, not beside it', () => {
  // source and seat 1.2 m and 2.4 m from the left wall, 2.4 m apart: met at y = 3 + 2.4/3 = 3.8 m, z 3 m
  const absorption = { frequency_hz: [125], value: [0.75] };
  const panel = (along_m: readonly [number, number]) => ({
    id: 'panel',
    kind: 'panel' as const,
    wall: 'left',
    along_m,
    z_m: [2, 4] as const,
    covering: { kind: 'absorption', absorption } as const,
  });
  const level_db = (along_m: readonly [number, number]) => {
    const room = roomWith({
      space: spaceWith({ shape: box(8, 8, 6), fixtures: [panel(along_m)] }),
      seats: [seat('mix', point(2.4, 5.4, 3))],
      speakers: [speaker('one', 'L', point(1.2, 3, 3))],
    });
    const found = boundariesOf(room)[0]?.reflections.find(({ surface }) => surface === 'left');
    return found?.level_db ?? 0;
  };
  expectNear(level_db([3.7, 3.9]), -4.15 - 6.02, 0.01, 'dB'); // √0.25 is −6.02 dB
  expectNear(level_db([3.9, 5]), -4.15, 0.01, 'dB');
});

test('without a seat a note says what is missing', () => {
  const room = { ...stereoRoom(), seats: [] };
  expect(boundariesPart(room, AIR_343).notes.map(({ path }) => path)).toEqual([['seats']]);
  expect(boundariesPart(stereoRoom(), AIR_343).notes).toEqual([]);
});

test('where a subwoofer stands: by hand', () => {
  const room = stereoRoom({ subwoofers: [subwoofer('sub', point(1.9, 0.7, 0.3))] });
  const { layouts } = geometrySetup(room);
  expect(placementPart(room, layouts).placement).toEqual([
    {
      source: 'sub',
      fromWidthMidline_m: expect.closeTo(-0.6, 9), // 1.9 of 5 m
      fromDepthMidline_m: expect.closeTo(-2.6, 9), // 0.7 of 6.6 m
      fromCorner_m: expect.closeTo(Math.hypot(1.9, 0.7), 9),
      behindMains_m: expect.closeTo(0.5, 9), // mains at 1.2 m
    },
  ]);
});

test('of several sets’ lines the nearest counts', () => {
  const near = [
    speaker('near_left', 'L', point(2, 2, 1.2)),
    speaker('near_right', 'R', point(3, 2, 1.2)),
  ];
  const base = stereoRoom({ subwoofers: [subwoofer('sub', point(1.9, 2.1, 0.3))] });
  const room: Room = {
    ...base,
    speakers: [...base.speakers, ...near],
    sets: [
      { id: 'far', speakers: ['left', 'right'], subwoofers: ['sub'], layout: null },
      { id: 'close', speakers: ['near_left', 'near_right'], subwoofers: ['sub'], layout: null },
    ],
  };
  const { layouts } = geometrySetup(room);
  expect(placementPart(room, layouts).placement[0]?.behindMains_m).toBeCloseTo(-0.1, 9);
});
