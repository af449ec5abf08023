// The lowest eigenpairs of K v = λ M v, K positive semidefinite, M positive definite: Lanczos on the inverse, shifted into their midst.

import { factor, multiply, narrowOrder, type SymmetricMatrix } from './sparse.ts';
import { tridiagonalPairs } from './tridiagonal.ts';
import { dot, scale, subtract } from './vectors.ts';

export interface EigenPairs {
  /** λ, ascending. */
  readonly value: Float64Array;
  /** By mode, then by unknown; vᵀ M v = 1. */
  readonly vector: readonly Float64Array[];
  /** Solves (K − sM) x = b in place, s somewhere among the eigenvalues. */
  readonly solve: (b: Float64Array) => void;
}

/** Residual of a wanted pair, relative to its distance from the shift: far below the elements' own error. */
const TOLERANCE = 1e-7;
/** Where the shift lies, as a share of the limit. */
const SHIFT = 0.617;
/** The small problem costs the square of the steps: it is first looked at after this many steps a wanted pair, then now and then. */
const FIRST_LOOK = 1.2;
const LOOK_AGAIN = 1.06;

/**
 * All eigenpairs up to `limit`, by Lanczos with full reorthogonalisation on (K − sM)⁻¹M. That none below s is missing is seen from
 * the signs of the pivots.
 *
 * @param limit highest eigenvalue wanted
 * @param expected about how many there are: where the search begins; it goes on until the limit is passed
 * @source Ericsson & Ruhe, Math. Comp. 35 (1980) 1251 (spectral transformation Lanczos)
 */
export function lowestModes(
  k: SymmetricMatrix,
  m: SymmetricMatrix,
  limit: number,
  expected: number,
): EigenPairs {
  const n = k.size;
  if (k.column.length !== m.column.length)
    throw new RangeError('stiffness and mass must have their entries in the same places');
  // Above the middle: eigenvalues are denser towards the limit. Hardly ever one of them, and then only to so many digits.
  const shift = SHIFT * limit;
  const value = Float64Array.from(k.value, (entry, at) => entry - shift * (m.value[at] ?? 0));
  const { solve, negativeCount } = factor({ ...k, value }, narrowOrder(k));
  const most = Math.min(n, 40 + 4 * expected);
  const basis: Float64Array[] = [];
  const images: Float64Array[] = []; // M × basis
  const diagonal: number[] = [];
  const beside: number[] = [];
  let v = startVector(n);
  let mv = new Float64Array(n);
  multiply(m, v, mv);
  let size = Math.sqrt(dot(v, mv));
  let nextLook = Math.ceil(FIRST_LOOK * expected) + 12;
  for (let step = 0; step < most; step++) {
    scale(v, 1 / size);
    scale(mv, 1 / size);
    basis.push(v);
    images.push(mv);
    const w = mv.slice();
    solve(w);
    // The recurrence first; what rounding leaves of the older directions is small, so that one sweep over them is enough.
    const alpha = dot(w, mv);
    subtract(w, alpha, v);
    const before = basis[step - 1];
    if (before) subtract(w, size, before);
    for (let i = step; 0 <= i; i--)
      subtract(w, dot(w, images[i] as Float64Array), basis[i] as Float64Array);
    diagonal.push(alpha);
    mv = new Float64Array(n);
    multiply(m, w, mv);
    size = Math.sqrt(Math.max(0, dot(w, mv)));
    v = w;
    const last = step === most - 1 || size < 1e-14;
    if (last || nextLook <= step) {
      nextLook = Math.ceil(step * LOOK_AGAIN);
      const seen = ritz(diagonal, beside, size, shift, limit);
      const wanted = seen.filter(({ lambda }) => lambda <= limit);
      const beyond = seen.some(({ lambda, settled }) => limit < lambda && settled);
      const below = seen.filter(({ lambda }) => lambda < shift).length;
      if (last || (beyond && below === negativeCount && wanted.every(({ settled }) => settled)))
        return { ...assemble(diagonal, beside, shift, limit, basis), solve };
    }
    beside.push(size);
  }
  throw new RangeError('no eigenpairs: an empty matrix');
}

/** Approximate eigenvalues, and whether each is as good as it needs to be: by the last row of the small eigenvectors. */
function ritz(
  diagonal: readonly number[],
  beside: readonly number[],
  size: number,
  shift: number,
  limit: number,
): readonly { readonly lambda: number; readonly settled: boolean }[] {
  const { value, vector } = tridiagonalPairs(diagonal, beside, [diagonal.length - 1]);
  return Array.from(value, (theta, i) => ({
    lambda: lambdaOf(theta, shift, limit),
    settled: Math.abs(size * (vector[i]?.[0] ?? 0)) < TOLERANCE * Math.abs(theta),
  }));
}

/** λ = s + 1/θ; what lies far below 0 is no eigenvalue but θ still on its way to 0 from below, and means one far above. */
function lambdaOf(theta: number, shift: number, limit: number): number {
  const lambda = shift + 1 / theta;
  return lambda < -1e-3 * limit ? Number.POSITIVE_INFINITY : lambda;
}

function assemble(
  diagonal: readonly number[],
  beside: readonly number[],
  shift: number,
  limit: number,
  basis: readonly Float64Array[],
): Omit<EigenPairs, 'solve'> {
  const all = tridiagonalPairs(diagonal, beside, [...diagonal.keys()]);
  const pairs = Array.from(all.value, (theta, i) => ({
    lambda: lambdaOf(theta, shift, limit),
    weights: all.vector[i] as Float64Array,
  }))
    .filter(({ lambda }) => lambda <= limit)
    .sort((one, other) => one.lambda - other.lambda);
  const vector = pairs.map(({ weights }) => {
    const sum = new Float64Array(basis[0]?.length ?? 0);
    weights.forEach((weight, i) => {
      subtract(sum, -weight, basis[i] as Float64Array);
    });
    return sum;
  });
  return { value: Float64Array.from(pairs, ({ lambda }) => Math.max(0, lambda)), vector };
}

/** The same for every run: a fixed sequence that is orthogonal to nothing in particular (golden-ratio rotation). */
function startVector(n: number): Float64Array {
  return Float64Array.from({ length: n }, (_, i) => 0.5 + ((i * 0.6180339887498949) % 1));
}
