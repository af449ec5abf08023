// Transfers from every place of a floor grid to every seat of a box room: the sum over modes taken apart by axis, so that each
// row and column of the grid is worked out once. The height is closed in exact form, so that few modes are needed.

import { axisLine } from '../acoustics/field/axisLine.ts';
import { type AxisModes, axisModes, axisShapes, overNorm } from '../acoustics/field/axisModes.ts';
import type { Box, Medium } from '../acoustics/field/boxTransfer.ts';
import type { Point3 } from '../acoustics/point.ts';
import { chebyshevPoints_hz, lagrangeWeights } from './interpolation.ts';
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
  const apart_m = Math.min(...seats.map((seat) => Math.abs(seat.z_m - (points[0]?.z_m ?? 0))));
  const top = (2 * Math.PI * high_hz) / medium.speedOfSound_m_s;
  const near = MODES_BEYOND * top;
  const far = Math.max(near, Math.hypot(NEPERS / Math.max(LEAST_HEIGHT_m, apart_m), top));
  const room = { boxAt, medium, seats, columns: columnsOf(points), z_m: points[0]?.z_m ?? 0 };
  for (const share of fillMap(map, room, 0, near)) yield 0.7 * share;
  // What the modes above add varies so slowly that a few frequencies tell all of it.
  const isShort = frequency_hz.length <= REMAINDER_POINTS;
  const nodes_hz = isShort ? frequency_hz : chebyshevPoints_hz(low_hz, high_hz, REMAINDER_POINTS);
  const rest = emptyMap(nodes_hz, points, seats.length);
  for (const share of fillMap(rest, room, near, far)) yield 0.7 + 0.2 * share;
  addInterpolated(map, rest, lagrangeWeights(nodes_hz, frequency_hz));
  return map;
}

interface MapRoom {
  readonly boxAt: (frequency_hz: number) => Box;
  readonly medium: Medium;
  readonly seats: readonly Point3[];
  readonly columns: Columns;
  readonly z_m: number;
}

/** Fills a map with the sum over plan modes between two wave numbers. */
function* fillMap(map: TransferMap, room: MapRoom, from: number, to: number): Generator<number> {
  let before: readonly [AxisModes | null, AxisModes | null] = [null, null];
  for (const [index, f_hz] of map.frequency_hz.entries()) {
    const k = (2 * Math.PI * f_hz) / room.medium.speedOfSound_m_s;
    const box = room.boxAt(f_hz);
    const modes = (axis: 0 | 1) =>
      axisModes(box[axis], k, Math.floor((to * box[axis].length_m) / Math.PI) + 1, before[axis]);
    const axes = [modes(0), modes(1)] as const;
    before = axes;
    const slice: Slice = {
      k,
      from,
      to,
      axes,
      box,
      columns: shapeRows(axes[0], room.columns.x_m),
      rows: shapeRows(axes[1], room.columns.y_m),
    };
    const scale = 2 * Math.PI * f_hz * room.medium.density_kg_m3;
    room.seats.forEach((seat, s) => {
      fillSeat(map, slice, room.columns, weightsOf(slice, seat, room.z_m), s, index, scale);
    });
    yield (index + 1) / map.frequency_hz.length;
  }
}

function addInterpolated(map: TransferMap, rest: TransferMap, weights: Float64Array): void {
  const [count, nodes] = [map.frequency_hz.length, rest.frequency_hz.length];
  const lists = map.points.length * map.seatCount;
  for (let list = 0; list < lists; list++) {
    for (let f = 0; f < count; f++) {
      let re = 0;
      let im = 0;
      for (let i = 0; i < nodes; i++) {
        const weight = weights[f * nodes + i] as number;
        re += weight * (rest.re[list * nodes + i] as number);
        im += weight * (rest.im[list * nodes + i] as number);
      }
      map.re[list * count + f] = (map.re[list * count + f] as number) + re;
      map.im[list * count + f] = (map.im[list * count + f] as number) + im;
    }
  }
}

interface Columns {
  readonly x_m: readonly number[];
  readonly y_m: readonly number[];
  /** By column: the points in it, and the row of each. */
  readonly members: readonly { readonly points: Int32Array; readonly rows: Int32Array }[];
}

function columnsOf(points: readonly Point3[]): Columns {
  const y_m = [...new Set(points.map((point) => point.y_m))];
  const rowOf = new Map(y_m.map((y, row) => [y, row]));
  const byX = new Map<number, number[]>();
  points.forEach(({ x_m }, index) => {
    const list = byX.get(x_m);
    if (list) list.push(index);
    else byX.set(x_m, [index]);
  });
  return {
    x_m: [...byX.keys()],
    y_m,
    members: [...byX.values()].map((list) => ({
      points: Int32Array.from(list),
      rows: Int32Array.from(list, (index) => rowOf.get(points[index]?.y_m ?? 0) ?? 0),
    })),
  };
}

