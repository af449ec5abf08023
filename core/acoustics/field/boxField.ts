// The field of a box room at many frequencies: made ready once, then asked for transfers from moving sources.
//
// The grid is cut into bands. In each, exact modes to a third of an octave above the band are summed at every frequency; what all
// higher modes add varies so slowly that it is worked out exactly at a few frequencies (Chebyshev points) and interpolated. Nothing
// is truncated silently, and low frequencies do not pay for the many modes of the high ones.

import { type AxisModes, axisModes } from './axisModes.ts';
import { type Box, type Medium, preparedTransfer } from './boxTransfer.ts';
import { chebyshevPoints, interpolation } from './chebyshev.ts';
import {
  heightSums,
  type ModalSlice,
  type ModeSet,
  modalSlice,
  modesBelow,
  type Place,
  planSum,
  type ReceiverShapes,
  receiverShapes,
} from './modalSum.ts';

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

/** Highest over lowest frequency of a band. */
const BAND_RATIO = 2;
/** Modes are summed to this many times a band's highest frequency; above it they only bend the remainder gently. */
const MODES_BEYOND = 1.3;
/** Chebyshev points for a band's remainder: these leave less than 0.01 dB (measured against the exact transfer). */
const REMAINDER_POINTS = 5;
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
  const bands = bandsOf(frequency_hz).map(({ from, to }) =>
    prepareBand(boxAt, medium, frequency_hz.slice(from, to), from),
  );
  return {
    frequency_hz,
    listenAt: (receivers_m) => {
      const listening = bands.map((band) => listenInBand(band, receivers_m));
      return (source_m) => {
        const out = receivers_m.map(() => ({
          re: new Float64Array(frequency_hz.length),
          im: new Float64Array(frequency_hz.length),
        }));
        for (const fill of listening) fill(source_m, out);
        return out;
      };
    },
  };
}

interface Band {
  /** Where its first frequency stands in the whole grid. */
  readonly from: number;
  readonly set: ModeSet;
  readonly slices: readonly ModalSlice[];
  /** The same and the exact transfer at the remainder's points. */
  readonly nodes: readonly {
    readonly slice: ModalSlice;
    readonly exact: ReturnType<typeof preparedTransfer>;
  }[];
  readonly matrix: Float64Array;
}

function bandsOf(frequency_hz: readonly number[]): { from: number; to: number }[] {
  const bands: { from: number; to: number }[] = [];
  let to = frequency_hz.length;
  while (0 < to) {
    const least_hz = (frequency_hz[to - 1] ?? 0) / BAND_RATIO;
    let from = to - 1;
    while (0 < from && least_hz < (frequency_hz[from - 1] ?? 0)) from--;
    // A band of hardly any frequencies costs more to prepare than it saves.
    if (from < REMAINDER_POINTS) from = 0;
    bands.unshift({ from, to });
    to = from;
  }
  return bands;
}

function prepareBand(
  boxAt: (frequency_hz: number) => Box,
  medium: Medium,
  frequency_hz: readonly number[],
  from: number,
): Band {
  const low_hz = frequency_hz[0] ?? 20;
  const high_hz = Math.max(frequency_hz[frequency_hz.length - 1] ?? low_hz, low_hz * 1.01);
  const c = medium.speedOfSound_m_s;
  const lengths_m = boxAt(high_hz).map(({ length_m }) => length_m);
  const set = modesBelow(lengths_m, (2 * Math.PI * high_hz * MODES_BEYOND) / c);
  const points_hz = chebyshevPoints(low_hz, high_hz, REMAINDER_POINTS);
  const wanted = [...frequency_hz, ...points_hz].map((f_hz, index) => ({ f_hz, index }));
  const slices: ModalSlice[] = new Array(wanted.length);
  const boxes: Box[] = new Array(wanted.length);
  let before: readonly AxisModes[] = [];
  // Upwards in frequency, each started from the one before: modes move little between neighbours.
  for (const { f_hz, index } of wanted.toSorted((one, other) => one.f_hz - other.f_hz)) {
    const box = boxAt(f_hz);
    const k = (2 * Math.PI * f_hz) / c;
    const of = (axis: 0 | 1 | 2) => axisModes(box[axis], k, set.counts[axis], before[axis] ?? null);
    const axes = [of(0), of(1), of(2)] as const;
    before = axes;
    boxes[index] = box;
    slices[index] = modalSlice(set, axes, k, 2 * Math.PI * f_hz * medium.density_kg_m3);
  }
  const count = frequency_hz.length;
  return {
    from,
    set,
    slices: slices.slice(0, count),
    nodes: points_hz.map((f_hz, i) => ({
      slice: slices[count + i] as ModalSlice,
      exact: preparedTransfer(boxes[count + i] as Box, medium, f_hz),
    })),
    matrix: interpolation(points_hz, frequency_hz),
  };
}

/** Fills a band's part of the transfers. */
function listenInBand(
  { from, set, slices, nodes, matrix }: Band,
  receivers_m: readonly Place[],
): (source_m: Place, out: readonly Transfer[]) => void {
  const shapes = (slice: ModalSlice): readonly ReceiverShapes[] =>
    receivers_m.map((place) => receiverShapes(slice, place));
  const all = [...slices, ...nodes.map(({ slice }) => slice)];
  const heard = all.map(shapes);
  const count = receivers_m.length;
  const sum = new Float64Array(2 * count);
  const rest = new Float64Array(2 * count * nodes.length);
  // A source that is moved over the plan keeps its height, and with it the sums along z.
  const sums = all.map(() => new Float64Array(2 * set.ends.length * count));
  let height_m = Number.NaN;
  const standAt = (z_m: number): void => {
    if (z_m === height_m) return;
    height_m = z_m;
    all.forEach((slice, i) => {
      heightSums(set, slice, z_m, heard[i] ?? [], sums[i] as Float64Array);
    });
  };
  return (source_m, out) => {
    standAt(source_m[2]);
    const sumOf = (index: number) =>
      planSum(set, all[index] as ModalSlice, source_m, sums[index] as Float64Array, count, sum);
    nodes.forEach(({ exact }, node) => {
      sumOf(slices.length + node);
      receivers_m.forEach((receiver_m, r) => {
        const [re, im] = exact(source_m, receiver_m, REMAINDER_NEPERS);
        const at = 2 * (r * nodes.length + node);
        rest[at] = re - (sum[2 * r] as number);
        rest[at + 1] = im - (sum[2 * r + 1] as number);
      });
    });
    slices.forEach((_, i) => {
      sumOf(i);
      out.forEach(({ re, im }, r) => {
        let restRe = 0;
        let restIm = 0;
        for (let node = 0; node < nodes.length; node++) {
          const weight = matrix[i * nodes.length + node] as number;
          restRe += weight * (rest[2 * (r * nodes.length + node)] as number);
          restIm += weight * (rest[2 * (r * nodes.length + node) + 1] as number);
        }
        re[from + i] = (sum[2 * r] as number) + restRe;
        im[from + i] = (sum[2 * r + 1] as number) + restIm;
      });
    });
  };
}
