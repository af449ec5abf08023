// Three and four subwoofers: a heuristic, held against every set there is on a coarse grid, in rooms of different sizes.

import { expect, test } from 'vitest';
import { searchPlacement } from '../../core/search/searchPlacement.ts';
import { allAtOnce, type TransferMap } from '../../core/search/transferMap.ts';
import { modalMap } from '../support/modalRoom.ts';
import { plainTask } from '../support/placementTasks.ts';

type Triple = readonly [number, number, number];
const HZ = Array.from({ length: 21 }, (_, i) => 20 + 3 * i);
/** Invented: ordinary control rooms, and one that is nearly square. */
const ROOMS: readonly { readonly room_m: Triple; readonly seats_m: readonly Triple[] }[] = [
  { room_m: [4.2, 5.4, 2.6], seats_m: [[2.1, 2.3, 1.2]] },
  {
    room_m: [5.1, 6.3, 2.7],
    seats_m: [
      [2.5, 2.6, 1.2],
      [2.5, 4.4, 1.2],
    ],
  },
  {
    room_m: [6, 8, 2.8],
    seats_m: [
      [3, 3.4, 1.2],
      [2.2, 5.2, 1.2],
      [3.8, 5.2, 1.2],
    ],
  },
  {
    room_m: [4.9, 5, 2.4],
    seats_m: [
      [1.9, 2.4, 1.2],
      [3, 2.4, 1.2],
    ],
  },
  {
    room_m: [3.6, 7.2, 3.1],
    seats_m: [
      [1.8, 2.7, 1.2],
      [1.2, 4.6, 1.2],
    ],
  },
];

/** About five by five places. */
function coarseMap({ room_m, seats_m }: (typeof ROOMS)[number]): TransferMap {
  const along = (length_m: number, count: number) =>
    Array.from({ length: count }, (_, i) => 0.4 + (i * (length_m - 0.8)) / (count - 1));
  const points = along(room_m[0], 5).flatMap((x) =>
    along(room_m[1], 5).map((y): Triple => [x, y, 0.25]),
  );
  const model = { room_m, decayTime_s: 0.35, speedOfSound_m_s: 343, limit_hz: 200 };
  return modalMap(model, HZ, seats_m, points);
}

/** Every set of so many different places, judged by the definition written out: no code of the search is used. */
function bruteForce(map: TransferMap, subCount: number): number {
  const { seatCount, points } = map;
  const length = seatCount * HZ.length;
  const cost = (re: Float64Array, im: Float64Array): number => {
    const level = Array.from(re, (x, i) => 10 * Math.log10(x * x + (im[i] ?? 0) ** 2));
    const spread = (values: readonly number[]) => {
      const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
      return Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / values.length);
    };
    const seats = Array.from({ length: seatCount }, (_, s) =>
      level.slice(s * HZ.length, (s + 1) * HZ.length),
    );
    const flatness = seats.reduce((sum, one) => sum + spread(one), 0) / seatCount;
    const between =
      HZ.reduce((sum, _, f) => sum + spread(seats.map((one) => one[f] ?? 0)), 0) / HZ.length;
    return seatCount < 2 ? flatness : flatness + between;
  };
  const visit = (from: number, left: number, re: Float64Array, im: Float64Array): number => {
    if (left === 0) return cost(re, im);
    let best = Number.POSITIVE_INFINITY;
    for (let place = from; place <= points.length - left; place++) {
      const at = place * length;
      const more = (sum: Float64Array, own: Float64Array) =>
        sum.map((value, i) => value + (own[at + i] ?? 0));
      best = Math.min(best, visit(place + 1, left - 1, more(re, map.re), more(im, map.im)));
    }
    return best;
  };
  return visit(0, subCount, new Float64Array(length), new Float64Array(length));
}

/** How much worse than the best of all sets the heuristic may be: what it leaves is less than anyone could measure. */
const MOST_RATIO = 1.005;

test.each([3, 4])('%i subs', (subCount) => {
  const ratios = ROOMS.map((room) => {
    const map = coarseMap(room);
    const halves = { x_m: room.room_m[0] / 2, y_m: room.room_m[1] / 2 };
    const task = plainTask(map, subCount, { halves, different_m: 0.5 });
    const found = allAtOnce(searchPlacement(task)).candidates[0]?.cost_db ?? 99;
    return found / bruteForce(map, subCount);
  });
  const told = ratios.map((ratio) => ratio.toFixed(4)).join(', ');
  console.log(`${subCount} subs, cost over the best of all sets: ${told}`);
  // Nothing is better than the best of all.
  expect(Math.min(...ratios)).toBeGreaterThan(1 - 1e-6);
  expect(Math.max(...ratios)).toBeLessThanOrEqual(MOST_RATIO);
});
