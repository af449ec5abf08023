// Deviations that may be far off for reasons of their own: near ones count by their square, far ones in a straight line.

/** Of their errors, from where they count in a straight line. @source Huber, Robust Statistics (1981) */
const STRAIGHT_FROM = 3;

/** @param deviation_ratio in units of its error */
export function huberLoss_ratio(deviation_ratio: number): number {
  const z = Math.abs(deviation_ratio);
  return z <= STRAIGHT_FROM ? z * z : STRAIGHT_FROM * (2 * z - STRAIGHT_FROM);
}

/** What the square of a deviation counts for where it is weighed anew: 1 for near ones. */
export function huberWeight(deviation_ratio: number): number {
  const z = Math.abs(deviation_ratio);
  return z <= STRAIGHT_FROM ? 1 : STRAIGHT_FROM / z;
}
