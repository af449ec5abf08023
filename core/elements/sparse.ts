// Symmetric sparse matrices: built from elements, renumbered for a narrow profile, factored inside it.

/** Lower triangle by rows: row i holds columns `column[start[i] … start[i+1])`, ascending, the diagonal last. */
export interface SymmetricMatrix {
  readonly size: number;
  readonly start: Int32Array;
  readonly column: Int32Array;
  readonly value: Float64Array;
}

/** Collects element contributions; both triangles may be given, the upper one is left out. */
export interface MatrixBuilder {
  readonly add: (row: number, column: number, value: number) => void;
  readonly build: () => SymmetricMatrix;
}

export function matrixBuilder(size: number): MatrixBuilder {
  const rows: Map<number, number>[] = Array.from({ length: size }, (_, i) => new Map([[i, 0]]));
  return {
    add: (row, column, value) => {
      if (row < column) return;
      const entries = rows[row];
      entries?.set(column, (entries.get(column) ?? 0) + value);
    },
    build: () => {
      const count = rows.reduce((sum, row) => sum + row.size, 0);
      const start = new Int32Array(size + 1);
      const column = new Int32Array(count);
      const value = new Float64Array(count);
      let at = 0;
      rows.forEach((row, i) => {
        start[i] = at;
        for (const [j, entry] of [...row].sort(([one], [other]) => one - other)) {
          column[at] = j;
          value[at++] = entry;
        }
      });
      start[size] = at;
      return { size, start, column, value };
    },
  };
}

/** y = A x. */
export function multiply(a: SymmetricMatrix, x: Float64Array, y: Float64Array): void {
  y.fill(0);
  for (let i = 0; i < a.size; i++) {
    const xi = x[i] as number;
    let sum = 0;
    for (let at = a.start[i] as number; at < (a.start[i + 1] as number); at++) {
      const j = a.column[at] as number;
      const entry = a.value[at] as number;
      sum += entry * (x[j] as number);
      if (j !== i) y[j] = (y[j] as number) + entry * xi;
    }
    y[i] = (y[i] as number) + sum;
  }
}

/**
 * A new order of the rows with a narrow profile.
 *
 * @returns `order[new] = old`
 * @source Cuthill & McKee 1969, reversed after George 1971
 */
export function narrowOrder(a: SymmetricMatrix): Int32Array {
  const neighbours: number[][] = Array.from({ length: a.size }, () => []);
  for (let i = 0; i < a.size; i++)
    for (let at = a.start[i] as number; at < (a.start[i + 1] as number); at++) {
      const j = a.column[at] as number;
      if (j === i) continue;
      neighbours[i]?.push(j);
      neighbours[j]?.push(i);
    }
  const degree = (i: number) => neighbours[i]?.length ?? 0;
  const order: number[] = [];
  const seen = new Uint8Array(a.size);
  const sweep = (from: number, into: number[], mark: Uint8Array) => {
    const first = into.length;
    into.push(from);
    mark[from] = 1;
    for (let at = first; at < into.length; at++) {
      const next = (neighbours[into[at] ?? 0] ?? []).filter((j) => !mark[j]);
      next.sort((one, other) => degree(one) - degree(other));
      for (const j of next) {
        mark[j] = 1;
        into.push(j);
      }
    }
  };
  for (let i = 0; i < a.size; i++) {
    if (seen[i]) continue;
    // The last node of a sweep lies far out: a good place to begin; twice is enough.
    let from = i;
    for (let round = 0; round < 2; round++) {
      const trial: number[] = [];
      sweep(from, trial, seen.slice());
      from = trial[trial.length - 1] ?? i;
    }
    sweep(from, order, seen);
  }
  return Int32Array.from(order.reverse());
}

/** A factored matrix. */
export interface Factored {
  /** Solves A x = b in place. */
  readonly solve: (b: Float64Array) => void;
  /** How many eigenvalues lie below zero. */
  readonly negativeCount: number;
}

/**
 * LDLᵀ within the profile of a symmetric matrix, without pivoting, in a narrow order of its own.
 *
 * @source Jennings, Matrix Computation for Engineers and Scientists (profile storage); Sylvester's law of inertia for the count
 * @throws RangeError where a pivot is nothing: the matrix is singular
 */
