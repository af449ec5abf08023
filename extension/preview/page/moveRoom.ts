// What can be moved on a drawing, where it may go, and the edit that moves it in the file.

import type { SemanticEdit } from '../../../core/finding.ts';
import type { Movable, PlanPlace } from '../../../core/parts/moveThing.ts';
import { showFor } from '../../../core/show.ts';
import type { Point } from '../../../schema/model/quantities.ts';
import type { Room } from '../../../schema/model/room.ts';

/** `speakers.left`, as drawings name what can be moved; null for anything else. */
export function readMovable(text: string | null): Movable | null {
  const [list, id] = text?.split('.') ?? [];
  if (id === undefined) return null;
  return list === 'seats' || list === 'speakers' || list === 'subwoofers' ? { list, id } : null;
}

export function placeIn(room: Room, { list, id }: Movable): Point | null {
  return room[list].find((thing) => thing.id === id)?.at ?? null;
}

/** Whole centimetres, inside the room's outline. */
export function settled(room: Room, { x_m, y_m }: PlanPlace): PlanPlace {
  const { shape } = room.space;
  if (shape === null) return { x_m: centimetres(x_m), y_m: centimetres(y_m) };
  const across = shape.kind === 'box' ? [0, shape.width_m] : shape.walls.map((wall) => wall.x_m);
  const down = shape.kind === 'box' ? [0, shape.depth_m] : shape.walls.map((wall) => wall.y_m);
  return {
    x_m: centimetres(clamp(x_m, Math.min(...across), Math.max(...across))),
    y_m: centimetres(clamp(y_m, Math.min(...down), Math.max(...down))),
  };
}

/** Only the coordinates that have changed, in the file's own unit. */
export function moveEdits(room: Room, movable: Movable, place: PlanPlace): readonly SemanticEdit[] {
  const was = placeIn(room, movable);
  const show = showFor(room.habits);
  const set = (key: string, value_m: number): SemanticEdit => ({
    do: 'set',
    path: [movable.list, movable.id, 'at', key],
    value: show.length(value_m),
  });
  return [
    ...(was?.x_m === place.x_m ? [] : [set('x', place.x_m)]),
    ...(was?.y_m === place.y_m ? [] : [set('y', place.y_m)]),
  ];
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

function centimetres(value_m: number): number {
  return Math.round(value_m * 100) / 100;
}
