// The field of a box room at many frequencies: made ready once, then asked for transfers from moving sources.
//
// Exact modes to a third of an octave above the band, summed at every frequency; what all higher modes add varies so slowly that
// it is worked out exactly at a few frequencies (Chebyshev points) and interpolated. Nothing is truncated silently.

import { type AxisModes, axisModes, axisShapes, overNorm } from './axisModes.ts';
import { type Box, boxTransfer_pa_s_m3, type Medium } from './boxTransfer.ts';

export type Place = readonly [number, number, number];

/** Pressure per volume velocity by frequency: Pa·s/m³, e^{+jωt}. */
export interface Transfer {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export interface BoxField {
  readonly frequency_hz: readonly number[];
  /** Makes receivers ready: their mode shapes are worked out once, so that a source can be moved under the hand. */
  readonly listenAt: (receivers_m: readonly Place[]) => Listening;
}

/** From one source to each of the receivers, in their order. */
export type Listening = (source_m: Place) => Transfer[];

/** Modes are summed to this many times the highest frequency; above it they only bend the remainder gently. */
const MODES_BEYOND = 1.3;
/** Chebyshev points for the remainder: six leave less than 0.01 dB (measured against the exact transfer). */
const REMAINDER_POINTS = 6;
/** The exact transfer at those points may stop at e^-9: its error is far below the interpolation's. */
const REMAINDER_NEPERS = 9;

/**
 * Makes a field ready. The cost is the axes' modes at every frequency; they depend on walls and air only, not on any position.
 *
 * @param boxAt the box with its walls' admittances at a frequency (Hz)
 * @param frequency_hz ascending, > 0
 * @source Morse & Ingard, Theoretical Acoustics, §9.4; remainder by interpolation is our own
 */
export function prepareBoxField(
  boxAt: (frequency_hz: number) => Box,
  medium: Medium,
  frequency_hz: readonly number[],
): BoxField {
  const low = frequency_hz[0] ?? 20;
  const high = Math.max(frequency_hz[frequency_hz.length - 1] ?? 200, low * 1.01);
  const limit_rad_m = (2 * Math.PI * high * MODES_BEYOND) / medium.speedOfSound_m_s;
  const lengths = boxAt(high).map((axis) => axis.length_m);
  const counts = lengths.map((length_m) => Math.floor((limit_rad_m * length_m) / Math.PI) + 1);
  const nodes = chebyshev(low, high, REMAINDER_POINTS);
  const all = [...frequency_hz, ...nodes].map((f_hz, index) => ({ f_hz, index }));
  const slices: FieldSlice[] = new Array(all.length);
  let previous: readonly (AxisModes | null)[] = [null, null, null];
  // Upwards in frequency, each started from the one before: modes move little between neighbours.
  for (const { f_hz, index } of all.toSorted((one, other) => one.f_hz - other.f_hz)) {
    const k = (2 * Math.PI * f_hz) / medium.speedOfSound_m_s;
    const box = boxAt(f_hz);
    const axes = box.map((axis, i) => axisModes(axis, k, counts[i] ?? 1, previous[i] ?? null));
    previous = axes;
    slices[index] = { f_hz, k2: k * k, axes, box };
  }
  const sum = modalSum(lengths, limit_rad_m, counts, medium.density_kg_m3);
  const bary = barycentric(nodes, frequency_hz);
  return {
    frequency_hz,
    listenAt: (receivers_m) => {
      const heard = slices.map((slice) => receivers_m.map((place) => shapesAt(slice.axes, place)));
      return (source_m) => {
        const out = receivers_m.map(() => ({
          re: new Float64Array(frequency_hz.length),
          im: new Float64Array(frequency_hz.length),
        }));
        const rest = receivers_m.map(() => ({
          re: new Float64Array(nodes.length),
          im: new Float64Array(nodes.length),
        }));
        slices.forEach((slice, index) => {
          const node = index - frequency_hz.length;
          sum(slice, source_m, heard[index] ?? [], node < 0 ? out : rest, node < 0 ? index : node);
          if (node < 0) return;
          receivers_m.forEach((receiver_m, r) => {
            const part = rest[r];
            if (part === undefined) return;
            const [re, im] = boxTransfer_pa_s_m3(
              slice.box,
              medium,
              slice.f_hz,
              source_m,
              receiver_m,
              REMAINDER_NEPERS,
            );
            part.re[node] = re - (part.re[node] ?? 0);
            part.im[node] = im - (part.im[node] ?? 0);
          });
        });
        out.forEach((transfer, r) => {
          const part = rest[r];
          if (part !== undefined) bary(part, transfer);
        });
        return out;
      };
    },
  };
}

function shapesAt(axes: readonly AxisModes[], place: Place): Float64Array[] {
  return axes.map((modes, i) => {
    const shapes = new Float64Array(2 * modes.count);
    axisShapes(modes, place[i] ?? 0, shapes);
    return shapes;
  });
}

interface FieldSlice {
  readonly f_hz: number;
  readonly k2: number;
  readonly axes: readonly AxisModes[];
  readonly box: Box;
}

/** The sum over all modes below the limit at one frequency, written into `into[r]` at `index`. */
function modalSum(
  lengths: readonly number[],
  limit_rad_m: number,
  counts: readonly number[],
  density_kg_m3: number,
) {
  const [lx = 1, ly = 1, lz = 1] = lengths;
  const [cx = 1, cy = 1, cz = 1] = counts;
  const zCount = (l: number, m: number): number => {
    const left = limit_rad_m ** 2 - ((l * Math.PI) / lx) ** 2 - ((m * Math.PI) / ly) ** 2;
    return left < 0 ? 0 : Math.min(cz, Math.floor((Math.sqrt(left) * lz) / Math.PI) + 1);
  };
  const ends = Int32Array.from({ length: cx * cy }, (_, i) => zCount(Math.floor(i / cy), i % cy));
  return (
    { f_hz, k2, axes }: FieldSlice,
    source_m: Place,
    receivers: readonly (readonly Float64Array[])[],
    into: readonly Transfer[],
    index: number,
  ): void => {
    const [sx, sy, sz] = axes.map((modes, i) => overNorm(modes, source_m[i] ?? 0));
    const [x, y, z] = axes;
    if (!x || !y || !z || !sx || !sy || !sz) return;
    const gRe = new Float64Array(cz);
    const gIm = new Float64Array(cz);
    const totals = new Float64Array(2 * receivers.length);
    for (let l = 0; l < cx; l++) {
      for (let m = 0; m < cy; m++) {
        const end = ends[l * cy + m] ?? 0;
        if (end === 0) break;
        const qRe = (x.qRe[l] ?? 0) + (y.qRe[m] ?? 0) - k2;
        const qIm = (x.qIm[l] ?? 0) + (y.qIm[m] ?? 0);
        for (let n = 0; n < end; n++) {
          const dRe = qRe + (z.qRe[n] as number);
          const dIm = qIm + (z.qIm[n] as number);
          const scale = 1 / (dRe * dRe + dIm * dIm);
          const nRe = sz[2 * n] as number;
          const nIm = sz[2 * n + 1] as number;
          gRe[n] = (nRe * dRe + nIm * dIm) * scale;
          gIm[n] = (nIm * dRe - nRe * dIm) * scale;
        }
        const aRe = sx[2 * l] as number;
        const aIm = sx[2 * l + 1] as number;
        const bRe = sy[2 * m] as number;
        const bIm = sy[2 * m + 1] as number;
        const sRe = aRe * bRe - aIm * bIm;
        const sIm = aRe * bIm + aIm * bRe;
        for (let r = 0; r < receivers.length; r++) {
          const [rx, ry, rz] = receivers[r] as [Float64Array, Float64Array, Float64Array];
          let zRe = 0;
          let zIm = 0;
          for (let n = 0; n < end; n++) {
            const shapeRe = rz[2 * n] as number;
            const shapeIm = rz[2 * n + 1] as number;
            zRe += (gRe[n] as number) * shapeRe - (gIm[n] as number) * shapeIm;
            zIm += (gRe[n] as number) * shapeIm + (gIm[n] as number) * shapeRe;
          }
          const cRe = rx[2 * l] as number;
          const cIm = rx[2 * l + 1] as number;
          const dRe = ry[2 * m] as number;
          const dIm = ry[2 * m + 1] as number;
          const tRe = cRe * dRe - cIm * dIm;
          const tIm = cRe * dIm + cIm * dRe;
          const wRe = sRe * tRe - sIm * tIm;
          const wIm = sRe * tIm + sIm * tRe;
          totals[2 * r] = (totals[2 * r] as number) + wRe * zRe - wIm * zIm;
          totals[2 * r + 1] = (totals[2 * r + 1] as number) + wRe * zIm + wIm * zRe;
        }
      }
    }
    const scale = 2 * Math.PI * f_hz * density_kg_m3;
    into.forEach((transfer, r) => {
      transfer.re[index] = -scale * (totals[2 * r + 1] as number);
      transfer.im[index] = scale * (totals[2 * r] as number);
    });
  };
}

/** Chebyshev points of the first kind between two frequencies, ascending. */
function chebyshev(low: number, high: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (Math.PI * (2 * (count - i) - 1)) / (2 * count);
    return (low + high) / 2 + ((high - low) / 2) * Math.cos(angle);
  });
}

