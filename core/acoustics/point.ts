// Points in a room: x to the right along the front wall, y from the front wall to the back, z up, in metres.

/** A place on the floor plan. */
export interface Point2 {
  readonly x_m: number;
  readonly y_m: number;
}

/** A place in the room. */
export interface Point3 {
  readonly x_m: number;
  readonly y_m: number;
  readonly z_m: number;
}

/** Straight distance of two places, metres. */
export function distance_m(from: Point3, to: Point3): number {
  return Math.hypot(to.x_m - from.x_m, to.y_m - from.y_m, to.z_m - from.z_m);
}

/** Distance of two places on the plan, metres. */
export function planDistance_m(from: Point2, to: Point2): number {
  return Math.hypot(to.x_m - from.x_m, to.y_m - from.y_m);
}