interface Slice {
  readonly k: number;
  /** Plan modes between these wave numbers take part. */
  readonly from: number;
  readonly to: number;
  readonly axes: readonly [AxisModes, AxisModes];
  readonly box: Box;
  /** Shapes at the grid's columns and rows, as `shapeRows` lays them out. */
  readonly columns: Float64Array;
  readonly rows: Float64Array;
}

interface Weights {
  /** X(seat) Y(seat) G_z/(N N), by width mode, then depth mode, interleaved. */
  readonly weights: Float64Array;
  /** By width mode: the first depth mode that takes part, and the one after the last. */
  readonly starts: Int32Array;
  readonly ends: Int32Array;
}

function weightsOf({ k, from, to, axes: [x, y], box }: Slice, seat: Point3, z_m: number): Weights {
  const xs = overNorm(x, seat.x_m);
  const ys = overNorm(y, seat.y_m);
  const line = axisLine(box[2], k, z_m, seat.z_m);
  const weights = new Float64Array(2 * x.count * y.count);
  const below = (limit: number) =>
    Int32Array.from({ length: x.count }, (_, l) => {
      const left = limit ** 2 - ((l * Math.PI) / x.length_m) ** 2;
      if (left < 0 || limit === 0) return 0;
      return Math.min(y.count, Math.floor((Math.sqrt(left) * y.length_m) / Math.PI) + 1);
    });
  const [starts, ends] = [below(from), below(to)];
  for (let l = 0; l < x.count; l++) {
    for (let m = starts[l] as number; m < (ends[l] as number); m++) {
      const [gRe, gIm] = line(
        k * k - (x.qRe[l] as number) - (y.qRe[m] as number),
        -(x.qIm[l] as number) - (y.qIm[m] as number),
      );
      const aRe = xs[2 * l] as number;
      const aIm = xs[2 * l + 1] as number;
      const bRe = ys[2 * m] as number;
      const bIm = ys[2 * m + 1] as number;
      const pRe = aRe * bRe - aIm * bIm;
      const pIm = aRe * bIm + aIm * bRe;
      const at = 2 * (l * y.count + m);
      weights[at] = pRe * gRe - pIm * gIm;
      weights[at + 1] = pRe * gIm + pIm * gRe;
    }
  }
  return { weights, starts, ends };
}

function fillSeat(
  map: TransferMap,
  { axes: [x, y], columns: shapes, rows }: Slice,
  columns: Columns,
  { weights, starts, ends }: Weights,
  seat: number,
  frequency: number,
  scale: number,
): void {
  const count = map.frequency_hz.length;
  const step = map.seatCount * count;
  const at = seat * count + frequency;
  const column = new Float64Array(2 * y.count);
  columns.members.forEach(({ points, rows: rowOf }, c) => {
    column.fill(0);
    for (let l = 0; l < x.count; l++) {
      const sRe = shapes[2 * (c * x.count + l)] as number;
      const sIm = shapes[2 * (c * x.count + l) + 1] as number;
      const end = ends[l] as number;
      for (let m = starts[l] as number; m < end; m++) {
        const w = 2 * (l * y.count + m);
        const weightRe = weights[w] as number;
        const weightIm = weights[w + 1] as number;
        column[2 * m] = (column[2 * m] as number) + sRe * weightRe - sIm * weightIm;
        column[2 * m + 1] = (column[2 * m + 1] as number) + sRe * weightIm + sIm * weightRe;
      }
    }
    for (let p = 0; p < points.length; p++) {
      const row = (rowOf[p] as number) * 2 * y.count;
      let re = 0;
      let im = 0;
      for (let m = 0; m < 2 * y.count; m += 2) {
        const aRe = rows[row + m] as number;
        const aIm = rows[row + m + 1] as number;
        const bRe = column[m] as number;
        const bIm = column[m + 1] as number;
        re += aRe * bRe - aIm * bIm;
        im += aRe * bIm + aIm * bRe;
      }
      const into = (points[p] as number) * step + at;
      map.re[into] = -scale * im;
      map.im[into] = scale * re;
    }
  });
}

/** Shapes at each line for every mode, one line after the other, interleaved. */
function shapeRows(modes: AxisModes, lines_m: readonly number[]): Float64Array {
  const out = new Float64Array(2 * modes.count * lines_m.length);
  lines_m.forEach((at_m, line) => {
    axisShapes(modes, at_m, out.subarray(2 * modes.count * line, 2 * modes.count * (line + 1)));
  });
  return out;
}
