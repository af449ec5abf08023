// Eigenvalues of a symmetric tridiagonal matrix, with as many rows of its eigenvectors as are asked for.

export interface TridiagonalPairs {
  readonly value: Float64Array;
  /** By eigenvalue: its eigenvector's wanted rows. */
  readonly vector: readonly Float64Array[];
}

/** A matrix this well behaved needs two sweeps an eigenvalue. */
const MOST_SWEEPS = 60;

/**
 * Implicit QL. A row of all eigenvectors costs n² operations, so that looking at the last row alone is cheap.
 *
 * @param diagonal n values
 * @param beside n − 1 values
 * @param rows which rows of the eigenvectors are wanted
 * @returns in no order
 * @throws RangeError where it does not converge: not a number among the values
 * @source Martin & Wilkinson, Numer. Math. 12 (1968) 377 (imtql2)
 */
export function tridiagonalPairs(
  diagonal: readonly number[],
  beside: readonly number[],
  rows: readonly number[],
): TridiagonalPairs {
  const n = diagonal.length;
  const d = Float64Array.from(diagonal);
  const e = Float64Array.from({ length: n }, (_, i) => (i < n - 1 ? (beside[i] ?? 0) : 0));
  // By column, so that a rotation runs along memory.
  const z = Array.from({ length: n }, (_, i) =>
    Float64Array.from(rows, (row) => (row === i ? 1 : 0)),
  );
  for (let l = 0; l < n; l++) {
    for (let sweep = 0; ; sweep++) {
      const m = splitFrom(d, e, l);
      if (m === l) break;
      if (MOST_SWEEPS < sweep) throw new RangeError('eigenvalues do not converge');
      qlSweep(d, e, z, l, m);
    }
  }
  return { value: d, vector: z };
}

/** Where the matrix falls apart first, from row l on. */
function splitFrom(d: Float64Array, e: Float64Array, l: number): number {
  for (let m = l; m < d.length - 1; m++) {
    const size = Math.abs(d[m] as number) + Math.abs(d[m + 1] as number);
    if (Math.abs(e[m] as number) <= Number.EPSILON * size) return m;
  }
  return d.length - 1;
}

function qlSweep(d: Float64Array, e: Float64Array, z: Float64Array[], l: number, m: number): void {
  const el = e[l] as number;
  let g = ((d[l + 1] as number) - (d[l] as number)) / (2 * el);
  const root = Math.hypot(g, 1);
  g = (d[m] as number) - (d[l] as number) + el / (g + (g < 0 ? -root : root));
  let s = 1;
  let c = 1;
  let p = 0;
  for (let i = m - 1; l <= i; i--) {
    const f = s * (e[i] as number);
    const b = c * (e[i] as number);
    const r = Math.sqrt(f * f + g * g);
    e[i + 1] = r;
    if (r === 0) {
      d[i + 1] = (d[i + 1] as number) - p;
      e[m] = 0;
      return;
    }
    s = f / r;
    c = g / r;
    const next = (d[i + 1] as number) - p;
    const t = ((d[i] as number) - next) * s + 2 * c * b;
    p = s * t;
    d[i + 1] = next + p;
    g = c * t - b;
    rotate(z[i] as Float64Array, z[i + 1] as Float64Array, c, s);
  }
  d[l] = (d[l] as number) - p;
  e[l] = g;
  e[m] = 0;
}

function rotate(one: Float64Array, other: Float64Array, c: number, s: number): void {
  for (let k = 0; k < one.length; k++) {
    const f = other[k] as number;
    const here = one[k] as number;
    other[k] = s * here + c * f;
    one[k] = c * here - s * f;
  }
}
