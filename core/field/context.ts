// What the field of a room depends on, gathered from its Setup: shape, surfaces, air, grid; and the same for slightly other rooms.

import type { Room } from '../../schema/model/room.ts';
import { volume_m3 } from '../acoustics/ceiling.ts';
import type { Point3 } from '../acoustics/point.ts';
import { area_m2, rectangle } from '../acoustics/polygon.ts';
import { measuredDecayTime } from '../parts/decayTime.ts';
import { placedSeats } from '../parts/referenceSeat.ts';
import { roomShape } from '../parts/roomShape.ts';
import type { AirFigures, Note, Setup } from '../setup.ts';
import { fieldGrid_hz } from './grid.ts';
import { areApart, type FieldRoom, isInside, methodOf } from './roomField.ts';
import { type FieldSurfaces, fieldSurfaces } from './surfaces.ts';
import type { Draw } from './uncertainty.ts';

export interface FieldContext {
  /** The same text for the same field. */
  readonly key: string;
  readonly fieldRoom: FieldRoom;
  readonly frequency_hz: readonly number[];
  /** Seats that have a place inside. */
  readonly seats: readonly { readonly id: string; readonly at: Point3; readonly index: number }[];
}

/**
 * @param frequency_hz the grid; the method's own where none is given
 * @returns null where the room has no shape or no height
 */
export function fieldContext(
  { room, air }: Pick<Setup, 'room' | 'air'>,
  frequency_hz?: readonly number[],
): FieldContext | null {
  const fieldRoom = fieldRoomOf(room, air, 1);
  if (fieldRoom === null) return null;
  const grid = frequency_hz ?? ownGrid_hz(fieldRoom);
  const { shape, surfaces, fixtures, decayTime_s } = room.space;
  const panels = fixtures.filter(({ kind }) => kind === 'panel');
  const about = [
    shape,
    surfaces,
    panels,
    decayTime_s,
    air.speedOfSound_m_s,
    air.density_kg_m3,
    frequency_hz ?? null,
  ];
  const indices = new Map(room.seats.map(({ id }, index) => [id, index]));
  return {
    key: JSON.stringify(about),
    fieldRoom,
    frequency_hz: grid,
    seats: placedSeats(room).flatMap(({ id, at }) =>
      isInside(fieldRoom.shape, at) ? [{ id, at, index: indices.get(id) ?? 0 }] : [],
    ),
  };
}

function ownGrid_hz({ shape, medium }: FieldRoom): readonly number[] {
  return fieldGrid_hz(methodOf(shape), {
    volume_m3: volume_m3(shape.plan, shape.ceiling),
    floorArea_m2: area_m2(shape.plan),
    speedOfSound_m_s: medium.speedOfSound_m_s,
  });
}

/** The room with what absorbs multiplied; null where it has no shape or height. */
function fieldRoomOf(
  { space }: Pick<Room, 'space'>,
  air: AirFigures,
  absorption_ratio: number,
): FieldRoom | null {
  const shape = roomShape(space);
  if (shape === null || shape.ceiling === null) return null;
  const volume = volume_m3(shape.plan, shape.ceiling);
  if (!(0 < volume)) return null;
  const { ceiling } = shape;
  return {
    shape: { ...shape, ceiling },
    surfaces: fieldSurfaces(shape, space, {
      volume_m3: volume,
      speedOfSound_m_s: air.speedOfSound_m_s,
      measured: measuredDecayTime(space.decayTime_s),
      factor: absorption_ratio,
    }),
    medium: { speedOfSound_m_s: air.speedOfSound_m_s, density_kg_m3: air.density_kg_m3 },
  };
}

/** The same walls, with what absorbs multiplied. */
export function drawnSurfaces(
  { room, air }: Pick<Setup, 'room' | 'air'>,
  nominal: FieldRoom,
  absorption_ratio: number,
): FieldSurfaces {
  return fieldRoomOf(room, air, absorption_ratio)?.surfaces ?? nominal.surfaces;
}

/** A slightly other room, of box rooms; other shapes stay as they are. */
export function drawnRoom(
  { room, air }: Pick<Setup, 'room' | 'air'>,
  nominal: FieldRoom,
  { size_m, speed_ratio, absorption_ratio }: Draw,
): FieldRoom {
  const drawn = fieldRoomOf(room, air, absorption_ratio);
  const size = nominal.shape.box;
  if (drawn === null || size === null) return nominal;
  const box = {
    x_m: size.x_m + size_m[0],
    y_m: size.y_m + size_m[1],
    z_m: size.z_m + size_m[2],
  };
  return {
    ...drawn,
    shape: {
      ...drawn.shape,
      box,
      plan: rectangle(box.x_m, box.y_m),
      ceiling: { ...drawn.shape.ceiling, atOrigin_m: box.z_m },
    },
    medium: {
      ...drawn.medium,
      speedOfSound_m_s: drawn.medium.speedOfSound_m_s * speed_ratio,
    },
  };
}

/** A place moved a little, kept within a box and off other places' near field. */
export function moved(
  { shape }: FieldRoom,
  at: Point3,
  [x, y, z]: readonly [number, number, number],
): Point3 {
  const to = { x_m: at.x_m + x, y_m: at.y_m + y, z_m: at.z_m + z };
  if (shape.box === null) return isInside(shape, to) ? to : at;
  const clamp = (value: number, most: number) => Math.min(Math.max(0, value), most);
  return {
    x_m: clamp(to.x_m, shape.box.x_m),
    y_m: clamp(to.y_m, shape.box.y_m),
    z_m: clamp(to.z_m, shape.box.z_m),
  };
}

/** Why a source has no field: outside the room, or nearer to a seat than the room counts; null where it has one. */
export function noFieldNote(
  { fieldRoom, seats }: FieldContext,
  source: { readonly id: string; readonly at: Point3; readonly isSubwoofer: boolean },
): Note | null {
  const path = [source.isSubwoofer ? 'subwoofers' : 'speakers', source.id, 'at'];
  if (!isInside(fieldRoom.shape, source.at))
    return { path, message: `${source.id} is not inside the room: no response can be predicted` };
  const near = seats.find(({ at }) => !areApart(at, source.at));
  return near
    ? { path, message: `${source.id} is at ${near.id}'s ears: no response can be predicted` }
    : null;
}