/**
 * Adds the polynomial through values at `nodes` to values at `at`: a matrix made once.
 * @source Berrut & Trefethen, SIAM Review 46 (2004) 501, barycentric interpolation, weights of Chebyshev points of the first kind
 */
function barycentric(
  nodes: readonly number[],
  at: readonly number[],
): (from: Transfer, onto: Transfer) => void {
  const n = nodes.length;
  const matrix = new Float64Array(at.length * n);
  at.forEach((f, row) => {
    const terms = nodes.map((node, i) => {
      const angle = (Math.PI * (2 * (n - i) - 1)) / (2 * n);
      return ((i % 2 === 0 ? 1 : -1) * Math.sin(angle)) / (f - node);
    });
    const hit = nodes.indexOf(f);
    const total = terms.reduce((sum, term) => sum + term, 0);
    terms.forEach((term, i) => {
      matrix[row * n + i] = 0 <= hit ? (i === hit ? 1 : 0) : term / total;
    });
  });
  return (from, onto) => {
    for (let row = 0; row < at.length; row++) {
      let re = 0;
      let im = 0;
      for (let i = 0; i < n; i++) {
        re += (matrix[row * n + i] as number) * (from.re[i] as number);
        im += (matrix[row * n + i] as number) * (from.im[i] as number);
      }
      onto.re[row] = (onto.re[row] as number) + re;
      onto.im[row] = (onto.im[row] as number) + im;
    }
  };
}
