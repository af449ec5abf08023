// How far the sides of a room are open, by what its file states with ±, and how a side that was found otherwise is written.

import type { Path } from '../../schema/model/path.ts';
import type { Room } from '../../schema/model/room.ts';
import { ceilingHeight_m } from '../acoustics/ceiling.ts';
import type { Point2 } from '../acoustics/point.ts';
import { roomShape } from '../parts/roomShape.ts';
import { type Extents, extentsOf, otherRoom } from './otherRoom.ts';

export const SIDES = ['width', 'depth', 'height'] as const;
export type Side = (typeof SIDES)[number];

/** A tape or laser measure in a finished room: common practice, no source. */
const USUAL_M = 0.01;

/** One figure of the file that says where a side ends. */
export interface SideFigure {
  readonly side: Side;
  /** In the file, and in what states its ±. */
  readonly path: Path;
  readonly value_m: number;
  /** How far it lies from what stays where it is: moves in proportion. */
  readonly reach_m: number;
}

/** Every figure of the file that moves with a side; those at the origin do not move. */
export function sideFigures({ space }: Pick<Room, 'space'>): readonly SideFigure[] {
  const { shape } = space;
  if (shape?.kind === 'box')
    return SIDES.map((side) => {
      const value_m = shape[`${side}_m`];
      return { side, path: ['space', 'size', side], value_m, reach_m: value_m };
    });
  const extents = extentsOf(space);
  if (shape === null || extents === null) return [];
  const corners = shape.walls.flatMap(({ name, x_m, y_m }): readonly SideFigure[] => [
    figure('width', ['space', 'plan', name, 'x'], x_m, extents.origin.x_m),
    figure('depth', ['space', 'plan', name, 'y'], y_m, extents.origin.y_m),
  ]);
  const heights = (space.heightKeys ?? []).map((keys) => {
    const value_m = heightAt(space, cornerOf(keys.at(-1) ?? '', extents));
    return figure('height', ['space', ...keys], value_m, 0);
  });
  return [...corners, ...heights].filter(({ reach_m }) => LEAST_REACH_M < reach_m);
}

/** Nearer to what stays, a figure hardly moves and is left as it is. */
const LEAST_REACH_M = 0.05;

function figure(side: Side, path: Path, value_m: number, from_m: number): SideFigure {
  return { side, path, value_m, reach_m: value_m - from_m };
}

/** Where the outline has what a height's key names. */
function cornerOf(key: string, { origin, extent_m: [x_m, y_m] }: Extents): Point2 {
  const isRight = key.endsWith('right');
  const isBack = key.startsWith('back');
  return { x_m: origin.x_m + (isRight ? x_m : 0), y_m: origin.y_m + (isBack ? y_m : 0) };
}

function heightAt(space: Room['space'], at: Point2): number {
  const ceiling = roomShape(space)?.ceiling ?? null;
  return ceiling === null ? 0 : ceilingHeight_m(ceiling, at);
}

/**
 * How far width, depth and height are open to either side: so far that no figure leaves its own stated ±; the usual error where none is
 * stated.
 */
export function openSides_m(room: Pick<Room, 'space' | 'plusMinus'>): readonly number[] {
  const extents = extentsOf(room.space);
  const figures = sideFigures(room);
  return SIDES.map((side, axis) => {
    const extent_m = extents?.extent_m[axis] ?? 0;
    const open_m = figures
      .filter((one) => one.side === side)
      .flatMap(({ path, reach_m }) => {
        const half_m = room.plusMinus[path.join('.')];
        return half_m === undefined ? [] : [(half_m * extent_m) / reach_m];
      });
    return open_m.length === 0 ? USUAL_M : Math.min(...open_m);
  });
}

/** The figures as they stand in a room with other sides, with what is written there now. */
export function movedSides(
  room: Room,
  size_m: readonly [number, number, number],
): readonly (SideFigure & { readonly from_m: number })[] {
  const before = sideFigures(room);
  const after = sideFigures(otherRoom(room, { size_m }));
  return before.flatMap((one) => {
    const same = after.find(({ path }) => path.join('.') === one.path.join('.'));
    return same ? [{ ...same, from_m: one.value_m }] : [];
  });
}
