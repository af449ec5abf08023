// The plan modes of a box room at a list of frequencies: their shapes along the columns and rows of a grid, and what each carries
// from there to each seat.

import { axisLine } from '../acoustics/field/axisLine.ts';
import { type AxisModes, axisModes, axisShapes } from '../acoustics/field/axisModes.ts';
import type { Box, Medium } from '../acoustics/field/boxTransfer.ts';
import { type PlanRange, planWeights } from '../acoustics/field/planWeights.ts';
import type { Point3 } from '../acoustics/point.ts';
import type { InSlices } from './transferMap.ts';

export interface MapRoom {
  readonly boxAt: (frequency_hz: number) => Box;
  readonly medium: Medium;
  readonly seats: readonly Point3[];
  readonly columns: Columns;
  readonly z_m: number;
}

/** All plan modes between two wave numbers, at a list of frequencies; complex numbers interleaved. */
export interface PlanModes extends PlanRange {
  readonly frequencyCount: number;
  readonly seatCount: number;
  readonly widthCount: number;
  readonly depthCount: number;
  /** `[column][frequency][width mode]`, `[row][frequency][depth mode]`. */
  readonly columns: Float64Array;
  readonly rows: Float64Array;
  /** jωρ X(seat) Y(seat) G_z/(N N), `[seat][frequency][width mode][depth mode]`. */
  readonly weights: Float64Array;
}

export function* planModes(
  { boxAt, medium, seats, columns, z_m }: MapRoom,
  frequency_hz: readonly number[],
  from: number,
  to: number,
): InSlices<PlanModes> {
  const frequencyCount = frequency_hz.length;
  const [width, depth] = boxAt(frequency_hz[0] ?? 20);
  const [widthCount, depthCount] = [width, depth].map(
    ({ length_m }) => Math.floor((to * length_m) / Math.PI) + 1,
  ) as [number, number];
  const below = (limit: number) =>
    Int32Array.from({ length: widthCount }, (_, l) => {
      const left = limit ** 2 - ((l * Math.PI) / width.length_m) ** 2;
      if (left < 0 || limit === 0) return 0;
      return Math.min(depthCount, Math.floor((Math.sqrt(left) * depth.length_m) / Math.PI) + 1);
    });
  const modes: PlanModes = {
    frequencyCount,
    seatCount: seats.length,
    widthCount,
    depthCount,
    starts: below(from),
    ends: below(to),
    columns: new Float64Array(2 * columns.x_m.length * frequencyCount * widthCount),
    rows: new Float64Array(2 * columns.y_m.length * frequencyCount * depthCount),
    weights: new Float64Array(2 * seats.length * frequencyCount * widthCount * depthCount),
  };
  const step = 2 * widthCount * depthCount;
  let before: readonly [AxisModes | null, AxisModes | null] = [null, null];
  for (const [f, f_hz] of frequency_hz.entries()) {
    const k = (2 * Math.PI * f_hz) / medium.speedOfSound_m_s;
    const box = boxAt(f_hz);
    const axes = [
      axisModes(box[0], k, widthCount, before[0]),
      axisModes(box[1], k, depthCount, before[1]),
    ] as const;
    before = axes;
    shapesAt(modes.columns, axes[0], columns.x_m, f, frequencyCount);
    shapesAt(modes.rows, axes[1], columns.y_m, f, frequencyCount);
    const scale = 2 * Math.PI * f_hz * medium.density_kg_m3;
    seats.forEach((seat, s) => {
      const line = axisLine(box[2], k, z_m, seat.z_m);
      const from = (s * frequencyCount + f) * step;
      const out = modes.weights.subarray(from, from + step);
      planWeights(axes, line, [seat.x_m, seat.y_m], k, scale, modes, out);
    });
    yield (f + 1) / frequencyCount;
  }
  return modes;
}

/** Shapes of one axis at each line, at one frequency. */
function shapesAt(
  out: Float64Array,
  modes: AxisModes,
  lines_m: readonly number[],
  frequency: number,
  frequencyCount: number,
): void {
  const step = 2 * modes.count;
  lines_m.forEach((at_m, line) => {
    const from = (line * frequencyCount + frequency) * step;
    axisShapes(modes, at_m, out.subarray(from, from + step));
  });
}

export interface Columns {
  readonly x_m: readonly number[];
  readonly y_m: readonly number[];
  /** By column: the points in it, and the row of each. */
  readonly members: readonly { readonly points: Int32Array; readonly rows: Int32Array }[];
}

export function columnsOf(points: readonly Point3[]): Columns {
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
