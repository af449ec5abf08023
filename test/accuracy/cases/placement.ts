// Placement searches held against brute force over the same grid, by the same cost, in the same room model.
import { levelTerms } from '../../../core/search/placementCost.ts';
import { searchPlacement } from '../../../core/search/searchPlacement.ts';
import type { PlacementResult } from '../../../core/search/searchTask.ts';
import { judgeOf } from '../../../core/search/sums.ts';
import { allAtOnce, type TransferMap } from '../../../core/search/transferMap.ts';
import { modalMap } from '../../support/modalRoom.ts';
import { plainTask } from '../../support/placementTasks.ts';
import { referenceData } from '../../support/referenceData.ts';
import type { Comparison, Pair } from '../comparison.ts';

type Triple = readonly [number, number, number];
interface StoredCost {
  readonly cost: number;
  readonly flatness_db: number;
  readonly seat_spread_db: number;
  readonly seat_variance_db2: number;
}
interface StoredPlacements {
  readonly rooms: readonly {
    readonly name: string;
    readonly room_m: Triple;
    readonly T_s: number;
    readonly seats_m: readonly Triple[];
    readonly one_sub: {
      readonly best: readonly (StoredCost & { readonly position: Triple })[];
      readonly map_x: readonly number[];
      readonly map_y: readonly number[];
      readonly cost_map_rows_are_x: readonly (readonly number[])[];
    };
    readonly two_subs: {
      readonly best: readonly (StoredCost & { readonly positions: readonly [Triple, Triple] })[];
      readonly pairs: number;
    };
    readonly check_levels: readonly {
      readonly position: Triple;
      readonly seat: number;
      readonly f_hz: readonly number[];
      readonly level_db: readonly number[];
    }[];
    readonly four_symmetric_subs?: {
      readonly best: readonly StoredCost[];
    };
  }[];
}

export type StoredRoom = StoredPlacements['rooms'][number];

export const STORED_ROOMS = referenceData<StoredPlacements>('sub_placement').expected.rooms;
/** 20 … 80 Hz in steps of 1 Hz, subs 0.2 m above the floor, c = 343 m/s, modes to 300 Hz: as the data states. */
export const STORED_HZ = Array.from({ length: 61 }, (_, i) => 20 + i);
const HEIGHT_M = 0.2;
const SOURCE = 'NumPy, exhaustive search over the same grid (stored data)';

/** The stored grid's map, worked out once a room. */
export function storedMap(room: StoredRoom): TransferMap {
  const known = MAPS.get(room.name);
  if (known) return known;
  const { map_x, map_y } = room.one_sub;
  const points = map_x.flatMap((x) => map_y.map((y): Triple => [x, y, HEIGHT_M]));
  const map = modalMap(
    {
      room_m: room.room_m,
      decayTime_s: room.T_s,
      speedOfSound_m_s: 343,
      limit_hz: 300,
    },
    STORED_HZ,
    room.seats_m,
    points,
  );
  MAPS.set(room.name, map);
  return map;
}
const MAPS = new Map<string, TransferMap>();

/** Worked out once a room and number of subs. */
export function storedSearch(room: StoredRoom, subCount: number): PlacementResult {
  const key = `${room.name} ${subCount}`;
  const known = RESULTS.get(key) ?? searchIn(room, subCount);
  RESULTS.set(key, known);
  return known;
}
const RESULTS = new Map<string, PlacementResult>();

function searchIn(room: StoredRoom, subCount: number): PlacementResult {
  const [x_m, y_m] = room.room_m;
  const halves = { x_m: x_m / 2, y_m: y_m / 2 };
  return allAtOnce(searchPlacement(plainTask(storedMap(room), subCount, { halves })));
}

const rooms = (of: (room: StoredRoom) => readonly Pair[]) => () => STORED_ROOMS.flatMap(of);
const pointCount = STORED_ROOMS.reduce(
  (sum, { one_sub }) => sum + one_sub.map_x.length * one_sub.map_y.length,
  0,
);

export const placementComparisons: readonly Comparison[] = [
  {
    computation: 'placement: cost of every place',
    source: SOURCE,
    unit: 'dB',
    tolerance: 6e-5,
    because: 'six digits in the data, costs to 20 dB',
    count: pointCount,
    pairs: rooms((room) => {
      const map = storedMap(room);
      const judge = judgeOf(plainTask(map, 1));
      const length = judge.seatCount * judge.frequencyCount;
      const silent = { re: new Float64Array(length), im: new Float64Array(length) };
      return room.one_sub.cost_map_rows_are_x.flat().map((expected, place) => ({
        what: `${room.name}, place ${place}`,
        actual: judge.quickly(silent, map.re, map.im, place * length),
        expected,
      }));
    }),
  },
  {
    computation: 'placement: best of one sub',
    source: SOURCE,
    unit: 'dB',
    tolerance: 1e-6,
    because: 'eight digits in the data',
    count: STORED_ROOMS.length,
    pairs: rooms((room) => [
      {
        what: room.name,
        actual: storedSearch(room, 1).candidates[0]?.cost_db ?? Number.NaN,
        expected: room.one_sub.best[0]?.cost ?? Number.NaN,
      },
    ]),
  },
  {
    computation: 'placement: best of two subs',
    source: `${SOURCE}, all pairs`,
    unit: 'dB',
    tolerance: 1e-6,
    because: 'eight digits in the data',
    count: STORED_ROOMS.length,
    pairs: rooms((room) => [
      {
        what: room.name,
        actual: storedSearch(room, 2).candidates[0]?.cost_db ?? Number.NaN,
        expected: room.two_subs.best[0]?.cost ?? Number.NaN,
      },
    ]),
  },
  {
    computation: 'placement: flatness, spread, variance',
    source: SOURCE,
    unit: 'dB, dB²',
    tolerance: 1e-6,
    because: 'eight digits in the data',
    count: 3 * STORED_ROOMS.reduce((sum, { two_subs }) => sum + two_subs.best.length, 0),
    pairs: rooms((room) =>
      room.two_subs.best.flatMap((stored) => termPairs(room, stored.positions, stored)),
    ),
  },
];

/** The stored terms of one pair beside ours. */
function termPairs(
  room: StoredRoom,
  positions: readonly Triple[],
  stored: StoredCost,
): readonly Pair[] {
  const map = storedMap(room);
  const length = map.seatCount * map.frequency_hz.length;
  const sum = { re: new Float64Array(length), im: new Float64Array(length) };
  for (const [x_m, y_m] of positions) {
    const place = map.points.findIndex(
      (point) => Math.abs(point.x_m - x_m) < 1e-9 && Math.abs(point.y_m - y_m) < 1e-9,
    );
    for (let i = 0; i < length; i++) {
      sum.re[i] = (sum.re[i] ?? 0) + (map.re[place * length + i] ?? Number.NaN);
      sum.im[i] = (sum.im[i] ?? 0) + (map.im[place * length + i] ?? Number.NaN);
    }
  }
  const levels_db = judgeOf(plainTask(map, 1)).levels_db(sum);
  const terms = levelTerms(levels_db, map.seatCount, map.frequency_hz.length);
  const flatness_db = terms.flatness_db.reduce((total, one) => total + one, 0) / map.seatCount;
  const pair = (what: string, actual: number, expected: number) => ({
    what: `${room.name}, ${positions.join(' and ')}: ${what}`,
    actual,
    expected,
  });
  return [
    pair('flatness', flatness_db, stored.flatness_db),
    pair('spread', terms.spread_db, stored.seat_spread_db),
    pair('variance', terms.variance_db2, stored.seat_variance_db2),
  ];
}
