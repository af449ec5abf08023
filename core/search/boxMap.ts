// Transfers from every place of a floor grid to every seat of a box room: the sum over modes taken apart by axis, so that each
// row and column of the grid is worked out once. The height is closed in exact form, so that few modes are needed.
//
// The modes of a column are summed for all seats and frequencies first; then the map is written once, from its beginning to its end.

import type { Box, Medium } from '../acoustics/field/boxTransfer.ts';
import type { Point3 } from '../acoustics/point.ts';
import { chebyshevPoints_hz, lagrangeWeights } from './interpolation.ts';
import { type Columns, columnsOf, type PlanModes, planModes } from './planModes.ts';
import { share } from './share.ts';
import { emptyMap, type InSlices, type TransferMap } from './transferMap.ts';

/** Plan modes whose field falls by more than this over the difference in height are left out. */
const NEPERS = 5;
/** Ears nearly as low as the source would ask for no end of modes; nearer than this only the nearest half metre is less exact. */
const LEAST_HEIGHT_m = 0.4;
/** Plan modes up to so many times the highest wave number are summed at every frequency, those above at a few. */
const MODES_BEYOND = 1.3;
const REMAINDER_POINTS = 5;

/**
 * @param boxAt the box with its walls' admittances at a frequency (Hz)
 * @param points of the sources, all at one height; the more share rows and columns, the quicker
 * @source Morse & Ingard, Theoretical Acoustics, §9.4; reciprocity: Rayleigh, Theory of Sound, §294
 */
export function* mapOfBox(
  boxAt: (frequency_hz: number) => Box,
  medium: Medium,
  frequency_hz: readonly number[],
  seats: readonly Point3[],
  points: readonly Point3[],
): InSlices<TransferMap> {
  const map = emptyMap(frequency_hz, points, seats.length);
  const [low_hz = 20, high_hz = 20] = [frequency_hz[0], frequency_hz[frequency_hz.length - 1]];
  const z_m = points[0]?.z_m ?? 0;
  const apart_m = Math.min(...seats.map((seat) => Math.abs(seat.z_m - z_m)));
  const top = (2 * Math.PI * high_hz) / medium.speedOfSound_m_s;
  const nearest = MODES_BEYOND * top;
  const farthest = Math.max(nearest, Math.hypot(NEPERS / Math.max(LEAST_HEIGHT_m, apart_m), top));
  const room = { boxAt, medium, seats, columns: columnsOf(points), z_m };
  const near = yield* share(planModes(room, frequency_hz, 0, nearest), 0, 0.3);
  // What the modes above add varies so slowly that a few frequencies tell all of it.
  const isShort = frequency_hz.length <= REMAINDER_POINTS;
  const nodes_hz = isShort ? frequency_hz : chebyshevPoints_hz(low_hz, high_hz, REMAINDER_POINTS);
  const rest = yield* share(planModes(room, nodes_hz, nearest, farthest), 0.3, 0.4);
  const weights = lagrangeWeights(nodes_hz, frequency_hz);
  const { members } = room.columns;
  for (const [index, column] of members.entries()) {
    fillColumn(map, column, columnSums(near, index), columnSums(rest, index), weights);
    yield 0.4 + (0.6 * (index + 1)) / members.length;
  }
  return map;
}

/** One column of the grid: what each depth mode has there, and the modes' shapes along it. */
interface ColumnSums {
  readonly depthCount: number;
  readonly frequencyCount: number;
  /** `[seat][frequency][depth mode]`. */
  readonly sums: Float64Array;
  readonly rows: Float64Array;
}

function columnSums(modes: PlanModes, column: number): ColumnSums {
  const { frequencyCount, seatCount, widthCount, depthCount, starts, ends, columns, rows } = modes;
  const sums = new Float64Array(2 * seatCount * frequencyCount * depthCount);
  for (let s = 0; s < seatCount; s++) {
    for (let f = 0; f < frequencyCount; f++) {
      const out = 2 * (s * frequencyCount + f) * depthCount;
      const weights = out * widthCount;
      const shapes = 2 * (column * frequencyCount + f) * widthCount;
      for (let l = 0; l < widthCount; l++) {
        const sRe = columns[shapes + 2 * l] as number;
        const sIm = columns[shapes + 2 * l + 1] as number;
        const end = ends[l] as number;
        for (let m = starts[l] as number; m < end; m++) {
          const w = weights + 2 * (l * depthCount + m);
          const weightRe = modes.weights[w] as number;
          const weightIm = modes.weights[w + 1] as number;
          const at = out + 2 * m;
          sums[at] = (sums[at] as number) + sRe * weightRe - sIm * weightIm;
          sums[at + 1] = (sums[at + 1] as number) + sRe * weightIm + sIm * weightRe;
        }
      }
    }
  }
  return { depthCount, frequencyCount, sums, rows };
}

/** @param weights from the few frequencies of `rest` to those of the map */
function fillColumn(
  { re, im, seatCount }: TransferMap,
  { points, rows }: Columns['members'][number],
  near: ColumnSums,
  rest: ColumnSums,
  weights: Float64Array,
): void {
  const [count, nodes] = [near.frequencyCount, rest.frequencyCount];
  const restRe = new Float64Array(nodes);
  const restIm = new Float64Array(nodes);
  for (let p = 0; p < points.length; p++) {
    const row = rows[p] as number;
    for (let s = 0; s < seatCount; s++) {
      const into = ((points[p] as number) * seatCount + s) * count;
      alongColumn(near, row, s, re, im, into);
      alongColumn(rest, row, s, restRe, restIm, 0);
      for (let f = 0; f < count; f++) {
        let x = re[into + f] as number;
        let y = im[into + f] as number;
        for (let i = 0; i < nodes; i++) {
          const weight = weights[f * nodes + i] as number;
          x += weight * (restRe[i] as number);
          y += weight * (restIm[i] as number);
        }
        re[into + f] = x;
        im[into + f] = y;
      }
    }
  }
}

/** The sum over depth modes at one row, for one seat at every frequency. */
function alongColumn(
  { depthCount, frequencyCount, sums, rows }: ColumnSums,
  row: number,
  seat: number,
  re: Float64Array,
  im: Float64Array,
  into: number,
): void {
  let a = 2 * row * frequencyCount * depthCount;
  let b = 2 * seat * frequencyCount * depthCount;
  for (let f = 0; f < frequencyCount; f++) {
    let x = 0;
    let y = 0;
    for (let m = 0; m < depthCount; m++, a += 2, b += 2) {
      const aRe = rows[a] as number;
      const aIm = rows[a + 1] as number;
      const bRe = sums[b] as number;
      const bIm = sums[b + 1] as number;
      x += aRe * bRe - aIm * bIm;
      y += aRe * bIm + aIm * bRe;
    }
    re[into + f] = x;
    im[into + f] = y;
  }
}
