// Transfers with memory: fields by room, receivers by place, sources by place, so that a moved source costs one source only.

import type { ComplexResponse } from '../acoustics/complex.ts';
import type { Point3 } from '../acoustics/point.ts';
import { type NearbySum, nearbySum, type Stretch } from '../elements/nearbySum.ts';
import { type Kept, kept } from './kept.ts';
import { type FieldRoom, prepareRoomField, type RoomField, surfacesOf } from './roomField.ts';
import type { FieldSurfaces } from './surfaces.ts';

/** A room of which fields are kept. */
export interface KeyedRoom {
  /** The same text for the same field. */
  readonly key: string;
  readonly make: () => FieldRoom;
  readonly frequency_hz: readonly number[];
}

export interface Transfers {
  readonly field: (room: KeyedRoom) => RoomField;
  /** From a source to each receiver of a room. */
  readonly between: (
    room: KeyedRoom,
    receivers: readonly Point3[],
    source: Point3,
  ) => readonly ComplexResponse[];
  /** First-order sums of a room that is no box, stretched and with other surfaces; `name` tells them apart. */
  readonly nearby: (
    room: KeyedRoom,
    name: string,
    of: () => { readonly stretch: Stretch; readonly surfaces: FieldSurfaces },
  ) => NearbySum;
  /** Transfers that are made of others. */
  readonly keep: Kept<readonly ComplexResponse[]>;
}

/** A room as stated, its draws, and the same once more for one that is being edited. */
const MOST_FIELDS = 30;
/** Thirty loudspeakers in all draws of one room. */
const MOST_TRANSFERS = 500;

/** One worker for one file. */
export function createTransfers(): Transfers {
  const fields = kept<RoomField>(MOST_FIELDS);
  const listenings = kept<ReturnType<RoomField['listenAt']>>(MOST_FIELDS);
  const transfers = kept<readonly ComplexResponse[]>(MOST_TRANSFERS);
  const field: Transfers['field'] = ({ key, make, frequency_hz }) =>
    fields(key, () => prepareRoomField(make(), frequency_hz));
  const sums = kept<NearbySum>(MOST_FIELDS);
  return {
    field,
    keep: transfers,
    nearby: (room, name, of) =>
      sums(`${room.key}\n${name}`, () => {
        const { parts } = field(room);
        if (parts === null) throw new RangeError('boxes need no sums of the first order');
        const { shape, medium } = room.make();
        const { stretch, surfaces } = of();
        const origin = {
          x_m: Math.min(...shape.plan.map(({ x_m }) => x_m)),
          y_m: Math.min(...shape.plan.map(({ y_m }) => y_m)),
        };
        const nearby = { stretch, surfacesAt: surfacesOf(surfaces), medium };
        return nearbySum(parts(), shape.plan, origin, nearby, room.frequency_hz);
      }),
    between: (room, receivers, source) => {
      const at = `${room.key}\n${JSON.stringify(receivers)}`;
      return transfers(`${at}\n${JSON.stringify(source)}`, () =>
        listenings(at, () => field(room).listenAt(receivers))(source),
      );
    },
  };
}
