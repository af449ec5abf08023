// The sum over a box's exact modes below a limit at one frequency: made ready once, then asked for any source and receivers.

import { type AxisModes, axisShapes, overNorm } from './axisModes.ts';

/** A place in the box: x, y, z from the corner at the origin, m. */
export type Place = readonly [number, number, number];

/** Shapes of each axis' modes at a receiver, interleaved. */
export type ReceiverShapes = readonly [Float64Array, Float64Array, Float64Array];

/** Which modes are summed: how many along z belong to each pair along x and y. */
export interface ModeSet {
  /** How many along each axis. */
  readonly counts: readonly [number, number, number];
  /** `[l * counts[1] + m]` */
  readonly ends: Int32Array;
  readonly total: number;
  /** Room for the source's shapes and one column of modes: sums are made so often that it is kept. */
  readonly scratch: readonly [Float64Array, Float64Array, Float64Array, Float64Array];
}

/** All modes whose rigid-wall wave number lies below a limit. */
export function modesBelow(lengths_m: readonly number[], limit_rad_m: number): ModeSet {
  const [lx = 1, ly = 1, lz = 1] = lengths_m;
  const countOf = (length_m: number) => Math.floor((limit_rad_m * length_m) / Math.PI) + 1;
  const counts = [countOf(lx), countOf(ly), countOf(lz)] as const;
  const ends = new Int32Array(counts[0] * counts[1]);
  let total = 0;
  for (let l = 0; l < counts[0]; l++)
    for (let m = 0; m < counts[1]; m++) {
      const left = limit_rad_m ** 2 - ((l * Math.PI) / lx) ** 2 - ((m * Math.PI) / ly) ** 2;
      const end = left < 0 ? 0 : Math.floor((Math.sqrt(left) * lz) / Math.PI) + 1;
      ends[l * counts[1] + m] = end;
      total += end;
    }
  const scratch = [counts[0], counts[1], counts[2], counts[2]].map(
    (count) => new Float64Array(2 * count),
  ) as [Float64Array, Float64Array, Float64Array, Float64Array];
  return { counts, ends, total, scratch };
}

/** One frequency, ready to be summed: modes of the axes and 1/(q_x + q_y + q_z − k²) of every mode, interleaved. */
export interface ModalSlice {
  readonly axes: readonly [AxisModes, AxisModes, AxisModes];
  readonly inverse: Float64Array;
  /** ωρ, which makes pressure of it. */
  readonly scale: number;
}

export function modalSlice(
  set: ModeSet,
  axes: readonly [AxisModes, AxisModes, AxisModes],
  k_rad_m: number,
  omegaRho: number,
): ModalSlice {
  const [x, y, z] = axes;
  const [cx, cy] = set.counts;
  const inverse = new Float64Array(2 * set.total);
  let at = 0;
  for (let l = 0; l < cx; l++)
    for (let m = 0; m < cy; m++) {
      const end = set.ends[l * cy + m] as number;
      const qRe = (x.qRe[l] as number) + (y.qRe[m] as number) - k_rad_m * k_rad_m;
      const qIm = (x.qIm[l] as number) + (y.qIm[m] as number);
      for (let n = 0; n < end; n++) {
        const re = qRe + (z.qRe[n] as number);
        const im = qIm + (z.qIm[n] as number);
        const size = re * re + im * im;
        inverse[at++] = re / size;
        inverse[at++] = -im / size;
      }
    }
  return { axes, inverse, scale: omegaRho };
}

export function receiverShapes({ axes }: ModalSlice, place: Place): ReceiverShapes {
  const of = (axis: 0 | 1 | 2) => {
    const shapes = new Float64Array(2 * axes[axis].count);
    axisShapes(axes[axis], place[axis], shapes);
    return shapes;
  };
  return [of(0), of(1), of(2)];
}

