// One thing of a room at another place of the plan, as while it is dragged.

import type { Room } from '../../schema/model/room.ts';

export type MovableList = 'seats' | 'speakers' | 'subwoofers';

export interface Movable {
  readonly list: MovableList;
  readonly id: string;
}

/** On the plan. */
export interface PlanPlace {
  readonly x_m: number;
  readonly y_m: number;
}

/** Its height stays. */
export function withMoved(room: Room, { list, id }: Movable, { x_m, y_m }: PlanPlace): Room {
  const moved = <Thing extends { readonly id: string; readonly at: Room['seats'][number]['at'] }>(
    things: readonly Thing[],
  ): readonly Thing[] =>
    things.map((thing) =>
      thing.id === id && thing.at !== null ? { ...thing, at: { ...thing.at, x_m, y_m } } : thing,
    );
  return { ...room, [list]: moved<Room[typeof list][number]>(room[list]) };
}
