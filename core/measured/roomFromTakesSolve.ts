// The values that leave the least misfit, with their errors and what they are worth: damped least squares against what is known before.
//
// Misfit: squares of deviations in units of their error, large ones in a straight line, plus squares of the values in units of what is
// open. How far levels of such a plan are off anyway is not known: their error is fitted too, from what is usual.

import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { InSlices } from '../search/transferMap.ts';
import { huberLoss_ratio, huberWeight } from './huber.ts';
import type { Offs } from './roomFromTakesMisfit.ts';

/** What is asked for deviations; null where a set of values makes no room. */
export type OffsAt = (values: readonly number[]) => Offs | null;

export interface Task {
  readonly offsAt: OffsAt;
  /** Steps of the slopes, and most that a value may be off, by value. */
  readonly step: readonly number[];
  readonly most: readonly number[];
}

/** Values as sums of fewer figures, each with what is known of it beforehand. */
export interface Reduced {
  /** `[value][figure]` */
  readonly basis: Matrix;
  /** Inverse of the figures' covariance beforehand. */
  readonly precision: Matrix;
}

export interface Solved {
  readonly values: readonly number[];
  readonly offs: Offs;
  /** `[off][value]`: bands, then decays. */
  readonly slopes: Matrix;
  readonly cost: number;
}

const MOST_STEPS = 14;
/** A step below this share of every error is none. */
const SMALL = 0.05;

/** Sum of the levels' losses, where their error is `error_db`, in dB². */
export function bandLoss_db2({ bands_db, bandWeight }: Offs, error_db: number): number {
  return (
    bandWeight *
    error_db ** 2 *
    bands_db.reduce((sum, off) => sum + huberLoss_ratio(off / error_db), 0)
  );
}

export function bandCount({ bands_db, bandWeight }: Offs): number {
  return bandWeight * bands_db.length;
}

export function decayLoss({ decays }: Offs): number {
  return decays.reduce((sum, off) => sum + huberLoss_ratio(off), 0);
}

function dataCost(offs: Offs, error_db: number): number {
  return bandLoss_db2(offs, error_db) / error_db ** 2 + decayLoss(offs);
}

/** Deviations in units of their errors, and the root of each one's weight. */
function scaled({ bands_db, bandWeight, decays }: Offs, error_db: number) {
  const units = [...bands_db.map((off) => off / error_db), ...decays];
  const shares = bands_db.map(() => bandWeight / error_db ** 2);
  const weights = units.map((unit, i) => (shares[i] ?? 1) * huberWeight(unit));
  return { offs: [...bands_db, ...decays], weights };
}

/** Slopes of every deviation by small steps; told as they are worked out. */
export function* slopesAt(
  { offsAt, step, most }: Task,
  values: readonly number[],
  offs: Offs,
): InSlices<Matrix> {
  const here = [...offs.bands_db, ...offs.decays];
  const slopes = Matrix.zeros(here.length, values.length);
  for (const [k, by] of step.entries()) {
    yield k / step.length;
    const value = values[k] ?? 0;
    // Away from the end of what is open.
    const signed = (most[k] ?? 0) < value + by ? -by : by;
    const there = by === 0 ? null : offsAt(values.map((one, i) => (i === k ? one + signed : one)));
    if (there === null) continue;
    [...there.bands_db, ...there.decays].forEach((off, i) => {
      slopes.set(i, k, (off - (here[i] ?? 0)) / signed);
    });
  }
  return slopes;
}

/** JᵀWJ + P of the figures. */
export function normal(
  { offs, slopes }: Pick<Solved, 'offs' | 'slopes'>,
  { basis, precision }: Reduced,
  error_db: number,
): Matrix {
  const { weights } = scaled(offs, error_db);
  const jacobian = slopes.mmul(basis);
  const weighted = jacobian.clone();
  weights.forEach((weight, i) => {
    weighted.mulRow(i, weight);
  });
  const sum = Matrix.add(jacobian.transpose().mmul(weighted), precision);
  // Rounding leaves it a little askew.
  return Matrix.add(sum, sum.transpose()).mul(0.5);
}

function figuresOf({ basis }: Reduced, values: readonly number[]): Matrix {
  const square = basis.transpose().mmul(basis);
  return new CholeskyDecomposition(square).solve(
    basis.transpose().mmul(Matrix.columnVector([...values])),
  );
}

function quadratic(matrix: Matrix, vector: Matrix): number {
  return vector.transpose().mmul(matrix).mmul(vector).get(0, 0);
}

/**
 * @param start near enough that the slopes lead on
 * @param known slopes from nearby, good enough to end with; worked out where null
 */
