// The room itself: sizes, decay, Schroeder's frequency, modes with what drives and hears them, proportions.

import { expect, test } from 'vitest';
import { airPart } from '../../../core/parts/air.ts';
import { spacePart } from '../../../core/parts/space.ts';
import type { SpaceFigures } from '../../../core/setup.ts';
import type { PlanShape, Room, Space } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import {
  box,
  EMPTY_ROOM,
  plan,
  point,
  roomWith,
  seat,
  spaceWith,
  subwoofer,
} from '../../support/rooms.ts';

const FOOT_M = 0.3048;
const FEET_1130_M_S = 1130 * FOOT_M;

function spaceOf(room: Room, speedOfSound_m_s: number) {
  const air = airPart(roomWith({ air: { ...EMPTY_ROOM.air, speedOfSound_m_s } }), 293.15).air;
  return spacePart(room, air);
}

function spaceIn(space: Partial<Space>, speedOfSound_m_s = 343): SpaceFigures {
  const { space: figures } = spaceOf(roomWith({ space: spaceWith(space) }), speedOfSound_m_s);
  if (figures === null) throw new Error('no space');
  return figures;
}

function decay(...pairs: readonly (readonly [number, number])[]) {
  return { frequency_hz: pairs.map(([f]) => f), value: pairs.map(([, t]) => t) };
}

test('5 × 4 × 3 m at 343 m/s: counts to 200 Hz and density', () => {
  const { modes, modeCount, modeDensityAt100Hz_per_hz } = spaceIn({ shape: box(4, 5, 3) });
  expect(modes?.length).toBe(76); // enumeration
  expect(modeCount?.exact).toBe(76);
  expectNear(modeCount?.formula ?? 0, 78.42, 0.01, 'modes'); // Maa 1939 / Bolt 1939, three terms
  expectNear(modeDensityAt100Hz_per_hz ?? 0, 0.3298, 0.0001, '1/Hz'); // its derivative
});

/** @source Handbook for Sound Engineers, Table 6-4: 16 × 12 × 8 ft at 1130 ft/s; order as x (width), y (depth), z (height) */
const TABLE_6_4 = [
  { order: [0, 1, 0], want_hz: 35.31 },
  { order: [0, 2, 0], want_hz: 70.63 },
  { order: [1, 0, 0], want_hz: 47.08 },
  { order: [2, 0, 0], want_hz: 94.17 },
  { order: [0, 0, 1], want_hz: 70.63 },
  { order: [0, 0, 2], want_hz: 141.25 },
] as const;

test.each(TABLE_6_4)('16 × 12 × 8 ft: $order is $want_hz Hz', ({ order, want_hz }) => {
  const shape = box(12 * FOOT_M, 16 * FOOT_M, 8 * FOOT_M);
  const mode = spaceIn({ shape }, FEET_1130_M_S).modes?.find(
    (one) => one.order.join() === order.join(),
  );
  expectNear(mode?.frequency_hz ?? 0, want_hz, 0.01, 'Hz'); // printed to 0.01
  expect(mode?.kind).toBe('axial');
});

test('16 × 12 × 8 ft: three axial modes meet at 141.25 Hz (same table)', () => {
  const shape = box(12 * FOOT_M, 16 * FOOT_M, 8 * FOOT_M);
  const meeting = spaceIn({ shape }, FEET_1130_M_S).coincidences.find(
    ({ frequency_hz }) => Math.abs(frequency_hz - 141.25) < 0.01,
  );
  const axial = meeting?.orders.filter((order) => order.filter((n) => 0 < n).length === 1);
  expect(axial?.map((order) => order.join()).toSorted()).toEqual(['0,0,2', '0,4,0', '3,0,0']);
});

test('Bonello: 23 × 17 × 9 ft rises throughout, 16 × 12 × 8 ft does not', () => {
  // verdicts: Handbook for Sound Engineers p. 133; counts by enumeration at 1130 ft/s
  const good = spaceIn({ shape: box(17 * FOOT_M, 23 * FOOT_M, 9 * FOOT_M) }, FEET_1130_M_S);
  const counts = good.bonello?.bands.filter((band) => 20 <= band.frequency_hz);
  expect(counts?.map(({ count }) => count)).toEqual([0, 1, 1, 1, 1, 4, 8, 11, 23, 39, 79]);
  expect(good.bonello?.risesThroughout).toBe(true);
  const bad = spaceIn({ shape: box(12 * FOOT_M, 16 * FOOT_M, 8 * FOOT_M) }, FEET_1130_M_S);
  expect(bad.bonello?.risesThroughout).toBe(false);
});

