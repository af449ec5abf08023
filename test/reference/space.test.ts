// Reflections, plans and directions: reciprocity, agreement of box and polygon, round trips, and plans that cross themselves.
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  delaysToLatest_s,
  distanceLevel_db,
  flightBetween_s,
} from '../../core/acoustics/arrival.ts';
import { boundaryPower_db } from '../../core/acoustics/boundaryPower.ts';
import {
  ceilingArea_m2,
  ceilingHeight_m,
  ceilingThrough,
  levelCeiling,
  volume_m3,
  wallAreas_m2,
} from '../../core/acoustics/ceiling.ts';
import { boxImages, levelImage, wallImages } from '../../core/acoustics/imageSources.ts';
import { bearing, pairAsymmetry, placeAt } from '../../core/acoustics/layoutAngles.ts';
import type { Point3 } from '../../core/acoustics/point.ts';
import {
  centroid,
  contains,
  type Plan,
  perimeter_m,
  rectangle,
  segmentDistance_m,
  selfCrossings,
  signedArea_m2,
  wallDistances_m,
} from '../../core/acoustics/polygon.ts';
import {
  notches_hz,
  quarterWave_hz,
  quarterWaveDistance_m,
  reflectionFactor_ratio,
} from '../../core/acoustics/reflection.ts';
import { expectNear } from '../support/expectNear.ts';

const BOX = { x_m: 5, y_m: 6, z_m: 3 };
const share = fc.double({ min: 0.02, max: 0.98, noNaN: true });
const inside: fc.Arbitrary<Point3> = fc
  .tuple(share, share, share)
  .map(([x, y, z]) => ({ x_m: x * BOX.x_m, y_m: y * BOX.y_m, z_m: z * BOX.z_m }));

function plan(...corners: readonly (readonly [number, number])[]): Plan {
  return corners.map(([x_m, y_m]) => ({ x_m, y_m }));
}

const L_PLAN = plan([0, 0], [6, 0], [6, 2], [4, 2], [4, 5], [0, 5]);

describe('reflections', () => {
  test('source and seat may be exchanged', () => {
    fc.assert(
      fc.property(inside, inside, (a, b) => {
        const there = boxImages(BOX, a, b).map(({ reflected_m }) => reflected_m);
        expectNear(
          boxImages(BOX, b, a).map((path) => path.reflected_m),
          there,
          1e-12,
          'm',
        );
      }),
    );
  });

  test('the path by the reflecting point is as long as the path from the image', () => {
    fc.assert(
      fc.property(inside, inside, (a, b) => {
        for (const { reflectedAt, reflected_m, difference_m } of boxImages(BOX, a, b)) {
          const legs_s = flightBetween_s(a, reflectedAt, 1) + flightBetween_s(reflectedAt, b, 1);
          expectNear(legs_s, reflected_m, 1e-9, 'm');
          expect(difference_m).toBeGreaterThanOrEqual(-1e-12);
        }
      }),
    );
  });

  test('the walls of a rectangular plan are those of the box', () => {
    fc.assert(
      fc.property(inside, inside, (a, b) => {
        const box = boxImages(BOX, a, b);
        const [left, right, front, back] = box.slice(0, 4).map(({ reflected_m }) => reflected_m);
        const polygon = wallImages(rectangle(BOX.x_m, BOX.y_m), a, b);
        expect(polygon.map(({ wallIndex }) => wallIndex)).toEqual([0, 1, 2, 3]);
        const expected = [front, right, back, left].map((path_m) => path_m ?? Number.NaN);
        expectNear(
          polygon.map(({ reflected_m }) => reflected_m),
          expected,
          1e-9,
          'm',
        );
      }),
    );
  });

  test('in an L a wall that the ray misses does not reflect (by hand)', () => {
    const source = { x_m: 1, y_m: 1, z_m: 1.2 };
    const seat = { x_m: 1, y_m: 4, z_m: 1.2 };
    // wall 1 (x = 6, y 0 to 2) would reflect at y = 2.5, beyond its end; wall 2 (y = 2) has source and seat on both sides
    expect(wallImages(L_PLAN, source, seat).map(({ wallIndex }) => wallIndex)).toEqual([
      0, 3, 4, 5,
    ]);
  });

  test('a desk between source and seat reflects nothing through itself', () => {
    const high = { x_m: 1, y_m: 1, z_m: 1.2 };
    expect(levelImage(0.75, high, { ...high, z_m: 0.5 })).toBeNull();
    const path = levelImage(0.7, high, { x_m: 1, y_m: 3.4, z_m: 1.2 });
    expectNear(path?.reflected_m ?? 0, 2.6, 1e-12, 'm'); // 5 : 12 : 13
  });

  test('notches are odd multiples up to the limit', () => {
    expectNear(notches_hz(1, 343, 900), [171.5, 514.5, 857.5], 1e-9, 'Hz');
    expect(notches_hz(1, 343, 100)).toEqual([]);
  });

  test('quarter-wave distance and frequency are inverses', () => {
    expectNear(quarterWave_hz(quarterWaveDistance_m(71.5, 343), 343), 71.5, 1e-9, 'Hz');
  });

  test('a surface reflects √(1 − α); a table value above 1 counts as 1', () => {
    expectNear([0, 0.75, 1, 1.05].map(reflectionFactor_ratio), [1, 0.5, 0, 0], 1e-12, '');
  });
});

