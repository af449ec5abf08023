// Which seat the room is set up for, and which things make sound in it.

import type { Point } from '../../schema/model/quantities.ts';
import type { Room, Seat, Speaker } from '../../schema/model/room.ts';

/** The seat with the role `reference`, else the first; undefined in a room without seats. */
export function referenceSeat(room: Pick<Room, 'seats'>): Seat | undefined {
  return room.seats.find(({ isReference }) => isReference) ?? room.seats[0];
}

/** What of a room makes sound. */
export type Sounding = Pick<Room, 'speakers' | 'subwoofers'>;

/** A loudspeaker or subwoofer whose place is known. */
export type PlacedSource = Speaker & { readonly at: Point; readonly isSubwoofer: boolean };

// A loudspeaker is never changed in place: the same one gives the same source again.
const sources = new WeakMap<Speaker, PlacedSource>();
const subwoofers = new WeakMap<Speaker, PlacedSource>();

/** Speakers, then subwoofers, in the file's order, without those whose place is not known. */
export function placedSources(room: Sounding): readonly PlacedSource[] {
  return [
    ...room.speakers.flatMap((speaker) => placed(speaker, false, sources) ?? []),
    ...room.subwoofers.flatMap((speaker) => placed(speaker, true, subwoofers) ?? []),
  ];
}

function placed(
  speaker: Speaker,
  isSubwoofer: boolean,
  known: WeakMap<Speaker, PlacedSource>,
): PlacedSource | null {
  const { at } = speaker;
  if (at === null) return null;
  const source = known.get(speaker) ?? { ...speaker, at, isSubwoofer };
  known.set(speaker, source);
  return source;
}

/** Seats whose place is known. */
export function placedSeats(room: Pick<Room, 'seats'>): readonly (Seat & { readonly at: Point })[] {
  return room.seats.flatMap((seat) => (seat.at === null ? [] : [{ ...seat, at: seat.at }]));
}