/** @source Kuttruff 6e p. 68 and Eq. (3.44); a table of such values; last by formula */
const SCHROEDER = [
  { size: [5, 10, 4], decay_s: 1, want_hz: 141.42, source: 'V = 200 m³' },
  { size: [5, 5, 4], decay_s: 0.3, want_hz: 109.54, source: 'V = 100 m³' },
  { size: [4, 5, 3], decay_s: 0.35, want_hz: 152.75, source: 'V = 60 m³' },
] as const;

test.each(SCHROEDER)('Schroeder’s frequency, $source', ({ size: [w, d, h], decay_s, want_hz }) => {
  const space = spaceIn({ shape: box(w, d, h), decayTime_s: decay([500, decay_s]) });
  expectNear(space.schroeder_hz ?? 0, want_hz, 0.01, 'Hz');
});

test('the mean decay time takes 200 Hz to 4 kHz (EBU Tech 3276), modes their own band', () => {
  const space = spaceIn({
    shape: box(4, 5, 3),
    decayTime_s: decay([63, 0.6], [125, 0.4], [250, 0.3], [500, 0.2]),
  });
  expectNear(space.decayTime?.decayTime_s ?? 0, 0.25, 1e-12, 's'); // (0.3 + 0.2)/2 by hand
  const lowest = space.modes?.[0];
  expect(lowest?.decayTime_s).toBe(0.6); // 34.3 Hz: below the lowest band its value holds
  expectNear(lowest?.bandwidth_hz ?? 0, 2.1988 / 0.6, 0.001, 'Hz'); // B = 2.2/T, Kuttruff
});

test('the nominal decay time of 100 m³ is 0.25 s (EBU Tech 3276)', () => {
  expect(spaceIn({ shape: box(5, 5, 4) }).nominalDecayTime_s).toBe(0.25);
});

/** 4mV of 75.6 m³ at 500 Hz, 20 °C, 50 %: 2.733 dB/km over 4.343. @source ISO 9613-1 */
const AIR_M2 = (4 * 75.6 * 2.733e-3) / 4.343;

/** All surfaces alike, 6 × 4.5 × 2.8 m, α = 0.1; V = 75.6 m³, S = 112.8 m². */
function uniform(absorption: number): Partial<Space> {
  const names = ['floor', 'ceiling', 'front', 'back', 'left', 'right'];
  return {
    shape: box(4.5, 6, 2.8),
    surfaces: names.map((name) => ({
      name,
      covering: { kind: 'absorption', absorption: { frequency_hz: [500], value: [absorption] } },
    })),
  };
}

test('from the surfaces: Eyring’s time, and modes damped wall by wall', () => {
  const space = spaceIn(uniform(0.3));
  const at500 = space.decayTime?.bands.find(({ frequency_hz }) => frequency_hz === 500);
  expect(space.decayTime?.from).toBe('surfaces');
  // Eyring without air 0.3027 s (worked by hand); the air's 0.19 m² beside 40.2 m² shorten it by 0.47 %
  expectNear(at500?.decayTime_s ?? 0, 0.3027 / 1.0047, 0.0001, 's');
  // small α: T(1,0,0) = 1.765 s, T(1,1,1) = 1.0798 s = Sabine, for α = 0.1 with β = α/8; by Paris' exact formula β is larger
  const hard = spaceIn(uniform(0.01)).modes ?? [];
  const ring_s = (order: string) =>
    hard.find((one) => one.order.join() === order)?.decayTime_s ?? 0;
  expectNear(ring_s('0,1,0') / ring_s('1,1,1'), 1.7652 / 1.0798, 1e-3, '1');
});

test('one surface unknown: no decay time, and the note names it', () => {
  const whole = uniform(0.2);
  const surfaces = whole.surfaces?.filter(({ name }) => name !== 'back') ?? [];
  const room = roomWith({ space: spaceWith({ ...whole, surfaces }) });
  const { space, notes } = spaceOf(room, 343);
  expect(space?.decayTime).toBeNull();
  expect(space?.schroeder_hz).toBeNull();
  expect(notes.map(({ message }) => message)).toContain(
    'No decay time: none measured, and no covering known for back',
  );
});

