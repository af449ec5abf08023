// Where a subwoofer may stand: by hand in a small box room, and in an L.
import { describe, expect, test } from 'vitest';
import { contains } from '../../core/acoustics/polygon.ts';
import { roomShape } from '../../core/parts/roomShape.ts';
import { allowedPlaces, type FloorRules } from '../../core/search/allowedFloor.ts';
import type { Fixture, Speaker } from '../../schema/model/room.ts';
import { expectNear } from '../support/expectNear.ts';

const SIZE = { width_m: 0.4, depth_m: 0.3, height_m: 0.5 };
const RULES: FloorRules = { step_m: 0.5, gap_m: 0.05, nearWall_m: null, cables: [] };
const BOX = { kind: 'box' as const, width_m: 4, depth_m: 3, height_m: 2.5 };
const L_SHAPE = {
  kind: 'plan' as const,
  walls: [
    { name: 'a', x_m: 0, y_m: 0 },
    { name: 'b', x_m: 2, y_m: 0 },
    { name: 'c', x_m: 2, y_m: 2 },
    { name: 'd', x_m: 4, y_m: 2 },
    { name: 'e', x_m: 4, y_m: 4 },
    { name: 'f', x_m: 0, y_m: 4 },
  ],
  ceiling: { height_m: 2.5, slopeX: 0, slopeY: 0 },
};

function places(
  part: {
    readonly shape?: typeof BOX | typeof L_SHAPE;
    readonly fixtures?: readonly Fixture[];
    readonly seat?: readonly [number, number];
    readonly others?: readonly Speaker[];
    readonly rules?: Partial<FloorRules>;
  } = {},
) {
  const space = {
    shape: part.shape ?? BOX,
    surfaces: [],
    decayTime_s: null,
    backgroundNoise: null,
    fixtures: part.fixtures ?? [],
  };
  const shape = roomShape(space);
  if (shape?.ceiling == null) throw new Error('no shape');
  const { ceiling } = shape;
  const [x_m, y_m] = part.seat ?? [-9, -9];
  const seat = { id: 'mix', at: { x_m, y_m, z_m: 1.2 }, isReference: true, role: null };
  const rules = { ...RULES, ...part.rules };
  return allowedPlaces(
    { ...shape, ceiling },
    { space, seats: [seat] },
    part.others ?? [],
    SIZE,
    0.25,
    rules,
  );
}

const lines = (list: readonly number[]) => [...new Set(list)].sort((a, b) => a - b);

test('lines: half the longer side and the gap from each wall, and the multiples of the step between', () => {
  const all = places();
  expectNear(
    lines(all.map(({ x_m }) => x_m)),
    [0.25, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 3.75],
    1e-9,
    'm',
  );
  expectNear(lines(all.map(({ y_m }) => y_m)), [0.25, 0.5, 1, 1.5, 2, 2.5, 2.75], 1e-9, 'm');
  expect(all.length).toBe(9 * 7);
  expect(all.every(({ z_m }) => z_m === 0.25)).toBe(true);
});

describe('fixtures', () => {
  interface Block {
    readonly kind?: 'keep_clear' | 'obstacle';
    readonly x_m?: readonly [number, number];
    readonly z_m?: readonly [number, number] | null;
  }
  const block = (part: Block): Fixture => ({
    id: 'block',
    kind: 'obstacle',
    x_m: [1, 2],
    y_m: [1, 2],
    z_m: [0, 0.7],
    because: null,
    ...part,
  });

  test('an obstacle keeps the whole cabinet out; touching is allowed', () => {
    const inside = places({ fixtures: [block({})] }).filter(
      ({ x_m, y_m }) => 0.8 < x_m && x_m < 2.2 && 0.8 < y_m && y_m < 2.2,
    );
    expect(inside).toEqual([]);
    // 0.2 m is half the cabinet: a block that begins there lets it stand at 0.5 m.
    const touching = places({ fixtures: [block({ x_m: [0.7, 2] })] });
    expect(touching.some(({ x_m, y_m }) => x_m === 0.5 && y_m === 1.5)).toBe(true);
  });

  test('one that hangs higher than the cabinet does not', () => {
    expect(places({ fixtures: [block({ z_m: [0.6, 1] })] }).length).toBe(places().length);
  });

  test('a way out without a height reaches through the whole room', () => {
    const door = block({ kind: 'keep_clear', z_m: null });
    expect(places({ fixtures: [door] }).length).toBeLessThan(places().length);
  });
});

test('seats: nobody sits with a cabinet between the feet', () => {
  const near = places({ seat: [2, 1.5] }).filter(
    ({ x_m, y_m }) => Math.hypot(x_m - 2, y_m - 1.5) < 0.6,
  );
  expect(near).toEqual([]);
});

test('near the wall: the cabinet, not its middle', () => {
  const near = places({ rules: { nearWall_m: 0.3 } });
  expect(near.length).toBeGreaterThan(10);
  expect(near.every(({ x_m, y_m }) => Math.min(x_m, 4 - x_m, y_m, 3 - y_m) <= 0.5 + 1e-9)).toBe(
    true,
  );
});

test('cable: a straight line from where it begins', () => {
  const from = { x_m: 0, y_m: 0 };
  const reached = places({ rules: { cables: [{ from, length_m: 1 }] } });
  expectNear(
    reached.map(({ x_m, y_m }) => Math.hypot(x_m, y_m)).sort((a, b) => b - a)[0] ?? 9,
    Math.hypot(0.5, 0.5),
    0.1,
    'm',
  );
});

test('an L: inside only, and clear of the inner corner', () => {
  const all = places({ shape: L_SHAPE });
  expect(all.length).toBeGreaterThan(20);
  for (const at of all) {
    expect(contains(L_SHAPE.walls, at)).toBe(true);
    expect(Math.hypot(at.x_m - 2, at.y_m - 2)).toBeGreaterThanOrEqual(0.25 - 1e-4);
  }
});

test('another low cabinet is stood beside, not into', () => {
  const gear = { size: { width_m: 0.6, depth_m: 0.6, height_m: 0.5 } } as Speaker['gear'];
  const other = {
    id: 'other',
    gear,
    at: { x_m: 2, y_m: 1.5, z_m: 0.25 },
    flushIn: null,
  } as Speaker;
  const near = places({ others: [other] }).filter(
    ({ x_m, y_m }) => Math.hypot(x_m - 2, y_m - 1.5) < 0.5 - 1e-4,
  );
  expect(near).toEqual([]);
});

test('a room too small for the cabinet has no place', () => {
  expect(places({ shape: { ...BOX, width_m: 0.45 } })).toEqual([]);
});
