// The parts of a set-up that a fingerprint is made of: what of a room has to stay as it is for a measurement to hold.
//
// Left out on purpose: names for people, notes, the air (each session tells its own), what was measured, uncertainties, targets and
// policies, mains circuits, places to be kept clear, alternatives, and the record itself. Picked field by field, so that a
// fingerprint stays what it is when the model of a room grows.

import type { Room } from '../../schema/model/room.ts';
import type { Plain } from './canonical.ts';
import { placesPart, roomPart } from './roomParts.ts';
import { gearPart, settingsPart, wiringPart } from './signalParts.ts';

/** In the order of the fingerprint's digits. */
export const SETUP_PARTS = ['room', 'places', 'gear', 'wiring', 'settings'] as const;

/**
 * `room`: shape, surfaces, obstacles and panels. `places`: seats, loudspeakers and subwoofers, what they point at and are built into.
 * `gear`: models, single items, and what of their data shapes the signal. `wiring`: connections, channels, sets. `settings`: all
 * that is dialled in.
 */
export type SetupPart = (typeof SETUP_PARTS)[number];

export type RoomOfPart = Pick<
  Room,
  | 'space'
  | 'seats'
  | 'speakers'
  | 'subwoofers'
  | 'devices'
  | 'wiring'
  | 'sets'
  | 'settings'
  | 'faulty'
>;

/** Two connections, or two surfaces, in another order are the same. */
export function setupPart(part: SetupPart, room: RoomOfPart): Plain {
  switch (part) {
    case 'room':
      return roomPart(room);
    case 'places':
      return placesPart(room);
    case 'gear':
      return gearPart(room);
    case 'wiring':
      return wiringPart(room);
    case 'settings':
      return settingsPart(room);
  }
}