/**
 * What a source at one height makes of every pair of modes along x and y at each receiver: the sum along z, the receiver's shapes
 * in it. While a source keeps its height, only the sum over the pairs is left to do.
 *
 * @param sums written to: interleaved, `[pair * receivers + receiver]`, pairs as in the set
 */
export function heightSums(
  set: ModeSet,
  { axes, inverse }: ModalSlice,
  z_m: number,
  receivers: readonly ReceiverShapes[],
  sums: Float64Array,
): void {
  const [cx, cy] = set.counts;
  const [, , sz, g] = set.scratch;
  overNorm(axes[2], z_m, sz);
  const count = receivers.length;
  let at = 0;
  for (let l = 0; l < cx; l++)
    for (let m = 0; m < cy; m++) {
      const pair = l * cy + m;
      const end = 2 * (set.ends[pair] as number);
      if (end === 0) break;
      for (let n = 0; n < end; n += 2) {
        const iRe = inverse[at++] as number;
        const iIm = inverse[at++] as number;
        const zRe = sz[n] as number;
        const zIm = sz[n + 1] as number;
        g[n] = iRe * zRe - iIm * zIm;
        g[n + 1] = iRe * zIm + iIm * zRe;
      }
      for (let r = 0; r < count; r++) {
        const [rx, ry, rz] = receivers[r] as ReceiverShapes;
        let zRe = 0;
        let zIm = 0;
        for (let n = 0; n < end; n += 2) {
          const gRe = g[n] as number;
          const gIm = g[n + 1] as number;
          const shapeRe = rz[n] as number;
          const shapeIm = rz[n + 1] as number;
          zRe += gRe * shapeRe - gIm * shapeIm;
          zIm += gRe * shapeIm + gIm * shapeRe;
        }
        const cRe = rx[2 * l] as number;
        const cIm = rx[2 * l + 1] as number;
        const dRe = ry[2 * m] as number;
        const dIm = ry[2 * m + 1] as number;
        const tRe = cRe * dRe - cIm * dIm;
        const tIm = cRe * dIm + cIm * dRe;
        const into = 2 * (pair * count + r);
        sums[into] = tRe * zRe - tIm * zIm;
        sums[into + 1] = tRe * zIm + tIm * zRe;
      }
    }
}

/**
 * Pressure per volume velocity at each receiver from a source at the height of `sums`.
 *
 * @param receiverCount that the sums were made for
 * @param into written to as [re, im] pairs, Pa·s/m³
 */
export function planSum(
  set: ModeSet,
  { axes, scale }: ModalSlice,
  [x_m, y_m]: Place,
  sums: Float64Array,
  receiverCount: number,
  into: Float64Array,
): void {
  const [cx, cy] = set.counts;
  const [sx, sy] = set.scratch;
  overNorm(axes[0], x_m, sx);
  overNorm(axes[1], y_m, sy);
  into.fill(0);
  for (let l = 0; l < cx; l++) {
    const aRe = sx[2 * l] as number;
    const aIm = sx[2 * l + 1] as number;
    for (let m = 0; m < cy; m++) {
      const pair = l * cy + m;
      if ((set.ends[pair] as number) === 0) break;
      const bRe = sy[2 * m] as number;
      const bIm = sy[2 * m + 1] as number;
      const sRe = aRe * bRe - aIm * bIm;
      const sIm = aRe * bIm + aIm * bRe;
      for (let r = 0; r < 2 * receiverCount; r += 2) {
        const vRe = sums[2 * pair * receiverCount + r] as number;
        const vIm = sums[2 * pair * receiverCount + r + 1] as number;
        into[r] = (into[r] as number) + sRe * vRe - sIm * vIm;
        into[r + 1] = (into[r + 1] as number) + sRe * vIm + sIm * vRe;
      }
    }
  }
  // × jωρ
  for (let r = 0; r < 2 * receiverCount; r += 2) {
    const re = into[r] as number;
    into[r] = -scale * (into[r + 1] as number);
    into[r + 1] = scale * re;
  }
}
