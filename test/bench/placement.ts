// Benchmarks of the placement search: a 6 × 8 m room on a 0.1 m grid with three seats, beside brute force in NumPy in the same run.

import type { Box } from '../../core/acoustics/field/boxTransfer.ts';
import { mapOfBox } from '../../core/search/boxMap.ts';
import { searchPlacement } from '../../core/search/searchPlacement.ts';
import { allAtOnce } from '../../core/search/transferMap.ts';
import { plainTask } from '../support/placementTasks.ts';
import { NO_PEER, peer } from './peer.ts';
import type { Row, Table } from './statistics.ts';

const ROOM_M = [6, 8, 2.8] as const;
const SOFT = { real: 0.03, imaginary: 0 };
const BOX: Box = [
  { length_m: ROOM_M[0], walls: [SOFT, SOFT] },
  { length_m: ROOM_M[1], walls: [SOFT, SOFT] },
  { length_m: ROOM_M[2], walls: [SOFT, SOFT] },
];
const AIR = { speedOfSound_m_s: 343, density_kg_m3: 1.2 };
const SEATS_M = [
  [3, 5, 1.2],
  [2.2, 5.2, 1.2],
  [3.8, 5.2, 1.2],
] as const;
const HZ = Array.from({ length: 61 }, (_, i) => 20 + i);

function gridOf(step_m: number) {
  const along = (length_m: number) =>
    Array.from({ length: Math.round((length_m - 0.4) / step_m) + 1 }, (_, i) =>
      Number((0.2 + i * step_m).toFixed(3)),
    );
  return along(ROOM_M[0]).flatMap((x_m) =>
    along(ROOM_M[1]).map((y_m) => ({ x_m, y_m, z_m: 0.25 })),
  );
}

function search(subCount: number): number {
  const start_ms = performance.now();
  const seats = SEATS_M.map(([x_m, y_m, z_m]) => ({ x_m, y_m, z_m }));
  const map = allAtOnce(mapOfBox(() => BOX, AIR, HZ, seats, gridOf(0.1)));
  allAtOnce(searchPlacement(plainTask(map, subCount)));
  return performance.now() - start_ms;
}

export function tables(): readonly Table[] {
  return [{ title: 'Placement search', rows: placementBenches() }];
}

function placementBenches(): readonly Row[] {
  const timesOf = (subCount: number, count: number) => {
    for (let i = 0; i < 2; i++) search(subCount); // warm
    return Array.from({ length: count }, () => search(subCount));
  };
  const places = gridOf(0.1).length;
  const bench = (subCount: number, count: number, bound_ms: number): Row => ({
    name: `  ${subCount === 1 ? 'one sub' : 'two subs'}, ${places} places, 3 seats, maps included`,
    times_ms: timesOf(subCount, count),
    bound: `median < ${bound_ms} ms`,
    isKept: ({ median_ms }) => median_ms < bound_ms,
  });
  return [
    bench(1, 9, 200),
    ...peerBench(1, 0.1, 'every place'),
    bench(2, 5, 3000),
    ...peerBench(2, 0.4, 'all pairs of a 0.4 m grid only'),
  ];
}

function peerBench(subCount: number, step_m: number, what: string): readonly Row[] {
  const answer = peer<{ readonly ms: number }>('placementPeer.py', {
    room_m: ROOM_M,
    frequency_hz: HZ,
    seats_m: SEATS_M,
    points_m: gridOf(step_m).map(({ x_m, y_m, z_m }) => [x_m, y_m, z_m]),
    decay_s: 0.4,
    sub_count: subCount,
  });
  const name = `    NumPy, ${what}`;
  const peerLine = { name, bound: 'the peer', isKept: () => true, isPeer: true };
  return answer === null
    ? [{ ...peerLine, times_ms: [Number.NaN], note: `  ${NO_PEER}` }]
    : [{ ...peerLine, times_ms: [answer.ms] }];
}
