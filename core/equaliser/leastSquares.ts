// Least squares between bounds: Levenberg and Marquardt's method, with parameters held where they press against a bound.

/** Fills `residual`, and `jacobian` (`[parameter * residuals + i]`) where it is asked for. */
export type Residuals = (
  parameters: Float64Array,
  residual: Float64Array,
  jacobian: Float64Array | null,
) => void;

export interface Bounds {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

export interface LeastSquares {
  readonly parameters: Float64Array;
  /** Σ residual². */
  readonly square: number;
}

/** Damping to begin with, re the curvature's diagonal: a careful Gauss–Newton step. */
const FIRST_DAMPING = 1e-2;
const LEAST_DAMPING = 1e-9;
const MOST_DAMPING = 1e9;

/**
 * A local minimum of Σ residual² between bounds, from a start.
 *
 * @param start brought between the bounds; not changed
 * @param residualCount how many residuals `residuals` fills
 * @param stepCount most steps taken; it ends sooner where a step gains less than `tolerance_ratio` of the sum
 * @source Marquardt, J. SIAM 11 (1963) 431; bounds by an active set, as in Kanzow, Yamashita & Fukushima, J. Comput. Appl. Math. 172 (2004) 375
 */
export function leastSquares(
  residuals: Residuals,
  start: ArrayLike<number>,
  { low, high }: Bounds,
  residualCount: number,
  stepCount: number,
  tolerance_ratio = 1e-9,
): LeastSquares {
  const count = start.length;
  let parameters = Float64Array.from(start, (value, i) => within(value, low[i], high[i]));
  let residual = new Float64Array(residualCount);
  let tried = new Float64Array(residualCount);
  const jacobian = new Float64Array(count * residualCount);
  residuals(parameters, residual, jacobian);
  let square = sumOfSquares(residual);
  let damping = FIRST_DAMPING;
  for (let step = 0; step < stepCount; step++) {
    const { curvature, slope } = normalEquations(jacobian, residual, count);
    const free = Array.from({ length: count }, (_, i) => i).filter((i) => {
      const value = parameters[i] as number;
      const downhill = -(slope[i] as number);
      return !(
        (value <= (low[i] ?? 0) && downhill < 0) ||
        ((high[i] ?? 0) <= value && 0 < downhill)
      );
    });
    if (free.length === 0) break;
    let gained = 0;
    while (damping < MOST_DAMPING) {
      const move = solve(curvature, slope, free, count, damping);
      const next = Float64Array.from(parameters);
      free.forEach((i, k) => {
        next[i] = within((parameters[i] as number) - (move[k] ?? 0), low[i], high[i]);
      });
      residuals(next, tried, null);
      const nextSquare = sumOfSquares(tried);
      if (nextSquare < square) {
        gained = square - nextSquare;
        parameters = next;
        square = nextSquare;
        [residual, tried] = [tried, residual];
        damping = Math.max(LEAST_DAMPING, damping / 5);
        break;
      }
      damping *= 4;
    }
    if (gained <= tolerance_ratio * square) break;
    residuals(parameters, residual, jacobian);
  }
  return { parameters, square };
}

function within(value: number, low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY) {
  return Math.min(high, Math.max(low, value));
}

function sumOfSquares(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += (values[i] as number) ** 2;
  return sum;
}

/** JᵀJ and Jᵀr. */
function normalEquations(jacobian: Float64Array, residual: Float64Array, count: number) {
  const length = residual.length;
  const curvature = new Float64Array(count * count);
  const slope = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const one = i * length;
    let down = 0;
    for (let r = 0; r < length; r++)
      down += (jacobian[one + r] as number) * (residual[r] as number);
    slope[i] = down;
    for (let j = 0; j <= i; j++) {
      const other = j * length;
      let sum = 0;
      for (let r = 0; r < length; r++)
        sum += (jacobian[one + r] as number) * (jacobian[other + r] as number);
      curvature[i * count + j] = sum;
      curvature[j * count + i] = sum;
    }
  }
  return { curvature, slope };
}

/** (C + damping diag C) move = slope, over the free parameters, by Cholesky's factors. */
function solve(
  curvature: Float64Array,
  slope: Float64Array,
  free: readonly number[],
  count: number,
  damping: number,
): Float64Array {
  const n = free.length;
  const factor = new Float64Array(n * n);
  const x = new Float64Array(n);
  // A parameter that changes nothing has no curvature: a share of the greatest keeps the matrix regular.
  let greatest = 0;
  for (const i of free) greatest = Math.max(greatest, curvature[i * count + i] as number);
  const floor = greatest * 1e-12 + Number.MIN_VALUE;
  for (let i = 0; i < n; i++) {
    const row = (free[i] as number) * count;
    for (let j = 0; j <= i; j++) {
      let sum = curvature[row + (free[j] as number)] as number;
      if (i === j) sum += damping * sum + floor;
      for (let k = 0; k < j; k++)
        sum -= (factor[i * n + k] as number) * (factor[j * n + k] as number);
      factor[i * n + j] =
        i === j ? Math.sqrt(Math.max(sum, floor)) : sum / (factor[j * n + j] as number);
    }
    let value = slope[free[i] as number] as number;
    for (let k = 0; k < i; k++) value -= (factor[i * n + k] as number) * (x[k] as number);
    x[i] = value / (factor[i * n + i] as number);
  }
  for (let i = n - 1; 0 <= i; i--) {
    let value = x[i] as number;
    for (let k = i + 1; k < n; k++) value -= (factor[k * n + i] as number) * (x[k] as number);
    x[i] = value / (factor[i * n + i] as number);
  }
  return x;
}
