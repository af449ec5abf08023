// Where a file says which layout is meant, and what a rule needs of one position with its loudspeaker.

import type { Path } from '../../../schema/model/path.ts';
import type { Point } from '../../../schema/model/quantities.ts';
import type { Room } from '../../../schema/model/room.ts';
import { isLfeName } from '../../layouts/channelNames.ts';
import type { LayoutFigures, Setup } from '../../setup.ts';
import { beyondRoom } from '../geometry/beyondRoom.ts';
import { seatAt } from '../places.ts';

export type Position = LayoutFigures['positions'][number];

/** The layout's own line: in the set, else in the targets, else the nearest thing that stands for it. */
export function layoutPath(room: Room, { set }: LayoutFigures): Path {
  const own = room.sets.find(({ id }) => id === set);
  if (own !== undefined && own.layout !== null) return ['sets', own.id, 'layout'];
  if (room.targets.layout !== null) return ['targets', 'layout'];
  return own === undefined ? ['speakers'] : ['sets', own.id];
}

/** One position of a layout with its loudspeaker and the seat, all in their places. */
export interface Stand {
  readonly layout: LayoutFigures;
  readonly position: Position;
  readonly id: string;
  readonly at: Point;
  readonly ear: Point;
  readonly azimuth_rad: number;
  readonly elevation_rad: number;
}

/** Every position that a placed loudspeaker fills, without the LFE ones and those whose place is wrong: outside the room. */
export function stands({ room, layouts }: Setup): readonly Stand[] {
  return layouts.flatMap((layout) =>
    layout.positions.flatMap((position): Stand[] => {
      const { speaker: id, azimuth_rad, elevation_rad, label } = position;
      const speaker = room.speakers.find((one) => one.id === id);
      const at = speaker?.at ?? null;
      const ear = seatAt(room, layout.seat);
      if (id === null || at === null || ear === null || isLfeName(label)) return [];
      if (beyondRoom(room.space, { at, flushIn: speaker?.flushIn ?? null }) !== null) return [];
      if (azimuth_rad === null || elevation_rad === null) return [];
      return [{ layout, position, id, at, ear, azimuth_rad, elevation_rad }];
    }),
  );
}

/** Whether left and right of a layout both stand where they can be judged. */
export function frontPairStands(all: readonly Stand[], layout: LayoutFigures): boolean {
  const fronts = all.filter(
    (stand) => stand.layout === layout && /^M[+-]030$/.test(stand.position.label),
  );
  return fronts.length === 2;
}

/** Whether the standard wants it at the height of the ears, and nowhere else. */
export function isAtEarHeight({ wantElevation_rad: [low, high] }: Position): boolean {
  return low === 0 && high === 0;
}

/** The value of a range that lies nearest. */
export function nearest(value: number, [low, high]: readonly [number, number]): number {
  return Math.min(high, Math.max(low, value));
}
