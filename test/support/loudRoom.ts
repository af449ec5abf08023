// A room whose levels can be worked out by hand: source of +18 dBu, two mains at 2 m that make 110 dB peak at 1 m from +18 dBu.

import type { Gear } from '../../schema/model/gear.ts';
import type { Room } from '../../schema/model/room.ts';
import { EMPTY_ROOM, point, roomWith, seat, speaker } from './rooms.ts';
import { DBU_18_V, device, MAIN, SOURCE, settings, wires } from './wiredRooms.ts';

/** 110 dB peak at 1 m in every band from 63 Hz. */
export const LOUD: Gear = {
  ...MAIN,
  maxLevel: {
    distance_m: 1,
    space: 'full',
    peak_db: { frequency_hz: [63, 1000], value: [110, 110] },
  },
};

const HALF_BASE_M = 1;
const FRONT_M = Math.sqrt(2 ** 2 - HALF_BASE_M ** 2);

/** Mains 2 m from the seat, wired straight to the source. */
export function loudRoom(level_db: number, parts: Partial<Room> = {}, gear: Gear = LOUD): Room {
  const main = (id: string, channel: string, x_m: number) =>
    speaker(id, channel, point(x_m, 1, 1.2), { gear, gearId: gear.id });
  return roomWith({
    seats: [seat('mix', point(2.5, 1 + FRONT_M, 1.2))],
    speakers: [main('left', 'L', 2.5 - HALF_BASE_M), main('right', 'R', 2.5 + HALF_BASE_M)],
    devices: [device('desk', { ...SOURCE, fullLevelOutput_v: DBU_18_V })],
    wiring: wires('desk.main_left -> left.in', 'desk.main_right -> right.in'),
    targets: { ...EMPTY_ROOM.targets, referenceLevel: { level_db, weighting: 'C' } },
    settings: [settings('left', {}), settings('right', {})],
    ...parts,
  });
}
