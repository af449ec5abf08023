// Transfers from every source to every seat: as things stand, and in the draws of slightly other rooms that make the envelope.

import type { PlacedSource } from '../parts/referenceSeat.ts';
import type { Setup } from '../setup.ts';
import { drawnRoom, type FieldContext, moved, noFieldNote } from './context.ts';
import type { TransfersOf } from './curves.ts';
import { areApart } from './roomField.ts';
import type { Transfers } from './transfers.ts';
import type { Draw } from './uncertainty.ts';

export interface DrawnTransfers {
  readonly of: TransfersOf;
  /** How far everything moves in frequency besides; 1 where the room itself was drawn anew. */
  readonly shift_ratio: number;
}

/** To every seat, as things stand. */
export function nominalTransfers(
  context: FieldContext,
  sources: readonly PlacedSource[],
  transfers: Transfers,
): TransfersOf {
  const { key, fieldRoom, frequency_hz, seats } = context;
  const room = { key, make: () => fieldRoom, frequency_hz };
  const ears = seats.map(({ at }) => at);
  const places = new Map(sources.map((source) => [source.id, source]));
  return once((id) => {
    const source = places.get(id);
    return source && noFieldNote(context, source) === null
      ? transfers.between(room, ears, source.at)
      : null;
  });
}

/** And in a slightly other room, of which `index` is the number. */
export function drawnTransfers(
  setup: Pick<Setup, 'room' | 'air'>,
  context: FieldContext,
  sources: readonly PlacedSource[],
  transfers: Transfers,
  { draw, index }: { readonly draw: Draw; readonly index: number },
): DrawnTransfers {
  const { fieldRoom, frequency_hz, seats, key } = context;
  const isBox = fieldRoom.shape.box !== null;
  const make = () => drawnRoom(setup, fieldRoom, draw);
  // Outside boxes a new room would cost a mesh: places move, and the whole curve is shifted instead.
  const room = {
    key: isBox
      ? `${key}\n${index}\n${JSON.stringify([draw.size_m, draw.speed_ratio, draw.absorption_ratio])}`
      : key,
    make: isBox ? make : () => fieldRoom,
    frequency_hz,
  };
  const shape = isBox ? { ...fieldRoom, shape: shapeOf(fieldRoom, draw) } : fieldRoom;
  const ears = isBox
    ? seats.map((seat) => moved(shape, seat.at, draw.offset_m('seat', seat.index)))
    : seats.map(({ at }) => at);
  const places = new Map(sources.map((source) => [source.id, source]));
  const nominal = nominalTransfers(context, sources, transfers);
  const order = [...setup.room.speakers, ...setup.room.subwoofers].map(({ id }) => id);
  return {
    of: once((id) => {
      const source = places.get(id);
      if (source === undefined || noFieldNote(context, source) !== null) return null;
      const at = moved(shape, source.at, draw.offset_m('source', order.indexOf(id)));
      // Drawn into a seat's near field, it stays where it is.
      return ears.every((ear) => areApart(ear, at))
        ? transfers.between(room, ears, at)
        : nominal(id);
    }),
    shift_ratio: isBox ? 1 : draw.speed_ratio,
  };
}

/** Asked by every channel; looked up once. */
function once(of: TransfersOf): TransfersOf {
  const known = new Map<string, ReturnType<TransfersOf>>();
  return (id) => {
    const answer = known.get(id) ?? of(id);
    known.set(id, answer);
    return answer;
  };
}

function shapeOf(
  { shape }: FieldContext['fieldRoom'],
  { size_m: [x, y, z] }: Draw,
): FieldContext['fieldRoom']['shape'] {
  return shape.box === null
    ? shape
    : { ...shape, box: { x_m: shape.box.x_m + x, y_m: shape.box.y_m + y, z_m: shape.box.z_m + z } };
}
