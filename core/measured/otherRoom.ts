// A room of any shape with other sides, other decay times and another speed of sound: the file as it might have been written.
//
// Sides are stretched from the corner that the file counts from, along x, y and upwards, so that a plan keeps its kind of shape.

import type { PlanShape, Room, Space } from '../../schema/model/room.ts';
import { ceilingHeight_m } from '../acoustics/ceiling.ts';
import type { Point2 } from '../acoustics/point.ts';
import { type FieldContext, fieldContext } from '../field/context.ts';
import { roomShape } from '../parts/roomShape.ts';
import type { AirFigures } from '../setup.ts';
import type { Variant } from './variant.ts';

/** How far the room reaches along x and y, and its mean height over the corners. */
export interface Extents {
  /** The corner of the smallest upright box round the plan, which stays where it is. */
  readonly origin: Point2;
  readonly extent_m: readonly [x: number, y: number, z: number];
}

/** null where the room has no shape or no height. */
export function extentsOf(space: Pick<Space, 'shape'>): Extents | null {
  const shape = roomShape(space);
  const ceiling = shape?.ceiling ?? null;
  if (shape === null || ceiling === null) return null;
  const [xs, ys] = [shape.plan.map(({ x_m }) => x_m), shape.plan.map(({ y_m }) => y_m)];
  const heights = shape.plan.map((corner) => ceilingHeight_m(ceiling, corner));
  const origin = { x_m: Math.min(...xs), y_m: Math.min(...ys) };
  const mean_m = heights.reduce((sum, height) => sum + height, 0) / heights.length;
  return {
    origin,
    extent_m: [Math.max(...xs) - origin.x_m, Math.max(...ys) - origin.y_m, mean_m],
  };
}

/** How many times longer each side becomes. */
export function stretchBy(
  { extent_m: [x_m, y_m, z_m] }: Extents,
  [dx = 0, dy = 0, dz = 0]: readonly number[],
): readonly [number, number, number] {
  return [1 + dx / x_m, 1 + dy / y_m, 1 + dz / z_m];
}

/** The room as the variant has it: sides and decay times; what else it names is no matter of the file's space. */
export function otherRoom(room: Room, { size_m, decayTime_s }: Variant): Room {
  const { space } = room;
  const extents = extentsOf(space);
  const shape =
    size_m === undefined || extents === null
      ? space.shape
      : stretched(space.shape, extents, size_m);
  return { ...room, space: { ...space, shape, decayTime_s: decayTime_s ?? space.decayTime_s } };
}

function stretched(
  shape: Space['shape'],
  extents: Extents,
  size_m: readonly [number, number, number],
): Space['shape'] {
  if (shape === null) return null;
  const [x, y, z] = size_m;
  if (shape.kind === 'box')
    return {
      kind: 'box',
      width_m: shape.width_m + x,
      depth_m: shape.depth_m + y,
      height_m: shape.height_m + z,
    };
  const stretch = stretchBy(extents, size_m);
  return {
    kind: 'plan',
    walls: shape.walls.map((wall) => ({ ...wall, ...along(wall, extents.origin, stretch) })),
    ceiling: shape.ceiling && raised(shape.ceiling, extents.origin, stretch),
  };
}

/** Where a corner comes to lie. */
export function along(
  { x_m, y_m }: Point2,
  origin: Point2,
  [sx, sy]: readonly [number, number, number],
): Point2 {
  return {
    x_m: origin.x_m + (x_m - origin.x_m) * sx,
    y_m: origin.y_m + (y_m - origin.y_m) * sy,
  };
}

function raised(
  { height_m, slopeX, slopeY }: NonNullable<PlanShape['ceiling']>,
  { x_m, y_m }: Point2,
  [sx, sy, sz]: readonly [number, number, number],
): PlanShape['ceiling'] {
  return {
    height_m: sz * (height_m + slopeX * x_m * (1 - 1 / sx) + slopeY * y_m * (1 - 1 / sy)),
    slopeX: (sz * slopeX) / sx,
    slopeY: (sz * slopeY) / sy,
  };
}

/** What the field of the variant depends on. */
export function otherField(
  room: Room,
  air: AirFigures,
  variant: Variant,
  frequency_hz: readonly number[],
): FieldContext | null {
  const speedOfSound_m_s = air.speedOfSound_m_s * (variant.speed_ratio ?? 1);
  return fieldContext(
    { room: otherRoom(room, variant), air: { ...air, speedOfSound_m_s } },
    frequency_hz,
  );
}
