// First reflections by image sources: mirrored in the six surfaces of a box, or in the walls of any polygon plan.

import type { BoxSize } from './boxModes.ts';
import { distance_m, type Point2, type Point3 } from './point.ts';
import { isFreeWay, type Plan, wallAt } from './polygon.ts';

/** A reflection off one surface. */
export interface ImagePath {
  /** the mirrored source */
  readonly image: Point3;
  /** where the sound meets the surface */
  readonly reflectedAt: Point3;
  readonly direct_m: number;
  readonly reflected_m: number;
  /** reflected minus direct path, >= 0 */
  readonly difference_m: number;
}

export type BoxSurface = 'x_low' | 'x_high' | 'y_low' | 'y_high' | 'z_low' | 'z_high';

/** The plane of each surface: across which axis, and whether at its far end. */
const PLANES = [
  { surface: 'x_low', axis: 'x_m', far: false },
  { surface: 'x_high', axis: 'x_m', far: true },
  { surface: 'y_low', axis: 'y_m', far: false },
  { surface: 'y_high', axis: 'y_m', far: true },
  { surface: 'z_low', axis: 'z_m', far: false },
  { surface: 'z_high', axis: 'z_m', far: true },
] as const;

/** The surfaces of a box in their fixed order: at x = 0, x = X, y = 0, y = Y, z = 0, z = Z. */
export const BOX_SURFACES: readonly BoxSurface[] = PLANES.map(({ surface }) => surface);

export interface BoxImagePath extends ImagePath {
  readonly surface: BoxSurface;
}

/**
 * The six first reflections of a box.
 *
 * @param size inner size; source and listener inside
 * @returns in the order of `BOX_SURFACES`
 */
export function boxImages(
  size: BoxSize,
  source: Point3,
  listener: Point3,
): readonly BoxImagePath[] {
  return PLANES.map(({ surface, axis, far }) => {
    const plane_m = far ? size[axis] : 0;
    const image = { ...source, [axis]: 2 * plane_m - source[axis] };
    return { surface, ...imagePath(image, source, listener, axis, plane_m) };
  });
}

export interface WallImagePath extends ImagePath {
  /** number of the wall: from corner `wallIndex` to the next */
  readonly wallIndex: number;
}

/**
 * First reflections off the walls of a plan: only walls that the mirrored ray really meets, within their length.
 *
 * Walls stand upright. A wall that another one hides, from the source or from the listener, has no reflection.
 *
 * @param plan corners in order
 * @returns in the order of the walls; those without a reflection are left out
 */
export function wallImages(plan: Plan, source: Point3, listener: Point3): readonly WallImagePath[] {
  const paths: WallImagePath[] = [];
  for (let wallIndex = 0; wallIndex < plan.length; wallIndex++) {
    const [from, to] = wallAt(plan, wallIndex);
    const here = sideOf(from, to, source);
    const there = sideOf(from, to, listener);
    if (here * there <= 0) continue; // on the wall's line, or on both sides of it
    const image = { ...mirrored(from, to, source), z_m: source.z_m };
    const share = here / (here + there); // of the way from image to listener, at the wall's line
    const reflectedAt = between(image, listener, share);
    if (!liesAlong(from, to, reflectedAt)) continue;
    if (!isFreeWay(plan, source, reflectedAt, wallIndex)) continue;
    if (!isFreeWay(plan, reflectedAt, listener, wallIndex)) continue;
    paths.push({ wallIndex, ...lengths(image, reflectedAt, source, listener) });
  }
  return paths;
}

/**
 * The reflection off a level plane, such as the floor, a flat ceiling, or a desk of any extent.
 *
 * @param height_m of the plane; source and listener both above or both below it
 * @returns null if they are on different sides, or either lies in the plane
 */
export function levelImage(height_m: number, source: Point3, listener: Point3): ImagePath | null {
  if ((source.z_m - height_m) * (listener.z_m - height_m) <= 0) return null;
  const image = { ...source, z_m: 2 * height_m - source.z_m };
  return imagePath(image, source, listener, 'z_m', height_m);
}

function imagePath(
  image: Point3,
  source: Point3,
  listener: Point3,
  axis: keyof Point3,
  plane_m: number,
): ImagePath {
  const span_m = listener[axis] - image[axis];
  const share = span_m === 0 ? 0.5 : (plane_m - image[axis]) / span_m;
  return lengths(image, between(image, listener, share), source, listener);
}

function lengths(image: Point3, reflectedAt: Point3, source: Point3, listener: Point3): ImagePath {
  const direct_m = distance_m(source, listener);
  const reflected_m = distance_m(image, listener);
  return { image, reflectedAt, direct_m, reflected_m, difference_m: reflected_m - direct_m };
}

function between(from: Point3, to: Point3, share: number): Point3 {
  return {
    x_m: from.x_m + share * (to.x_m - from.x_m),
    y_m: from.y_m + share * (to.y_m - from.y_m),
    z_m: from.z_m + share * (to.z_m - from.z_m),
  };
}

/** Signed distance from the wall's line times its length; the sign says the side. */
function sideOf(from: Point2, to: Point2, point: Point2): number {
  return (
    (to.x_m - from.x_m) * (point.y_m - from.y_m) - (to.y_m - from.y_m) * (point.x_m - from.x_m)
  );
}

function mirrored(from: Point2, to: Point2, point: Point2): Point2 {
  const along_x = to.x_m - from.x_m;
  const along_y = to.y_m - from.y_m;
  const twice = (2 * sideOf(from, to, point)) / (along_x ** 2 + along_y ** 2);
  return { x_m: point.x_m + twice * along_y, y_m: point.y_m - twice * along_x };
}

/** Whether a point of the wall's line lies between the wall's ends. */
function liesAlong(from: Point2, to: Point2, point: Point2): boolean {
  const along_x = to.x_m - from.x_m;
  const along_y = to.y_m - from.y_m;
  const projection = (point.x_m - from.x_m) * along_x + (point.y_m - from.y_m) * along_y;
  return 0 <= projection && projection <= along_x ** 2 + along_y ** 2;
}
