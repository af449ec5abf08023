// Symmetric sparse matrices: built from elements, renumbered for a narrow profile, factored by Cholesky inside it.

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

/** Solves A x = b in place. */
export type Solve = (b: Float64Array) => void;

/**
 * Cholesky factor within the profile of a symmetric positive definite matrix, in a narrow order of its own.
 *
 * @throws RangeError where the matrix is not positive definite
 */
export function factor(a: SymmetricMatrix, order: Int32Array): Solve {
  const n = a.size;
  const place = new Int32Array(n);
  order.forEach((old, i) => {
    place[old] = i;
  });
  const first = Int32Array.from({ length: n }, (_, i) => i);
  each(a, place, (i, j) => {
    if (j < (first[i] as number)) first[i] = j;
  });
  const offset = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) offset[i + 1] = (offset[i] as number) + i - (first[i] as number) + 1;
  const l = new Float64Array(offset[n] as number);
  /** Where row i would hold column 0. */
  const base = Float64Array.from(
    { length: n },
    (_, i) => (offset[i] as number) - (first[i] as number),
  );
  each(a, place, (i, j, value) => {
    l[(base[i] as number) + j] = value;
  });
  for (let i = 0; i < n; i++) {
    const rowI = base[i] as number;
    const firstI = first[i] as number;
    for (let j = firstI; j < i; j++) {
      const rowJ = base[j] as number;
      const from = Math.max(firstI, first[j] as number);
      let sum = l[rowI + j] as number;
      for (let k = from; k < j; k++) sum -= (l[rowI + k] as number) * (l[rowJ + k] as number);
      l[rowI + j] = sum / (l[rowJ + j] as number);
    }
    let pivot = l[rowI + i] as number;
    for (let k = firstI; k < i; k++) pivot -= (l[rowI + k] as number) ** 2;
    if (!(0 < pivot)) throw new RangeError(`not positive definite at row ${i}`);
    l[rowI + i] = Math.sqrt(pivot);
  }
  const x = new Float64Array(n);
  return (b) => {
    for (let i = 0; i < n; i++) x[i] = b[order[i] as number] as number;
    for (let i = 0; i < n; i++) {
      const row = base[i] as number;
      let sum = x[i] as number;
      for (let k = first[i] as number; k < i; k++) sum -= (l[row + k] as number) * (x[k] as number);
      x[i] = sum / (l[row + i] as number);
    }
    for (let i = n - 1; 0 <= i; i--) {
      const row = base[i] as number;
      const xi = (x[i] as number) / (l[row + i] as number);
      x[i] = xi;
      for (let k = first[i] as number; k < i; k++)
        x[k] = (x[k] as number) - (l[row + k] as number) * xi;
    }
    for (let i = 0; i < n; i++) b[order[i] as number] = x[i] as number;
  };
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
