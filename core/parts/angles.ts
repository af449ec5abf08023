// Part of Setup: under which angle each seat hears each loudspeaker and subwoofer.

import type { Room } from '../../schema/model/room.ts';
import { bearing } from '../acoustics/layoutAngles.ts';
import type { SeatFigures } from '../setup.ts';
import { placedSeats, placedSources, type Sounding } from './referenceSeat.ts';

export type SeatAngles = SeatFigures['angles'];

export interface AnglesPart {
  /** Every seat of the room, in its order; without angles where its place is not known. */
  readonly seats: readonly { readonly seat: string; readonly angles: SeatAngles }[];
}

/** Azimuth and elevation of every source that has a place, seen from every seat that has one. */
export function anglesPart(room: Sounding & Pick<Room, 'seats'>): AnglesPart {
  const sources = placedSources(room);
  const places = new Map(placedSeats(room).map(({ id, at }) => [id, at]));
  return {
    seats: room.seats.map(({ id }) => {
      const at = places.get(id);
      if (at === undefined) return { seat: id, angles: [] };
      return {
        seat: id,
        angles: sources.map((source) => {
          const { azimuth_rad, elevation_rad } = bearing(at, source.at);
          return { source: source.id, azimuth_rad, elevation_rad };
        }),
      };
    }),
  };
}
