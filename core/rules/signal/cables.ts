// Cables as the rules ask for them: where they stand in the file, what they are called, how far apart their ends are.

import type { Path } from '../../../schema/model/path.ts';
import type { Cable, CableEnd, Room } from '../../../schema/model/room.ts';
import { distance_m } from '../../acoustics/point.ts';

/** "sub_line (W-03)". */
export function cableText({ id, label }: Cable): string {
  return label === null ? id : `${id} (${label})`;
}

/** `desk`, or `desk.main_left`. */
export function cableEndText({ device, port }: CableEnd): string {
  return port === null ? device : `${device}.${port}`;
}

export function cablePath({ id }: Cable, key: 'length' | null = null): Path {
  return key === null ? ['cables', id] : ['cables', id, key];
}

/** The straight line between the things at its ends; null where the place of one of them is not known. */
export function apart_m(
  { speakers, subwoofers, devices }: Room,
  { from, to }: Cable,
): number | null {
  const things = [...speakers, ...subwoofers, ...devices];
  const placeOf = (id: string) => things.find((thing) => thing.id === id)?.at ?? null;
  const [start, end] = [placeOf(from.device), placeOf(to.device)];
  return start === null || end === null ? null : distance_m(start, end);
}
