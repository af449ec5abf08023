// What each mode over width and depth carries between one place and a plane of a box: the weights of a sum over the plan's modes.

import type { axisLine } from './axisLine.ts';
import { type AxisModes, overNorm } from './axisModes.ts';

/** Which of the modes take part: by width mode the first depth mode, and the one after the last. */
export interface PlanRange {
  readonly starts: Int32Array;
  readonly ends: Int32Array;
}

/**
 * Writes jωρ X(x) Y(y) G_z/(N N) of every mode that takes part.
 *
 * @param line G_z between the place's height and the plane's, in exact form, at this frequency
 * @param k wave number, rad/m
 * @param scale ωρ, kg/(m³·s)
 * @param out `[width mode][depth mode]`, complex numbers interleaved
 * @source Morse & Ingard, Theoretical Acoustics, §9.4
 */
export function planWeights(
  [across, along]: readonly [AxisModes, AxisModes],
  line: ReturnType<typeof axisLine>,
  [x_m, y_m]: readonly [number, number],
  k: number,
  scale: number,
  { starts, ends }: PlanRange,
  out: Float64Array,
): void {
  const xs = overNorm(across, x_m);
  const ys = overNorm(along, y_m);
  for (let l = 0; l < across.count; l++) {
    for (let m = starts[l] as number; m < (ends[l] as number); m++) {
      const [gRe, gIm] = line(
        k * k - (across.qRe[l] as number) - (along.qRe[m] as number),
        -(across.qIm[l] as number) - (along.qIm[m] as number),
      );
      const aRe = xs[2 * l] as number;
      const aIm = xs[2 * l + 1] as number;
      const bRe = ys[2 * m] as number;
      const bIm = ys[2 * m + 1] as number;
      const pRe = aRe * bRe - aIm * bIm;
      const pIm = aRe * bIm + aIm * bRe;
      const at = 2 * (l * along.count + m);
      out[at] = -scale * (pRe * gIm + pIm * gRe);
      out[at + 1] = scale * (pRe * gRe - pIm * gIm);
    }
  }
}
