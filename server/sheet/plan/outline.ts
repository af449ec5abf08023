// The room's outline for drawing: corners in plan, and the profile seen from the side.

import type { Path } from '../../../schema/model/path.ts';
import type { PlanShape, Space } from '../../../schema/model/room.ts';
import type { Extent } from './frame.ts';

type Shape = NonNullable<Space['shape']>;

export interface Wall {
  readonly name: string;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** What in the file sets this wall. */
  readonly path: Path;
}

/** The walls one after another, each from corner to corner, in metres. */
export function wallsOf(shape: Shape): readonly Wall[] {
  if (shape.kind === 'plan') {
    return shape.walls.map((wall, index) => {
      const next = shape.walls[(index + 1) % shape.walls.length] ?? wall;
      return {
        name: wall.name,
        from: [wall.x_m, wall.y_m],
        to: [next.x_m, next.y_m],
        path: ['space', 'plan', wall.name],
      };
    });
  }
  const { width_m, depth_m } = shape;
  const size = (key: string): Path => ['space', 'size', key];
  return [
    { name: 'front', from: [0, 0], to: [width_m, 0], path: size('width') },
    { name: 'right', from: [width_m, 0], to: [width_m, depth_m], path: size('depth') },
    { name: 'back', from: [width_m, depth_m], to: [0, depth_m], path: size('width') },
    { name: 'left', from: [0, depth_m], to: [0, 0], path: size('depth') },
  ];
}

export function extentOf(shape: Shape): Extent {
  const corners = wallsOf(shape).map(({ from }) => from);
  const across = corners.map(([x_m]) => x_m);
  const down = corners.map(([, y_m]) => y_m);
  return {
    left_m: Math.min(...across),
    right_m: Math.max(...across),
    top_m: Math.min(...down),
    bottom_m: Math.max(...down),
  };
}

/** The ceiling seen from the side: height at the front and at the back, halfway across; null where it was not recorded. */
export function ceilingFromSide(
  shape: Shape,
): { readonly front_m: number; readonly back_m: number } | null {
  if (shape.kind === 'box') return { front_m: shape.height_m, back_m: shape.height_m };
  if (shape.ceiling === null) return null;
  const { left_m, right_m, top_m, bottom_m } = extentOf(shape);
  const height = heightUnder(shape.ceiling, (left_m + right_m) / 2);
  return { front_m: height(top_m), back_m: height(bottom_m) };
}

function heightUnder(
  ceiling: NonNullable<PlanShape['ceiling']>,
  x_m: number,
): (y_m: number) => number {
  return (y_m) => ceiling.height_m + ceiling.slopeX * x_m + ceiling.slopeY * y_m;
}
