// Complex Fourier transforms of any power of two: small ones by a library, large ones in small ones.
//
// The library's tables for a million samples take longer to make than several transforms. Split into rows and columns of a thousand, as
// quick a transform needs tables of a thousandth.

import FFT from 'fft.js';

export interface ComplexTransform {
  /** Forward with e^{−jωt}; interleaved [re, im]; what is written first is another array than what is read. */
  readonly transform: (spectrum: Float64Array, signal: Float64Array) => void;
  /** The inverse, divided by the count. */
  readonly inverseTransform: (signal: Float64Array, spectrum: Float64Array) => void;
}

/** Up to here one transform fits a cache with its tables. */
const LARGEST_SMALL = 2 ** 16;
/** Columns that are taken at once: of each page of memory that is looked at, so much is used. */
const TOGETHER = 32;

/** @param count complex numbers, a power of two */
export function complexTransform(count: number): ComplexTransform {
  return count <= LARGEST_SMALL ? new FFT(count) : splitTransform(count);
}

/**
 * n = columns · a + b, k = k₁ + rows · k₂: X[k] = Σ_b w_columns^(b k₂) · w^(b k₁) · Σ_a x[n] w_rows^(a k₁)
 *
 * @source Bailey, FFTs in external or hierarchical memory, J. Supercomputing 4 (1990) 23–35
 */
function splitTransform(size: number): ComplexTransform {
  const bits = Math.round(Math.log2(size));
  const rows = 2 ** Math.ceil(bits / 2);
  const columns = size / rows;
  const ofColumn = new FFT(rows);
  const ofRow = columns === rows ? ofColumn : new FFT(columns);
  const turns = createTurns(size);
  const work = new Float64Array(2 * size);
  const given = apart(rows);
  const made = apart(rows);

  function columnsOf(data: Float64Array, isInverse: boolean): void {
    for (let first = 0; first < columns; first += TOGETHER) {
      for (let a = 0; a < rows; a++)
        copyOut(data, 2 * (a * columns + first), given.all, 2 * a, given.apart);
      for (let c = 0; c < TOGETHER; c++) {
        const [from, to] = [given.each[c] as Float64Array, made.each[c] as Float64Array];
        if (isInverse) ofColumn.inverseTransform(to, from);
        else ofColumn.transform(to, from);
        turns.turn(to, first + c, isInverse);
      }
      for (let k = 0; k < rows; k++)
        copyIn(made.all, 2 * k, made.apart, work, 2 * (k * columns + first));
    }
  }

  function rowsOf(out: Float64Array, isInverse: boolean): void {
    for (let first = 0; first < rows; first += TOGETHER) {
      for (let r = 0; r < TOGETHER; r++) {
        const from = work.subarray(2 * (first + r) * columns, 2 * (first + r + 1) * columns);
        const to = made.each[r] as Float64Array;
        if (isInverse) ofRow.inverseTransform(to, from);
        else ofRow.transform(to, from);
      }
      for (let k = 0; k < columns; k++)
        copyIn(made.all, 2 * k, made.apart, out, 2 * (k * rows + first));
    }
  }

  return {
    transform: (out, data) => {
      columnsOf(data, false);
      rowsOf(out, false);
    },
    inverseTransform: (out, data) => {
      columnsOf(data, true);
      rowsOf(out, true);
    },
  };
}

/** Several arrays of complex numbers, one behind the other. */
function apart(size: number): {
  readonly all: Float64Array;
  readonly each: readonly Float64Array[];
  /** Numbers from one to the next: no power of two, lest they fall on one place of the cache. */
  readonly apart: number;
} {
  const apart = 2 * size + TOGETHER;
  const all = new Float64Array(apart * TOGETHER);
  const each = Array.from({ length: TOGETHER }, (_, i) =>
    all.subarray(apart * i, apart * i + 2 * size),
  );
  return { all, each, apart };
}

/** Neighbours, each to the same place of a part of its own. */
function copyOut(
  data: Float64Array,
  from: number,
  parts: Float64Array,
  to: number,
  apart: number,
): void {
  for (let c = 0; c < TOGETHER; c++) {
    parts[to + c * apart] = data[from + 2 * c] as number;
    parts[to + c * apart + 1] = data[from + 2 * c + 1] as number;
  }
}

function copyIn(
  parts: Float64Array,
  from: number,
  apart: number,
  data: Float64Array,
  to: number,
): void {
  for (let c = 0; c < TOGETHER; c++) {
    data[to + 2 * c] = parts[from + c * apart] as number;
    data[to + 2 * c + 1] = parts[from + c * apart + 1] as number;
  }
}

interface Turns {
  /** Multiplies the k-th number by w^(b k), or by its conjugate. */
  readonly turn: (column: Float64Array, b: number, isInverse: boolean) => void;
}

/** e^{−j2πm/size} from two small tables: m = fine + steps · coarse. */
function createTurns(size: number): Turns {
  const steps = 2 ** Math.floor(Math.log2(size) / 2);
  const table = (count: number, step: number): Float64Array => {
    const values = new Float64Array(2 * count);
    for (let i = 0; i < count; i++) {
      values[2 * i] = Math.cos((2 * Math.PI * i * step) / size);
      values[2 * i + 1] = -Math.sin((2 * Math.PI * i * step) / size);
    }
    return values;
  };
  const fine = table(steps, 1);
  const coarse = table(size / steps, steps);
  const mask = steps - 1;
  const bits = Math.log2(steps);
  return {
    turn(column, b, isInverse) {
      const sign = isInverse ? -1 : 1;
      for (let k = 0, m = 0; 2 * k < column.length; k++, m += b) {
        const f = 2 * (m & mask);
        const c = 2 * (m >> bits);
        const fRe = fine[f] as number;
        const fIm = fine[f + 1] as number;
        const cRe = coarse[c] as number;
        const cIm = coarse[c + 1] as number;
        const turnRe = fRe * cRe - fIm * cIm;
        const turnIm = sign * (fRe * cIm + fIm * cRe);
        const re = column[2 * k] as number;
        const im = column[2 * k + 1] as number;
        column[2 * k] = re * turnRe - im * turnIm;
        column[2 * k + 1] = re * turnIm + im * turnRe;
      }
    },
  };
}