export function factor(a: SymmetricMatrix, order: Int32Array): Factored {
  const n = a.size;
  const place = new Int32Array(n);
  order.forEach((old, i) => {
    place[old] = i;
  });
  const first = Int32Array.from({ length: n }, (_, i) => i);
  each(a, place, (i, j) => {
    if (j < (first[i] as number)) first[i] = j;
  });
  // Where row i would hold column 0. Integers all along: indices in floating point are several times as slow.
  const base = new Int32Array(n);
  let length = 0;
  for (let i = 0; i < n; i++) {
    base[i] = length - (first[i] as number);
    length += i - (first[i] as number) + 1;
  }
  const l = new Float64Array(length);
  each(a, place, (i, j, value) => {
    l[(base[i] as number) + j] = value;
  });
  const pivots = eliminate(l, base, first);
  const x = new Float64Array(n);
  return {
    negativeCount: pivots.reduce((count, pivot) => (pivot < 0 ? count + 1 : count), 0),
    solve: (b) => {
      for (let i = 0; i < n; i++) x[i] = b[order[i] as number] as number;
      substitute(l, base, first, pivots, x);
      for (let i = 0; i < n; i++) b[order[i] as number] = x[i] as number;
    },
  };
}

/** Turns the rows into L's, in place; the pivots are D. */
function eliminate(l: Float64Array, base: Int32Array, first: Int32Array): Float64Array {
  const n = base.length;
  const pivots = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const rowI = base[i] as number;
    const firstI = first[i] as number;
    for (let j = firstI; j < i; j++) {
      const rowJ = base[j] as number;
      const from = Math.max(firstI, first[j] as number);
      l[rowI + j] = (l[rowI + j] as number) - product(l, rowI + from, l, rowJ + from, j - from);
    }
    let pivot = l[rowI + i] as number;
    for (let j = firstI; j < i; j++) {
      const value = l[rowI + j] as number;
      const scaled = value / (pivots[j] as number);
      pivot -= value * scaled;
      l[rowI + j] = scaled;
    }
    if (pivot === 0 || Number.isNaN(pivot)) throw new RangeError(`singular at row ${i}`);
    pivots[i] = pivot;
  }
  return pivots;
}

function substitute(
  l: Float64Array,
  base: Int32Array,
  first: Int32Array,
  pivots: Float64Array,
  x: Float64Array,
): void {
  const n = base.length;
  for (let i = 0; i < n; i++) {
    const from = first[i] as number;
    x[i] = (x[i] as number) - product(l, (base[i] as number) + from, x, from, i - from);
  }
  for (let i = 0; i < n; i++) x[i] = (x[i] as number) / (pivots[i] as number);
  for (let i = n - 1; 0 <= i; i--) {
    const from = first[i] as number;
    takeAway(x, from, l, (base[i] as number) + from, i - from, x[i] as number);
  }
}

/** Σ one[i + …] other[j + …] over `count` places: four sums side by side, since a single one would wait for each addition. */
function product(
  one: Float64Array,
  i: number,
  other: Float64Array,
  j: number,
  count: number,
): number {
  const whole = count - (count % 4);
  let [s0, s1, s2, s3] = [0, 0, 0, 0];
  for (let k = 0; k < whole; k += 4) {
    s0 += (one[i + k] as number) * (other[j + k] as number);
    s1 += (one[i + k + 1] as number) * (other[j + k + 1] as number);
    s2 += (one[i + k + 2] as number) * (other[j + k + 2] as number);
    s3 += (one[i + k + 3] as number) * (other[j + k + 3] as number);
  }
  for (let k = whole; k < count; k++) s0 += (one[i + k] as number) * (other[j + k] as number);
  return s0 + s1 + (s2 + s3);
}

/** one[i + …] −= times × other[j + …] over `count` places. */
function takeAway(
  one: Float64Array,
  i: number,
  other: Float64Array,
  j: number,
  count: number,
  times: number,
): void {
  for (let k = 0; k < count; k++)
    one[i + k] = (one[i + k] as number) - (other[j + k] as number) * times;
}

/** Every entry of the lower triangle in the new order. */
function each(
  a: SymmetricMatrix,
  place: Int32Array,
  visit: (row: number, column: number, value: number) => void,
): void {
  for (let i = 0; i < a.size; i++)
    for (let at = a.start[i] as number; at < (a.start[i + 1] as number); at++) {
      const one = place[i] as number;
      const other = place[a.column[at] as number] as number;
      visit(Math.max(one, other), Math.min(one, other), a.value[at] as number);
    }
}
