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
  return preparedTransfer(box, medium, frequency_hz)(source_m, receiver_m, nepers);
}

/** From source to receiver at one frequency, as `boxTransfer_pa_s_m3`, with the axes' modes kept from call to call. */
export function preparedTransfer(
  box: Box,
  medium: Medium,
  frequency_hz: number,
): (
  source_m: readonly [number, number, number],
  receiver_m: readonly [number, number, number],
  nepers: number,
) => readonly [number, number] {
  const k = (2 * Math.PI * frequency_hz) / medium.speedOfSound_m_s;
  const modes = box.map((axis) => growingModes(axis, k));
  const scale = 2 * Math.PI * frequency_hz * medium.density_kg_m3;
  return (source_m, receiver_m, nepers) => {
    const apart_m = ([0, 1, 2] as const).map((i) => Math.abs(source_m[i] - receiver_m[i]));
    const closed = apart_m.indexOf(Math.max(...apart_m)) as 0 | 1 | 2;
    const separation_m = apart_m[closed] ?? 0;
    if (separation_m < LEAST_SEPARATION_m) {
      throw new RangeError(`points ${separation_m} m apart: the near field is not a room's matter`);
    }
    const [first, second] = OTHERS[closed];
    const reach = Math.hypot(nepers / separation_m, k);
    const weights = (axis: 0 | 1 | 2): Weighted => {
      const count = Math.ceil((reach * box[axis].length_m) / Math.PI) + 1;
      return weighted(modes[axis]?.(count), count, source_m[axis], receiver_m[axis]);
    };
    const line = axisLine(box[closed], k, source_m[closed], receiver_m[closed], nepers);
    const [re, im] = doubleSum(weights(first), weights(second), line, k);
    return [-scale * im, scale * re];
  };
}

/** The two axes that are summed where the third is closed. */
const OTHERS = [
  [1, 2],
  [0, 2],
  [0, 1],
] as const;

/** The lowest modes of an axis, at least as many as asked for; worked out anew only when more are wanted. */
function growingModes(axis: Axis, k: number): (count: number) => AxisModes {
  let known: AxisModes | null = null;
  return (count) => {
    if (known === null || known.count < count) known = axisModes(axis, k, count + 4);
    return known;
  };
}

/** Modes of one axis with X(source) X(receiver) / N each, as [re, im] pairs. */
interface Weighted {
  readonly modes: AxisModes;
  readonly count: number;
  readonly weight: Float64Array;
}

/** Σ Σ u v G over two axes' modes, until the third axis has decayed. */
function doubleSum(
  u: Weighted,
  v: Weighted,
  line: ReturnType<typeof axisLine>,
  k: number,
): readonly [number, number] {
  let sumRe = 0;
  let sumIm = 0;
  for (let m = 0; m < u.count; m++) {
    const uRe = u.weight[2 * m] as number;
    const uIm = u.weight[2 * m + 1] as number;
    for (let n = 0; n < v.count; n++) {
      const [gRe, gIm] = line(
        k * k - (u.modes.qRe[m] as number) - (v.modes.qRe[n] as number),
        -(u.modes.qIm[m] as number) - (v.modes.qIm[n] as number),
      );
      if (gRe === 0 && gIm === 0) break;
      const vRe = v.weight[2 * n] as number;
      const vIm = v.weight[2 * n + 1] as number;
      const productRe = uRe * vRe - uIm * vIm;
      const productIm = uRe * vIm + uIm * vRe;
      sumRe += productRe * gRe - productIm * gIm;
      sumIm += productRe * gIm + productIm * gRe;
    }
  }
  return [sumRe, sumIm];
}

function weighted(
  modes: AxisModes | undefined,
  count: number,
  source_m: number,
  receiver_m: number,
): Weighted {
  if (modes === undefined) throw new RangeError('an axis without modes');
  const weight = overNorm(modes, source_m);
  const atReceiver = new Float64Array(2 * modes.count);
  axisShapes(modes, receiver_m, atReceiver);
  for (let m = 0; m < count; m++) {
    const sRe = weight[2 * m] as number;
    const sIm = weight[2 * m + 1] as number;
    const rRe = atReceiver[2 * m] as number;
    const rIm = atReceiver[2 * m + 1] as number;
    weight[2 * m] = sRe * rRe - sIm * rIm;
    weight[2 * m + 1] = sRe * rIm + sIm * rRe;
  }
  return { modes, count, weight };
}
