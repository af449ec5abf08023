// The room's shape as the formulas take it: a plan with a ceiling for every room, and a box where it is one.

import type { Space } from '../../schema/model/room.ts';
import type { BoxSize } from '../acoustics/boxModes.ts';
import { type Ceiling, levelCeiling } from '../acoustics/ceiling.ts';
import { area_m2, type Plan, rectangle } from '../acoustics/polygon.ts';

export interface RoomShape {
  /** Corners in the file's order. */
  readonly plan: Plan;
  /** `wallNames[i]` is the wall from corner i to the next. */
  readonly wallNames: readonly string[];
  /** null where the height was not recorded. */
  readonly ceiling: Ceiling | null;
  /** x = width, y = depth, z = height; null for other shapes. */
  readonly box: BoxSize | null;
}

/** Walls of a box in the order of its plan's corners. */
const BOX_WALLS = ['front', 'right', 'back', 'left'] as const;

/** Less is no room, and figures of it are no figures. */
const LEAST_M = 0.01;

/** null where the file gives no shape, or one that encloses nothing. */
export function roomShape({ shape }: Pick<Space, 'shape'>): RoomShape | null {
  if (shape === null) return null;
  if (shape.kind === 'box') {
    const { width_m, depth_m, height_m } = shape;
    if (![width_m, depth_m, height_m].every(isRoomy)) return null;
    return {
      plan: rectangle(width_m, depth_m),
      wallNames: BOX_WALLS,
      ceiling: levelCeiling(height_m),
      box: { x_m: width_m, y_m: depth_m, z_m: height_m },
    };
  }
  if (shape.walls.length < 3 || !(LEAST_M ** 2 <= area_m2(shape.walls))) return null;
  return {
    plan: shape.walls,
    wallNames: shape.walls.map(({ name }) => name),
    ceiling: shape.ceiling && {
      atOrigin_m: shape.ceiling.height_m,
      slopeX_ratio: shape.ceiling.slopeX,
      slopeY_ratio: shape.ceiling.slopeY,
    },
    box: null,
  };
}

function isRoomy(length_m: number): boolean {
  return LEAST_M <= length_m && length_m < Number.POSITIVE_INFINITY;
}
