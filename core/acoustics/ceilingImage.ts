// The reflection off a sloped ceiling: the source mirrored in its plane.

import { type Ceiling, ceilingHeight_m } from './ceiling.ts';
import type { ImagePath } from './imageSources.ts';
import { distance_m, type Point3 } from './point.ts';

/**
 * First reflection off a plane ceiling of any slope and extent.
 *
 * @param source below the ceiling, as the listener
 * @returns null if either lies in the plane or above it
 */
export function ceilingImage(ceiling: Ceiling, source: Point3, listener: Point3): ImagePath | null {
  const here_m = below_m(ceiling, source);
  const there_m = below_m(ceiling, listener);
  if (here_m <= 0 || there_m <= 0) return null;
  const image = moved(ceiling, source, 2 * here_m);
  const share = here_m / (here_m + there_m); // of the way from image to listener, at the plane
  const along = (axis: keyof Point3) => image[axis] + share * (listener[axis] - image[axis]);
  const direct_m = distance_m(source, listener);
  const reflected_m = distance_m(image, listener);
  return {
    image,
    reflectedAt: { x_m: along('x_m'), y_m: along('y_m'), z_m: along('z_m') },
    direct_m,
    reflected_m,
    difference_m: reflected_m - direct_m,
  };
}

/** Distance below the plane, square to it; < 0 above. */
export function below_m(ceiling: Ceiling, point: Point3): number {
  return (ceilingHeight_m(ceiling, point) - point.z_m) / slant_ratio(ceiling);
}

/** A point moved square to the plane, upwards. */
function moved(ceiling: Ceiling, from: Point3, by_m: number): Point3 {
  const unit_m = by_m / slant_ratio(ceiling);
  return {
    x_m: from.x_m - ceiling.slopeX_ratio * unit_m,
    y_m: from.y_m - ceiling.slopeY_ratio * unit_m,
    z_m: from.z_m + unit_m,
  };
}

/** Area of the sloped plane over the area below it. */
function slant_ratio({ slopeX_ratio, slopeY_ratio }: Ceiling): number {
  return Math.hypot(1, slopeX_ratio, slopeY_ratio);
}
