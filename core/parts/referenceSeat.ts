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

/** Speakers, then subwoofers, in the file's order, without those whose place is not known. */
export function placedSources(room: Sounding): readonly PlacedSource[] {
  const placed = (speakers: readonly Speaker[], isSubwoofer: boolean) =>
    speakers.flatMap((speaker) =>
      speaker.at === null ? [] : [{ ...speaker, at: speaker.at, isSubwoofer }],
    );
  return [...placed(room.speakers, false), ...placed(room.subwoofers, true)];
}

/** Seats whose place is known. */
export function placedSeats(room: Pick<Room, 'seats'>): readonly (Seat & { readonly at: Point })[] {
  return room.seats.flatMap((seat) => (seat.at === null ? [] : [{ ...seat, at: seat.at }]));
}