test('far from the walls they do not change the power; touching walls add 3 dB each', () => {
  expectNear(boundaryPower_db([50, 60, 70], 100, 343), 0, 0.2, 'dB');
  expectNear(boundaryPower_db([], 100, 343), 0, 0, 'dB');
  expect(() => boundaryPower_db([1, 1, 1, 1], 100, 343)).toThrow('4 walls');
});

test('level falls by 6.02 dB a doubling of distance; all wait for the latest', () => {
  expectNear([distanceLevel_db(2, 1), distanceLevel_db(0.5, 1)], [-6.0206, 6.0206], 1e-4, 'dB');
  expectNear(delaysToLatest_s([0.003, 0.005, 0.001]), [0.002, 0, 0.004], 1e-15, 's');
  expect(delaysToLatest_s([])).toEqual([]);
});

describe('plans', () => {
  test('a plan that crosses itself says where and which walls (by hand)', () => {
    const bow = plan([0, 0], [4, 4], [4, 0], [0, 4]);
    expect(selfCrossings(bow)).toEqual([{ wallIndices: [0, 2], at: { x_m: 2, y_m: 2 } }]);
  });

  test.each([
    { name: 'a rectangle', corners: rectangle(4, 5), count: 0 },
    { name: 'an L', corners: L_PLAN, count: 0 },
    {
      name: 'a wall folded back onto its neighbour',
      corners: plan([0, 0], [4, 0], [2, 0], [2, 3]),
      count: 1,
    },
    {
      name: 'a corner touching a wall',
      corners: plan([0, 0], [4, 0], [4, 3], [2, 0], [0, 3]),
      count: 1,
    },
    { name: 'a corner given twice', corners: plan([0, 0], [4, 0], [4, 0], [4, 3]), count: 1 },
  ])('$name: $count places', ({ corners, count }) => {
    expect(selfCrossings(corners).length).toBe(count);
  });

  test('inside, outside, in the notch of an L, and on a wall', () => {
    const at = (x_m: number, y_m: number) => contains(L_PLAN, { x_m, y_m });
    expect([at(1, 1), at(5, 1), at(5, 3), at(-1, 1), at(4, 3), at(6, 2)]).toEqual([
      true,
      true,
      false,
      false,
      true,
      true,
    ]);
  });

  test('turned and moved it keeps area, perimeter and volume', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 6.3, noNaN: true }),
        fc.double({ min: -9, max: 9, noNaN: true }),
        (turn, shift) => {
          const moved = L_PLAN.map(({ x_m, y_m }) => ({
            x_m: x_m * Math.cos(turn) - y_m * Math.sin(turn) + shift,
            y_m: x_m * Math.sin(turn) + y_m * Math.cos(turn) - shift,
          }));
          expectNear([signedArea_m2(moved), perimeter_m(moved)], [24, 22], 1e-9, 'm², m');
          expectNear(volume_m3(moved, levelCeiling(2.5)), 60, 1e-9, 'm³');
          expect(contains(moved, centroid(moved))).toBe(true);
        },
      ),
    );
  });

  test('distances to the walls of a rectangle, and past the end of one', () => {
    expectNear(wallDistances_m(rectangle(4, 5), { x_m: 1, y_m: 2 }), [2, 3, 3, 1], 1e-12, 'm');
    const past_m = segmentDistance_m({ x_m: 0, y_m: 0 }, { x_m: 1, y_m: 0 }, { x_m: 4, y_m: 4 });
    expectNear(past_m, 5, 1e-12, 'm');
  });
});

