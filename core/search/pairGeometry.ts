// How a main pair stands to a seat: under which angle and how far off; and the lines of a grid along a wall.

import { distance_m, type Point3 } from '../acoustics/point.ts';

export const STEP_M = 0.1;
/** The pair is seen under 60° ± 10°. @source ITU-R BS.775-3: ±30°; the tolerance is common practice, no source */
const BASE_RAD = { from: (50 * Math.PI) / 180, to: (70 * Math.PI) / 180 } as const;
/** Nearer than this a loudspeaker's own drivers are heard apart. Common practice, no source. */
const LEAST_DISTANCE_M = 1;

/** Whether a pair is seen under about 60°, and not from too near. */
export function isBase(seat: Point3, one: Point3, other: Point3): boolean {
  if (Math.min(distance_m(seat, one), distance_m(seat, other)) < LEAST_DISTANCE_M) return false;
  const [a, b] = [bearing_rad(seat, one), bearing_rad(seat, other)];
  const angle = Math.abs(a - b);
  return BASE_RAD.from <= angle && angle <= BASE_RAD.to;
}

/** From the front, on the plan. */
function bearing_rad(seat: Point3, to: Point3): number {
  return Math.atan2(to.x_m - seat.x_m, seat.y_m - to.y_m);
}

/** Multiples of the step between two insets. */
export function gridLines_m(corners_m: readonly number[], inset_m: number): readonly number[] {
  const [low, high] = [Math.min(...corners_m) + inset_m, Math.max(...corners_m) - inset_m];
  const first = Math.ceil(low / STEP_M - 1e-9);
  return Array.from({ length: Math.max(0, Math.floor(high / STEP_M + 1e-9) - first + 1) }, (_, i) =>
    Number(((first + i) * STEP_M).toFixed(4)),
  );
}
