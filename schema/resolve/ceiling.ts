// The ceiling over a plan as a plane, from whichever of its forms the file uses.

import type { PlanShape } from '../model/room.ts';
import { below, mapOf, type Place } from './place.ts';
import type { Wall } from './plan.ts';
import type { Reading } from './reading.ts';
import { missing, si } from './values.ts';

export type CeilingPlane = NonNullable<PlanShape['ceiling']>;

/** @returns null where a height is missing, with its gap recorded */
export function readCeiling(
  reading: Reading,
  space: Place,
  walls: readonly Wall[],
): CeilingPlane | null {
  const ceiling = below(space, 'ceiling');
  const height = below(space, 'height');
  if (height.key !== null || ceiling.key === null) {
    const height_m = si(reading, height, 'length', 'needed');
    return height_m === null ? null : { height_m, slopeX: 0, slopeY: 0 };
  }
  const map = mapOf(ceiling);
  if (map === null) {
    missing(reading, ceiling, 'needed');
    return null;
  }
  const at = (key: string) => si(reading, below(ceiling, key), 'length', 'needed');
  const box = outline(walls);
  if (map.entries.has('front_left') || map.entries.has('front_right'))
    return threeCorners(box, at('front_left'), at('front_right'), at('back_left'));
  if (map.entries.has('left') || map.entries.has('right'))
    return leftToRight(box, at('left'), at('right'));
  return frontToBack(box, at('front'), at('back'));
}

/** Under which keys below `space` the heights stand; empty where there are none. */
export function heightKeysOf(space: Place): readonly (readonly string[])[] {
  if (below(space, 'height').key !== null) return [['height']];
  const ceiling = below(space, 'ceiling');
  return HEIGHTS.flatMap((key) => (below(ceiling, key).key === null ? [] : [['ceiling', key]]));
}

const HEIGHTS = [
  'front',
  'back',
  'left',
  'right',
  'front_left',
  'front_right',
  'back_left',
] as const;

/** The smallest upright box around the plan: its sides are what front, back, left and right mean for the ceiling. */
interface Outline {
  readonly left_m: number;
  readonly right_m: number;
  readonly front_m: number;
  readonly back_m: number;
}

function outline(walls: readonly Wall[]): Outline {
  const xs = walls.map(({ x_m }) => x_m);
  const ys = walls.map(({ y_m }) => y_m);
  return {
    left_m: Math.min(...xs),
    right_m: Math.max(...xs),
    front_m: Math.min(...ys),
    back_m: Math.max(...ys),
  };
}

function frontToBack(
  { front_m, back_m }: Outline,
  frontHeight_m: number | null,
  backHeight_m: number | null,
): CeilingPlane | null {
  if (frontHeight_m === null || backHeight_m === null) return null;
  const slopeY = (backHeight_m - frontHeight_m) / (back_m - front_m);
  return { height_m: frontHeight_m - slopeY * front_m, slopeX: 0, slopeY };
}

function leftToRight(
  { left_m, right_m }: Outline,
  leftHeight_m: number | null,
  rightHeight_m: number | null,
): CeilingPlane | null {
  if (leftHeight_m === null || rightHeight_m === null) return null;
  const slopeX = (rightHeight_m - leftHeight_m) / (right_m - left_m);
  return { height_m: leftHeight_m - slopeX * left_m, slopeX, slopeY: 0 };
}

function threeCorners(
  box: Outline,
  frontLeft_m: number | null,
  frontRight_m: number | null,
  backLeft_m: number | null,
): CeilingPlane | null {
  if (frontLeft_m === null || frontRight_m === null || backLeft_m === null) return null;
  const slopeX = (frontRight_m - frontLeft_m) / (box.right_m - box.left_m);
  const slopeY = (backLeft_m - frontLeft_m) / (box.back_m - box.front_m);
  return {
    height_m: frontLeft_m - slopeX * box.left_m - slopeY * box.front_m,
    slopeX,
    slopeY,
  };
}
