// Two variants at once: the room as both say that it is otherwise.

import type { Point3 } from '../acoustics/point.ts';
import type { Variant } from './variant.ts';

/** Of two sets of decay times the other's counts. @returns null where both say where the same loudspeaker stands, or move different seats: then they cannot both be so */
export function together(one: Variant, other: Variant): Variant | null {
  const places = placesOf(one.places, other.places);
  const seatOffset_m = seatOf(one.seatOffset_m, other.seatOffset_m);
  if (places === null || seatOffset_m === null) return null;
  const turned = turnedOf(one.turned, other.turned);
  const late_s = sumOf(one.late_s, other.late_s);
  const gain_db = sumOf(one.gain_db, other.gain_db);
  const size_m = sizeOf(one.size_m, other.size_m);
  const speed_ratio = (one.speed_ratio ?? 1) * (other.speed_ratio ?? 1);
  const decayTime_s = other.decayTime_s ?? one.decayTime_s;
  return {
    ...(places ? { places } : {}),
    ...(seatOffset_m ? { seatOffset_m } : {}),
    ...(turned ? { turned } : {}),
    ...(late_s ? { late_s } : {}),
    ...(gain_db ? { gain_db } : {}),
    ...(size_m ? { size_m } : {}),
    ...(speed_ratio === 1 ? {} : { speed_ratio }),
    ...(decayTime_s ? { decayTime_s } : {}),
  };
}

type Places = ReadonlyMap<string, Point3>;

function placesOf(one: Places | undefined, other: Places | undefined): Places | undefined | null {
  if (!one || !other) return one ?? other;
  return [...one.keys()].some((id) => other.has(id)) ? null : new Map([...one, ...other]);
}

type SeatOffset = Variant['seatOffset_m'];

function seatOf(one: SeatOffset, other: SeatOffset): SeatOffset | null {
  if (!one || !other) return one ?? other;
  if (one.seat !== other.seat) return null;
  return { seat: one.seat, by_m: added(one.by_m, other.by_m) };
}

/** Turned twice is not turned. */
function turnedOf(one: Variant['turned'], other: Variant['turned']): Variant['turned'] {
  if (!one || !other) return one ?? other;
  const twice = (id: string) => one.has(id) && other.has(id);
  return new Set([...one, ...other].filter((id) => !twice(id)));
}

type Numbers = ReadonlyMap<string, number>;

function sumOf(one: Numbers | undefined, other: Numbers | undefined): Numbers | undefined {
  if (!one || !other) return one ?? other;
  return new Map(
    [...one.keys(), ...other.keys()].map((id) => [id, (one.get(id) ?? 0) + (other.get(id) ?? 0)]),
  );
}

function sizeOf(one: Variant['size_m'], other: Variant['size_m']): Variant['size_m'] {
  return one && other ? added(one, other) : (one ?? other);
}

type Triple = readonly [number, number, number];

function added([ax, ay, az]: Triple, [bx, by, bz]: Triple): Triple {
  return [ax + bx, ay + by, az + bz];
}
