// Complex Fourier transforms of any power of two: small ones by a library, large ones in small ones.
//
// The library's tables for a million samples take longer to make than several transforms. Split into rows and columns of a thousand, as
// quick a transform needs tables of a thousandth.

import FFT from 'fft.js';

export interface ComplexTransform {
  /** Forward with e^{−jωt}; interleaved [re, im]; what is read is written over, and is another array than the answer. */
  readonly transform: (spectrum: Float64Array, signal: Float64Array) => void;
  /** The inverse, divided by the count. */
  readonly inverseTransform: (signal: Float64Array, spectrum: Float64Array) => void;
}

/** Up to here one transform fits a cache with its tables. */
const LARGEST_SMALL = 2 ** 14;
/** Columns that are taken at once: of each page of memory that is looked at, so much is used. */
const TOGETHER = 32;

/** @param count complex numbers, a power of two */
export function complexTransform(count: number): ComplexTransform {
  return count <= LARGEST_SMALL ? new FFT(count) : splitTransform(count);
}

/**
 * n = columns · a + b, k = k₁ + rows · k₂: X[k] = Σ_b w_columns^(b k₂) · w^(b k₁) · Σ_a x[n] w_rows^(a k₁)
 *
 * The inverse is the same with real and imaginary parts exchanged on the way in and on the way out.
 *
 * @source Bailey, FFTs in external or hierarchical memory, J. Supercomputing 4 (1990) 23–35
 */
function splitTransform(size: number): ComplexTransform {
  const bits = Math.round(Math.log2(size));
  const rows = 2 ** Math.ceil(bits / 2);
  const columns = size / rows;
  const ofColumn = new FFT(rows);
  const ofRow = columns === rows ? ofColumn : new FFT(columns);
  const turns = turnsOf(size);
  const given = apart(rows);
  const made = apart(rows);

  function columnsOf(data: Float64Array, isInverse: boolean): void {
    for (let first = 0; first < columns; first += TOGETHER) {
      for (let a = 0; a < rows; a++)
        copyOut(data, 2 * (a * columns + first), given, 2 * a, isInverse);
      for (let c = 0; c < TOGETHER; c++) ofColumn.transform(partOf(made, c), partOf(given, c));
      for (let k = 0; k < rows; k++)
        copyTurned(made, 2 * k, data, 2 * (k * columns + first), turns, k * first, k);
    }
  }

  function rowsOf(out: Float64Array, data: Float64Array, isInverse: boolean): void {
    for (let first = 0; first < rows; first += TOGETHER) {
      for (let r = 0; r < TOGETHER; r++) {
        const from = data.subarray(2 * (first + r) * columns, 2 * (first + r + 1) * columns);
        ofRow.transform(partOf(made, r), from);
      }
      for (let k = 0; k < columns; k++)
        if (isInverse) copyExchanged(made, 2 * k, out, 2 * (k * rows + first), 1 / size);
        else copyIn(made, 2 * k, out, 2 * (k * rows + first));
    }
  }

  return {
    transform: (out, data) => {
      columnsOf(data, false);
      rowsOf(out, data, false);
    },
    inverseTransform: (out, data) => {
      columnsOf(data, true);
      rowsOf(out, data, true);
    },
  };
}

/** Several arrays of complex numbers, one behind the other. */
interface Parts {
  readonly all: Float64Array;
  readonly each: readonly Float64Array[];
  /** Numbers from one to the next: no power of two, lest they fall on one place of the cache. */
  readonly apart: number;
}

function apart(size: number): Parts {
  const apart = 2 * size + TOGETHER;
  const all = new Float64Array(apart * TOGETHER);
  const each = Array.from({ length: TOGETHER }, (_, i) =>
    all.subarray(apart * i, apart * i + 2 * size),
  );
  return { all, each, apart };
}

function partOf({ each }: Parts, index: number): Float64Array {
  return each[index] as Float64Array;
}

/** Neighbours, each to the same place of a part of its own. */
function copyOut(
  data: Float64Array,
  from: number,
  { all, apart }: Parts,
  to: number,
  isExchanged: boolean,
): void {
  const first = isExchanged ? 1 : 0;
  for (let c = 0, i = from, j = to; c < TOGETHER; c++, i += 2, j += apart) {
    all[j] = data[i + first] as number;
    all[j + 1] = data[i + 1 - first] as number;
  }
}

function copyIn({ all, apart }: Parts, from: number, data: Float64Array, to: number): void {
  for (let c = 0, i = from, j = to; c < TOGETHER; c++, i += apart, j += 2) {
    data[j] = all[i] as number;
    data[j + 1] = all[i + 1] as number;
  }
}

function copyExchanged(
  { all, apart }: Parts,
  from: number,
  data: Float64Array,
  to: number,
  gain: number,
): void {
  for (let c = 0, i = from, j = to; c < TOGETHER; c++, i += apart, j += 2) {
    data[j] = gain * (all[i + 1] as number);
    data[j + 1] = gain * (all[i] as number);
  }
}

/** As `copyIn`; the first is turned by w^start, each next one by w^step more. */
function copyTurned(
  { all, apart }: Parts,
  from: number,
  data: Float64Array,
  to: number,
  { fine, coarse, mask, bits }: Turns,
  start: number,
  step: number,
): void {
  for (let c = 0, i = from, j = to, m = start; c < TOGETHER; c++, i += apart, j += 2, m += step) {
    const f = 2 * (m & mask);
    const g = 2 * (m >> bits);
    const fRe = fine[f] as number;
    const fIm = fine[f + 1] as number;
    const cRe = coarse[g] as number;
    const cIm = coarse[g + 1] as number;
    const turnRe = fRe * cRe - fIm * cIm;
    const turnIm = fRe * cIm + fIm * cRe;
    const re = all[i] as number;
    const im = all[i + 1] as number;
    data[j] = re * turnRe - im * turnIm;
    data[j + 1] = re * turnIm + im * turnRe;
  }
}

/** e^{−j2πm/size} from two small tables: m = fine + steps · coarse. */
interface Turns {
  readonly fine: Float64Array;
  readonly coarse: Float64Array;
  readonly mask: number;
  readonly bits: number;
}

function turnsOf(size: number): Turns {
  const steps = 2 ** Math.floor(Math.log2(size) / 2);
  const table = (count: number, step: number): Float64Array => {
    const values = new Float64Array(2 * count);
    for (let i = 0; i < count; i++) {
      values[2 * i] = Math.cos((2 * Math.PI * i * step) / size);
      values[2 * i + 1] = -Math.sin((2 * Math.PI * i * step) / size);
    }
    return values;
  };
  return {
    fine: table(steps, 1),
    coarse: table(size / steps, steps),
    mask: steps - 1,
    bits: Math.log2(steps),
  };
}