export function* solveInSlices(
  task: Task,
  reduced: Reduced,
  start: readonly number[],
  error_db: number,
  known: { readonly slopes: Matrix } | null = null,
): InSlices<Solved | null> {
  const { basis, precision } = reduced;
  const costOf = (offs: Offs, figures: Matrix) =>
    dataCost(offs, error_db) + quadratic(precision, figures);
  let figures = figuresOf(reduced, start);
  const valuesOf = (of: Matrix) => basis.mmul(of).to1DArray();
  let values: readonly number[] = valuesOf(figures);
  let offs = task.offsAt(values);
  if (offs === null) return null;
  let cost = costOf(offs, figures);
  let slopes = known?.slopes.clone() ?? (yield* slopesAt(task, values, offs));
  let isFresh = known === null;
  let damping = 1e-3;
  for (let count = 0; count < MOST_STEPS; count++) {
    yield count / MOST_STEPS;
    const { offs: here, weights } = scaled(offs, error_db);
    const matrix = normal({ offs, slopes }, reduced, error_db);
    const weighted = Matrix.columnVector(here.map((off, i) => off * (weights[i] ?? 0)));
    const gradient = Matrix.add(
      slopes.mmul(basis).transpose().mmul(weighted),
      precision.mmul(figures),
    );
    const damped = matrix.clone();
    for (let k = 0; k < damped.rows; k++) damped.set(k, k, damped.get(k, k) * (1 + damping));
    const by = new CholeskyDecomposition(damped).solve(gradient).mul(-1);
    const nextFigures = figuresOf(reduced, clamped(valuesOf(Matrix.add(figures, by)), task.most));
    const next = valuesOf(nextFigures);
    const moved = Matrix.sub(nextFigures, figures);
    const isSmall = quadratic(matrix, moved) < SMALL ** 2;
    if (isSmall && (isFresh || known !== null)) break;
    const there = isSmall ? null : task.offsAt(next);
    const cost2 = there === null ? Number.POSITIVE_INFINITY : costOf(there, nextFigures);
    if (there !== null && cost2 < cost) {
      slopes = corrected(slopes, task.step, [values, next], [offs, there]);
      isFresh = false;
      [figures, values, offs, cost] = [nextFigures, next, there, cost2];
      damping = Math.max(1e-6, damping / 5);
    } else if (isFresh) damping = Math.max(damping * 8, 1e-2);
    else {
      slopes = yield* slopesAt(task, values, offs);
      isFresh = true;
    }
  }
  return { values, offs, slopes, cost };
}

function clamped(values: readonly number[], most: readonly number[]): readonly number[] {
  return values.map((value, i) => {
    const end = most[i] ?? 0;
    return Math.min(end, Math.max(-end, value));
  });
}

/** What a step showed put into the slopes, in units of the values' own steps. @source Broyden, Math. Comp. 19 (1965) 577 */
function corrected(
  slopes: Matrix,
  step: readonly number[],
  [from, to]: readonly [readonly number[], readonly number[]],
  [before, after]: readonly [Offs, Offs],
): Matrix {
  const by = to.map((value, k) => value - (from[k] ?? 0));
  const inSteps = by.map((one, k) => one / (step[k] ?? 1) ** 2);
  const length2 = by.reduce((sum, one, k) => sum + one * (inSteps[k] ?? 0), 0);
  if (length2 === 0) return slopes;
  const here = [...before.bands_db, ...before.decays];
  const better = slopes.clone();
  [...after.bands_db, ...after.decays].forEach((off, i) => {
    const expected = by.reduce((sum, one, k) => sum + slopes.get(i, k) * one, 0);
    const missing = (off - (here[i] ?? 0) - expected) / length2;
    inSteps.forEach((one, k) => {
      better.set(i, k, better.get(i, k) + missing * one);
    });
  });
  return better;
}

/** Logarithm of the determinant of a matrix whose squares are positive. */
export function logDeterminant(matrix: Matrix): number {
  const { lowerTriangularMatrix } = new CholeskyDecomposition(matrix);
  return 2 * lowerTriangularMatrix.diagonal().reduce((sum, one) => sum + Math.log(one), 0);
}

/** Deviations of the values: roots of the diagonal of B (JᵀWJ + P)⁻¹ Bᵀ. */
export function errorsOf(matrix: Matrix, { basis }: Reduced): readonly number[] {
  const inverse = new CholeskyDecomposition(matrix).solve(Matrix.eye(matrix.rows));
  return basis
    .mmul(inverse)
    .mmul(basis.transpose())
    .diagonal()
    .map((square) => Math.sqrt(Math.max(0, square)));
}
