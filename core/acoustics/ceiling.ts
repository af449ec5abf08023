// Rooms under a plane ceiling, level or sloped: height at a place, volume, wall areas, ceiling area.

import { type Point2, type Point3, planDistance_m } from './point.ts';
import { area_m2, centroid, type Plan, walls } from './polygon.ts';

/** height = atOrigin_m + slopeX_ratio x + slopeY_ratio y; a level ceiling has no slopes. */
export interface Ceiling {
  readonly atOrigin_m: number;
  readonly slopeX_ratio: number;
  readonly slopeY_ratio: number;
}

export function levelCeiling(height_m: number): Ceiling {
  return { atOrigin_m: height_m, slopeX_ratio: 0, slopeY_ratio: 0 };
}

/**
 * The plane through three places of the ceiling.
 *
 * @returns null if the places lie in one line on the plan
 */
export function ceilingThrough(a: Point3, b: Point3, c: Point3): Ceiling | null {
  const [ux, uy, uz] = [b.x_m - a.x_m, b.y_m - a.y_m, b.z_m - a.z_m];
  const [vx, vy, vz] = [c.x_m - a.x_m, c.y_m - a.y_m, c.z_m - a.z_m];
  const turn = ux * vy - uy * vx;
  if (Math.abs(turn) <= 1e-12 * Math.hypot(ux, uy) * Math.hypot(vx, vy)) return null;
  const slopeX_ratio = (uz * vy - vz * uy) / turn;
  const slopeY_ratio = (ux * vz - vx * uz) / turn;
  return {
    atOrigin_m: a.z_m - slopeX_ratio * a.x_m - slopeY_ratio * a.y_m,
    slopeX_ratio,
    slopeY_ratio,
  };
}

export function ceilingHeight_m(ceiling: Ceiling, { x_m, y_m }: Point2): number {
  return ceiling.atOrigin_m + ceiling.slopeX_ratio * x_m + ceiling.slopeY_ratio * y_m;
}

/** Volume of the room: area times the height over the plan's centre, exact for any plane. */
export function volume_m3(plan: Plan, ceiling: Ceiling): number {
  return area_m2(plan) * ceilingHeight_m(ceiling, centroid(plan));
}

/** Area of the sloped ceiling itself. */
export function ceilingArea_m2(plan: Plan, { slopeX_ratio, slopeY_ratio }: Ceiling): number {
  return area_m2(plan) * Math.hypot(1, slopeX_ratio, slopeY_ratio);
}

/** Area of each wall, in the order of the walls: length times the mean height of its ends. */
export function wallAreas_m2(plan: Plan, ceiling: Ceiling): readonly number[] {
  return walls(plan).map(
    ([from, to]) =>
      (planDistance_m(from, to) * (ceilingHeight_m(ceiling, from) + ceilingHeight_m(ceiling, to))) /
      2,
  );
}