test('a panel takes its area from the wall', () => {
  const bare = uniform(0.1);
  const fixture = {
    id: 'panel',
    kind: 'panel',
    wall: 'left',
    along_m: [1, 3],
    z_m: [0, 2],
    covering: { kind: 'absorption', absorption: { frequency_hz: [500], value: [0.9] } },
  } as const;
  const space = spaceIn({ ...bare, fixtures: [fixture] });
  const at500 = space.decayTime?.bands.find(({ frequency_hz }) => frequency_hz === 500);
  // by hand: 4 m² of 0.9 for 0.1 make ᾱ = 14.48/112.8; Eyring with the air's 4mV
  const want_s = (55.26 * 75.6) / (343 * (112.8 * -Math.log(1 - 14.48 / 112.8) + AIR_M2));
  expectNear(at500?.decayTime_s ?? 0, want_s, 0.0005, 's'); // four digits of 55.26
});

test('what drives and what hears a mode: cos of the place', () => {
  // Table of cosines: half-way n = 1 is 0, a third of the way 0.5, at the wall 1
  const room = roomWith({
    space: spaceWith({ shape: box(4, 6, 3) }),
    seats: [seat('mix', point(2, 2, 1.2))],
    subwoofers: [subwoofer('sub', point(0, 3, 0))],
  });
  const first = spaceOf(room, 343).space?.modes?.find((mode) => mode.order.join() === '0,1,0');
  expectNear(first?.heardAt[0]?.strength ?? 0, 0.5, 1e-12, '1');
  expectNear(first?.drivenBy[0]?.strength ?? 1, 0, 1e-12, '1');
});

test('proportions: 6.36 × 4.44 × 3 m passes, 4 × 4 × 3 m does not', () => {
  const good = spaceIn({ shape: box(4.44, 6.36, 3) }).proportions;
  expect(good?.walker.passes).toBe(true);
  const { lower = 0, lengthOverHeight = 0, upper = 0 } = good?.walker ?? {};
  expectNear([lower, lengthOverHeight, upper], [1.628, 2.12, 2.66], 0.001, '1'); // Walker, BBC RD 1993/8
  const square = spaceIn({ shape: box(4, 4, 3) }).proportions;
  expect(square?.walker.passes).toBe(false); // 1.467 > 1.333
  expect(square?.nearIntegers.map(({ sides }) => sides)).toEqual(['length/width']);
});

test('the nearest named ratio', () => {
  const named = spaceIn({ shape: box(4.2, 5.7, 3) }).proportions?.nearestNamed; // Louden's 1 : 1.4 : 1.9
  expect(named?.name).toContain('Louden 1');
  expectNear(named?.off ?? 1, 0, 1e-12, '1');
});

test('an L-shaped room: area and volume by hand, no modes, and a note', () => {
  const corners = {
    front: [0, 0],
    right: [5, 0],
    step: [5, 3],
    inner: [3, 3],
    back: [3, 6],
    left: [0, 6],
  } as const;
  const room = roomWith({ space: spaceWith({ shape: plan(corners, 2.5) }) });
  const { space, notes } = spaceOf(room, 343);
  expect(space?.floorArea_m2).toBe(24); // 5 × 3 + 3 × 3
  expect(space?.volume_m3).toBe(60);
  expect(space?.surfaceArea_m2).toBe(24 + 24 + 22 * 2.5); // perimeter 22 m
  expect(space?.modes).toBeNull();
  expect(space?.bonello).toBeNull();
  expect(notes[0]?.message).toContain('Not a box');
});

test('a sloped ceiling: mean height times area', () => {
  const shape: PlanShape = {
    ...plan({ front: [0, 0], right: [4, 0], back: [4, 5], left: [0, 5] }, 2.5),
    ceiling: { height_m: 2.5, slopeX: 0, slopeY: 0.2 },
  };
  expectNear(spaceIn({ shape }).volume_m3 ?? 0, 20 * 3, 1e-9, 'm³'); // 2.5 m in front, 3.5 m behind
});

test('no height: area only; no shape: nothing', () => {
  const corners = { front: [0, 0], right: [4, 0], back: [4, 5], left: [0, 5] } as const;
  const flat = spaceIn({ shape: plan(corners, null) });
  expect([flat.floorArea_m2, flat.volume_m3, flat.schroeder_hz]).toEqual([20, null, null]);
  expect(spaceOf(EMPTY_ROOM, 343).space).toBeNull();
});

test('a hall has too many modes to list: none, and a note', () => {
  const room = roomWith({ space: spaceWith({ shape: box(30, 50, 15) }) });
  const { space, notes } = spaceOf(room, 343);
  expect(space?.modes).toBeNull();
  expect(space?.volume_m3).toBe(22_500);
  expect(notes.map(({ message }) => message)).toContain(
    'Too large a room to list its modes one by one',
  );
});
