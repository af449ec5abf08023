// Where things stand in the file and in the room: paths and points for the rules, and lengths as text for their fixes.

import type { Path } from '../../schema/model/path.ts';
import type { Habits, Point } from '../../schema/model/quantities.ts';
import type { Room } from '../../schema/model/room.ts';
import type { Fix } from '../finding.ts';
import { showFor } from '../show.ts';

/** A tenth of a millimetre: what the decimal digits of a file leave. */
export const ROUNDING_M = 1e-4;

/** A seat, loudspeaker or subwoofer whose place is known. */
export interface Thing {
  readonly id: string;
  readonly kind: 'seat' | 'speaker' | 'subwoofer';
  readonly at: Point;
  readonly path: Path;
  readonly flushIn: string | null;
}

/** Seats, speakers and subwoofers that have a place, in the file's order. */
export function thingsOf(room: Room): readonly Thing[] {
  const seats = room.seats.map(({ id, at }) => ({
    id,
    at,
    kind: 'seat' as const,
    path: ['seats', id],
    flushIn: null,
  }));
  const speakers = room.speakers.map(({ id, at, flushIn }) => ({
    id,
    at,
    kind: 'speaker' as const,
    path: ['speakers', id],
    flushIn,
  }));
  const subwoofers = room.subwoofers.map(({ id, at, flushIn }) => ({
    id,
    at,
    kind: 'subwoofer' as const,
    path: ['subwoofers', id],
    flushIn,
  }));
  return [...seats, ...speakers, ...subwoofers].flatMap((thing) =>
    thing.at === null ? [] : [{ ...thing, at: thing.at }],
  );
}

/** Where a loudspeaker or subwoofer stands in the file. */
export function sourcePath(room: Room, id: string): Path {
  return room.subwoofers.some((sub) => sub.id === id) ? ['subwoofers', id] : ['speakers', id];
}

/** The place of a loudspeaker or subwoofer; null where it is not known. */
export function sourceAt(room: Room, id: string | null): Point | null {
  return [...room.speakers, ...room.subwoofers].find((source) => source.id === id)?.at ?? null;
}

export function seatAt(room: Room, id: string | null): Point | null {
  return room.seats.find((seat) => seat.id === id)?.at ?? null;
}

/** A fix that moves a thing: edits only the coordinates that change by half a millimetre or more. */
export function moveFix(room: Room, path: Path, from: Point, to: Point, title: string): Fix {
  const edits = (['x', 'y', 'z'] as const)
    .filter((axis) => 0.0005 <= Math.abs(from[`${axis}_m`] - to[`${axis}_m`]))
    .map((axis) => ({
      do: 'set' as const,
      path: [...path, 'at', axis],
      value: lengthText(to[`${axis}_m`], room.habits),
    }));
  return { title, edits, safe: false };
}

/** A length as it may stand in the file: to the millimetre, in the file's own unit. */
export function lengthText(length_m: number, habits: Habits): string {
  if (habits.length === 'feet') return showFor(habits).length(length_m);
  if (habits.length === 'millimetre') return `${Math.round(length_m * 1000)} mm`;
  const text = length_m.toFixed(3).replace(/0$/, '');
  return `${Number(text) === 0 ? '0' : text} m`;
}
