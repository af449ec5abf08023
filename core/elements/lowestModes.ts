// The lowest eigenpairs of K v = λ M v, K positive semidefinite, M positive definite: Lanczos on the inverse, shifted just below 0.

import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { factor, multiply, narrowOrder, type SymmetricMatrix } from './sparse.ts';

export interface EigenPairs {
  /** λ, ascending. */
  readonly value: Float64Array;
  /** By mode, then by unknown; vᵀ M v = 1. */
  readonly vector: readonly Float64Array[];
}

/** Residual of a wanted pair, relative to its eigenvalue plus the shift: far below the elements' own error. */
const TOLERANCE = 1e-9;
/** The small dense problem costs the cube of the steps: it is first looked at after this many steps a wanted pair, then seldom. */
const FIRST_LOOK = 1.6;
const LOOK_AGAIN = 1.12;

/**
 * All eigenpairs up to `limit`, by Lanczos with full reorthogonalisation on (K + sM)⁻¹M.
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
  // Of the order of the lowest non-zero eigenvalues, so that K + sM is well conditioned and λ = 0 is as easy as the rest.
  const shift = limit / 20;
  const value = Float64Array.from(k.value, (entry, at) => entry + shift * (m.value[at] ?? 0));
  const solve = factor({ ...k, value }, narrowOrder(k));
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
    // Twice is enough (Parlett, The Symmetric Eigenvalue Problem, §6.9).
    let alpha = 0;
    for (let round = 0; round < 2; round++)
      for (let i = basis.length - 1; 0 <= i; i--) {
        const part = dot(w, images[i] as Float64Array);
        if (i === step) alpha += part;
        subtract(w, part, basis[i] as Float64Array);
      }
    diagonal.push(alpha);
    mv = new Float64Array(n);
    multiply(m, w, mv);
    size = Math.sqrt(Math.max(0, dot(w, mv)));
    v = w;
    const last = step === most - 1 || size < 1e-14;
    if (last || nextLook <= step) {
      nextLook = Math.ceil(step * LOOK_AGAIN);
      const pairs = ritzPairs(diagonal, beside, size, shift);
      const wanted = pairs.filter(({ lambda }) => lambda <= limit);
      const beyond = pairs.some(({ lambda, settled }) => limit < lambda && settled);
      if (last || (beyond && wanted.every(({ settled }) => settled)))
        return assemble(wanted, basis, n);
    }
    beside.push(size);
  }
  throw new RangeError('no eigenpairs: an empty matrix');
}

interface Ritz {
  readonly lambda: number;
  readonly weights: readonly number[];
  readonly settled: boolean;
}

function ritzPairs(diagonal: number[], beside: number[], size: number, shift: number): Ritz[] {
  const count = diagonal.length;
  const t = Matrix.zeros(count, count);
  diagonal.forEach((entry, i) => {
    t.set(i, i, entry);
    const next = beside[i];
    if (next !== undefined && i + 1 < count) {
      t.set(i, i + 1, next);
      t.set(i + 1, i, next);
    }
  });
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(t, {
    assumeSymmetric: true,
  });
  return realEigenvalues
    .map((theta, column) => ({
      lambda: 1 / theta - shift,
      weights: eigenvectorMatrix.getColumn(column),
      settled: Math.abs(size * eigenvectorMatrix.get(count - 1, column)) < TOLERANCE * theta,
      theta,
    }))
    .filter(({ theta }) => 0 < theta)
    .sort((one, other) => one.lambda - other.lambda);
}

function assemble(pairs: readonly Ritz[], basis: readonly Float64Array[], n: number): EigenPairs {
  const vector = pairs.map(({ weights }) => {
    const sum = new Float64Array(n);
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

function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += (one[i] as number) * (other[i] as number);
  return sum;
}

function scale(x: Float64Array, by: number): void {
  for (let i = 0; i < x.length; i++) x[i] = (x[i] as number) * by;
}

function subtract(x: Float64Array, times: number, y: Float64Array): void {
  for (let i = 0; i < x.length; i++) x[i] = (x[i] as number) - times * (y[i] as number);
}
