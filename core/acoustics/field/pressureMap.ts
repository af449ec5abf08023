// Pressure over a horizontal plane of a box at one frequency, from one source: fast enough to scrub through frequencies.
//
// Width and depth are summed over their exact modes, the height is closed, and the sum is separated by rows and columns.

import { axisLine } from './axisLine.ts';
import { axisModes, axisShapes } from './axisModes.ts';
import type { Box, Medium } from './boxTransfer.ts';
import type { Place } from './modalSum.ts';
import { type PlanRange, planWeights } from './planWeights.ts';

/** Modes an axis; beyond, only the source's nearest decimetres change. */
const MODES_AN_AXIS = 24;
const ALL_MODES: PlanRange = {
  starts: new Int32Array(MODES_AN_AXIS),
  ends: new Int32Array(MODES_AN_AXIS).fill(MODES_AN_AXIS),
};

/**
 * Complex pressure per unit volume velocity at a grid of places, Pa·s/m³, e^{+jωt}.
 *
 * @param plane_z_m height of the plane
 * @param x_m @param y_m the grid's columns and rows, inside the box
 * @returns `re[row * x_m.length + column]`, and `im` alike
 */
export function pressureMap(
  box: Box,
  medium: Medium,
  frequency_hz: number,
  source_m: Place,
  plane_z_m: number,
  x_m: readonly number[],
  y_m: readonly number[],
): { readonly re: Float64Array; readonly im: Float64Array } {
  const k = (2 * Math.PI * frequency_hz) / medium.speedOfSound_m_s;
  const across = axisModes(box[0], k, MODES_AN_AXIS);
  const along = axisModes(box[1], k, MODES_AN_AXIS);
  const scale = 2 * Math.PI * frequency_hz * medium.density_kg_m3;
  const [sourceX_m, sourceY_m, source_z_m] = source_m;
  const line = axisLine(box[2], k, source_z_m, plane_z_m);
  const weights = new Float64Array(2 * MODES_AN_AXIS ** 2);
  planWeights([across, along], line, [sourceX_m, sourceY_m], k, scale, ALL_MODES, weights);
  const re = new Float64Array(x_m.length * y_m.length);
  const im = new Float64Array(x_m.length * y_m.length);
  const n = MODES_AN_AXIS;
  const shape = new Float64Array(2 * n);
  const rows = y_m.map((y) => {
    const out = new Float64Array(2 * n);
    axisShapes(along, y, out);
    return out;
  });
  const column = new Float64Array(2 * n);
  x_m.forEach((x, c) => {
    axisShapes(across, x, shape);
    column.fill(0);
    for (let l = 0; l < n; l++) {
      const sRe = shape[2 * l] as number;
      const sIm = shape[2 * l + 1] as number;
      for (let m = 0; m < n; m++) {
        const weightRe = weights[2 * (l * n + m)] as number;
        const weightIm = weights[2 * (l * n + m) + 1] as number;
        column[2 * m] = (column[2 * m] as number) + sRe * weightRe - sIm * weightIm;
        column[2 * m + 1] = (column[2 * m + 1] as number) + sRe * weightIm + sIm * weightRe;
      }
    }
    rows.forEach((row, r) => {
      let sumRe = 0;
      let sumIm = 0;
      for (let m = 0; m < n; m++) {
        const aRe = row[2 * m] as number;
        const aIm = row[2 * m + 1] as number;
        const bRe = column[2 * m] as number;
        const bIm = column[2 * m + 1] as number;
        sumRe += aRe * bRe - aIm * bIm;
        sumIm += aRe * bIm + aIm * bRe;
      }
      re[r * x_m.length + c] = sumRe;
      im[r * x_m.length + c] = sumIm;
    });
  });
  return { re, im };
}