describe('ceilings', () => {
  const roof = ceilingThrough(
    { x_m: 0, y_m: 0, z_m: 2 },
    { x_m: 4, y_m: 0, z_m: 2 },
    { x_m: 0, y_m: 3, z_m: 6 },
  );

  test('passes through its three points; three in a line make none', () => {
    expectNear(roof ? ceilingHeight_m(roof, { x_m: 3, y_m: 1.5 }) : Number.NaN, 4, 1e-12, 'm');
    const at = (x_m: number) => ({ x_m, y_m: x_m, z_m: x_m });
    expect(ceilingThrough(at(0), at(1), at(2))).toBeNull();
  });

  test('a slope of 3 : 4 is 5/3 as large as its plan; gable walls are trapezia (by hand)', () => {
    if (!roof) throw new Error('the roof is a plane');
    expectNear(ceilingArea_m2(rectangle(4, 3), roof), 20, 1e-12, 'm²');
    expectNear(wallAreas_m2(rectangle(4, 3), roof), [8, 12, 24, 12], 1e-12, 'm²');
  });
});

describe('directions from a seat', () => {
  const seat = { x_m: 2.5, y_m: 3.5, z_m: 1.2 };

  test('a place is found again from its bearing', () => {
    fc.assert(
      fc.property(inside, fc.double({ min: -3, max: 3, noNaN: true }), (place, turned_rad) => {
        const back = placeAt(seat, bearing(seat, place, turned_rad), turned_rad);
        expectNear([back.x_m, back.y_m, back.z_m], [place.x_m, place.y_m, place.z_m], 1e-9, 'm');
      }),
    );
  });

  test('mirror images have opposite azimuths and no asymmetry', () => {
    fc.assert(
      fc.property(inside, (left) => {
        const right = { ...left, x_m: 2 * seat.x_m - left.x_m };
        const { azimuth_rad, elevation_rad, distance_m, apart_m } = pairAsymmetry(
          seat,
          left,
          right,
        );
        expectNear(
          [Math.sin(azimuth_rad), elevation_rad, distance_m, apart_m],
          [0, 0, 0, 0],
          1e-9,
          'rad, m',
        );
      }),
    );
  });

  test('a right loudspeaker 0.30 m further back is 0.30 m from the mirror image (by hand)', () => {
    const left = { x_m: 1.5, y_m: 1.5, z_m: 1.2 };
    const { apart_m, distance_m } = pairAsymmetry(seat, left, { x_m: 3.5, y_m: 1.2, z_m: 1.2 });
    expectNear([apart_m, distance_m], [0.3, Math.hypot(1, 2) - Math.hypot(1, 2.3)], 1e-12, 'm');
  });

  test('turned to the left, what was ahead is at the right', () => {
    const ahead = { x_m: 2.5, y_m: 1.5, z_m: 1.2 };
    expectNear(bearing(seat, ahead, 0.2).azimuth_rad, -0.2, 1e-12, 'rad');
    expect(bearing(seat, seat)).toEqual({ azimuth_rad: 0, elevation_rad: 0, distance_m: 0 });
  });
});
