// Where a loudspeaker is seen from a seat that faces the front wall: azimuth, elevation, distance, and symmetry.

import { wrapped_rad } from './complex.ts';
import { distance_m, type Point3, planDistance_m } from './point.ts';

/** A direction from a seat. */
export interface Bearing {
  /** 0 straight ahead, positive to the listener's left, −π … π. @source ITU-R BS.2051 */
  readonly azimuth_rad: number;
  /** positive up, −π/2 … π/2 */
  readonly elevation_rad: number;
  readonly distance_m: number;
}

/**
 * Bearing of a place from a seat. The seat faces the front wall (towards smaller y); x grows to its right.
 *
 * @param turned_rad how far the seat is turned to the left of that
 * @returns straight above or below, and at the seat itself, the azimuth is 0
 */
export function bearing(seat: Point3, place: Point3, turned_rad = 0): Bearing {
  const left_m = seat.x_m - place.x_m;
  const ahead_m = seat.y_m - place.y_m;
  const plan_m = Math.hypot(left_m, ahead_m);
  return {
    azimuth_rad: plan_m === 0 ? 0 : wrapped_rad(Math.atan2(left_m, ahead_m) - turned_rad),
    elevation_rad: Math.atan2(place.z_m - seat.z_m, plan_m),
    distance_m: distance_m(seat, place),
  };
}

/** The place in a direction from a seat; the inverse of `bearing`. */
export function placeAt(seat: Point3, to: Bearing, turned_rad = 0): Point3 {
  const plan_m = to.distance_m * Math.cos(to.elevation_rad);
  const azimuth_rad = to.azimuth_rad + turned_rad;
  return {
    x_m: seat.x_m - plan_m * Math.sin(azimuth_rad),
    y_m: seat.y_m - plan_m * Math.cos(azimuth_rad),
    z_m: seat.z_m + to.distance_m * Math.sin(to.elevation_rad),
  };
}

/** Width of the base between two loudspeakers, on the plan. */
export function baseWidth_m(left: Point3, right: Point3): number {
  return planDistance_m(left, right);
}

/** Angle under which two places are seen from a seat, on the plan, 0 … π. */
export function baseAngle_rad(seat: Point3, left: Point3, right: Point3): number {
  return Math.abs(wrapped_rad(bearing(seat, left).azimuth_rad - bearing(seat, right).azimuth_rad));
}

/** How a pair departs from being mirror images in the seat's median plane: left minus right. */
export interface PairAsymmetry {
  /** sum of the azimuths, 0 if symmetric; positive: the pair is turned to the left */
  readonly azimuth_rad: number;
  readonly elevation_rad: number;
  readonly distance_m: number;
  /** how far the right one is from the left one's mirror image */
  readonly apart_m: number;
}

export function pairAsymmetry(
  seat: Point3,
  left: Point3,
  right: Point3,
  turned_rad = 0,
): PairAsymmetry {
  const a = bearing(seat, left, turned_rad);
  const b = bearing(seat, right, turned_rad);
  const mirror = placeAt(seat, { ...a, azimuth_rad: -a.azimuth_rad }, turned_rad);
  return {
    azimuth_rad: wrapped_rad(a.azimuth_rad + b.azimuth_rad),
    elevation_rad: a.elevation_rad - b.elevation_rad,
    distance_m: a.distance_m - b.distance_m,
    apart_m: distance_m(mirror, right),
  };
}
