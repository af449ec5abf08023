// The exact low-frequency transfer between two points of a box with uniform admittance on each wall.
//
// Two axes are summed over their exact modes, the third (the one along which the points lie farthest apart) in closed
// form, so that the sum converges exponentially and needs no correction.

import { axisLine, ENOUGH_NEPERS } from './axisLine.ts';
import { type Axis, type AxisModes, axisModes, axisShapes, overNorm } from './axisModes.ts';

export interface Medium {
  readonly speedOfSound_m_s: number;
  readonly density_kg_m3: number;
}

/** x, y, z axes of the box. */
export type Box = readonly [Axis, Axis, Axis];

/** Points closer than this along every axis would need too many terms; the near field of a monopole is no room matter. */
const LEAST_SEPARATION_m = 0.05;

/**
 * Complex pressure at `receiver` per unit volume velocity at `source`, e^{+jωt}; its sign and scale are those of the free field
 * jωρ e^{−jkR}/(4πR).
 *
 * @param box each axis' length and wall admittances at this frequency
 * @param frequency_hz > 0
 * @param nepers where the sum stops: terms that decay by more than e^-nepers are left out
 * @returns Pa·s/m³ as real and imaginary part
 * @throws RangeError where the points are nearer than 0.05 m along every axis
 * @source Morse & Ingard, Theoretical Acoustics, §9.4; one axis in closed form as in the reference of the tests
 */
export function boxTransfer_pa_s_m3(
  box: Box,
  medium: Medium,
  frequency_hz: number,
  source_m: readonly [number, number, number],
  receiver_m: readonly [number, number, number],
  nepers: number = ENOUGH_NEPERS,
): readonly [number, number] {
  const k = (2 * Math.PI * frequency_hz) / medium.speedOfSound_m_s;
  const apart = [0, 1, 2].map((i) => Math.abs((source_m[i] ?? 0) - (receiver_m[i] ?? 0)));
  const closed = apart.indexOf(Math.max(...apart)) as 0 | 1 | 2;
  const separation_m = apart[closed] ?? 0;
  if (separation_m < LEAST_SEPARATION_m) {
    throw new RangeError(`points ${separation_m} m apart: the near field is not a room's matter`);
  }
  const [first, second] = (
    [
      [1, 2],
      [0, 2],
      [0, 1],
    ] as const
  )[closed];
  const largest = nepers / separation_m;
  const u = summedAxis(box[first], k, largest, source_m[first], receiver_m[first]);
  const v = summedAxis(box[second], k, largest, source_m[second], receiver_m[second]);
  const line = axisLine(box[closed], k, source_m[closed], receiver_m[closed]);
  let sumRe = 0;
  let sumIm = 0;
  for (let m = 0; m < u.modes.count; m++) {
    for (let n = 0; n < v.modes.count; n++) {
      const [gRe, gIm] = line(
        k * k - (u.modes.qRe[m] ?? 0) - (v.modes.qRe[n] ?? 0),
        -(u.modes.qIm[m] ?? 0) - (v.modes.qIm[n] ?? 0),
      );
      if (gRe === 0 && gIm === 0) break;
      const uRe = u.weight[2 * m] ?? 0;
      const uIm = u.weight[2 * m + 1] ?? 0;
      const vRe = v.weight[2 * n] ?? 0;
      const vIm = v.weight[2 * n + 1] ?? 0;
      const wRe = uRe * vRe - uIm * vIm;
      const wIm = uRe * vIm + uIm * vRe;
      sumRe += wRe * gRe - wIm * gIm;
      sumIm += wRe * gIm + wIm * gRe;
    }
  }
  const scale = 2 * Math.PI * frequency_hz * medium.density_kg_m3;
  return [-scale * sumIm, scale * sumRe];
}

/** Modes of one axis with X(source) X(receiver) / N each, as [re, im] pairs. */
function summedAxis(
  axis: Axis,
  k: number,
  largest_rad_m: number,
  source_m: number,
  receiver_m: number,
): { modes: AxisModes; weight: Float64Array } {
  const reach = Math.hypot(largest_rad_m, k);
  const modes = axisModes(axis, k, Math.ceil((reach * axis.length_m) / Math.PI) + 1);
  const weight = overNorm(modes, source_m);
  const atReceiver = new Float64Array(2 * modes.count);
  axisShapes(modes, receiver_m, atReceiver);
  for (let m = 0; m < modes.count; m++) {
    const sRe = weight[2 * m] as number;
    const sIm = weight[2 * m + 1] as number;
    const rRe = atReceiver[2 * m] as number;
    const rIm = atReceiver[2 * m + 1] as number;
    weight[2 * m] = sRe * rRe - sIm * rIm;
    weight[2 * m + 1] = sRe * rIm + sIm * rRe;
  }
  return { modes, weight };
}
