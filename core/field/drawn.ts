// Transfers from every source to every seat: as things stand, and in the draws of slightly other rooms that make the envelope.

import { ceilingHeight_m } from '../acoustics/ceiling.ts';
import { withChange } from '../acoustics/complex.ts';
import type { Stretch } from '../elements/nearbySum.ts';
import type { PlacedSource } from '../parts/referenceSeat.ts';
import type { Setup } from '../setup.ts';
import { drawnRoom, drawnSurfaces, type FieldContext, moved, noFieldNote } from './context.ts';
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
  one: { readonly draw: Draw; readonly index: number },
): DrawnTransfers {
  return context.fieldRoom.shape.box === null
    ? nearbyTransfers(setup, context, sources, transfers, one)
    : boxTransfers(setup, context, sources, transfers, one);
}

type Drawing = typeof drawnTransfers;

/** A box is worked out anew. */
const boxTransfers: Drawing = (setup, context, sources, transfers, { draw, index }) => {
  const { fieldRoom, frequency_hz, seats, key } = context;
  const room = {
    key: `${key}\n${drawKey(draw, index)}`,
    make: () => drawnRoom(setup, fieldRoom, draw),
    frequency_hz,
  };
  const shape = { ...fieldRoom, shape: shapeOf(fieldRoom, draw) };
  const ears = seats.map((seat) => moved(shape, seat.at, draw.offset_m('seat', seat.index)));
  const nominal = nominalTransfers(context, sources, transfers);
  return {
    of: ofPlaced(setup, context, sources, (source, number) => {
      const at = moved(shape, source.at, draw.offset_m('source', number));
      // Drawn into a seat's near field, it stays where it is.
      return ears.every((ear) => areApart(ear, at))
        ? transfers.between(room, ears, at)
        : nominal(source.id);
    }),
    shift_ratio: 1,
  };
};

/**
 * A mesh for every draw would take too long. Here the whole room's field gets what the first order of its modes differs by between
 * the drawn room and itself; another speed of sound shifts the curve as it is.
 */
const nearbyTransfers: Drawing = (setup, context, sources, transfers, { draw, index }) => {
  const { fieldRoom, frequency_hz, seats, key } = context;
  const room = { key, make: () => fieldRoom, frequency_hz };
  const ears = seats.map(({ at }) => at);
  const drawn = ears.map((ear, i) =>
    moved(fieldRoom, ear, draw.offset_m('seat', seats[i]?.index ?? 0)),
  );
  const before = transfers.nearby(room, 'itself', () => ({
    stretch: [1, 1, 1],
    surfaces: fieldRoom.surfaces,
  }));
  const after = transfers.nearby(room, drawKey(draw, index), () => ({
    stretch: stretchOf(fieldRoom, draw),
    surfaces: drawnSurfaces(setup, fieldRoom, draw.absorption_ratio),
  }));
  const nominal = nominalTransfers(context, sources, transfers);
  return {
    of: ofPlaced(setup, context, sources, (source, number) => {
      const at = moved(fieldRoom, source.at, draw.offset_m('source', number));
      if (![...ears, ...drawn].every((ear) => areApart(ear, at))) return nominal(source.id);
      const about = JSON.stringify([ears, drawn, source.at, at]);
      return transfers.keep(`${key}\n${drawKey(draw, index)}\n${about}`, () =>
        transfers
          .between(room, ears, source.at)
          .map((whole, i) =>
            withChange(whole, before(ears[i] ?? at, source.at), after(drawn[i] ?? at, at)),
          ),
      );
    }),
    shift_ratio: draw.speed_ratio,
  };
};

function drawKey({ size_m, speed_ratio, absorption_ratio }: Draw, index: number): string {
  return `${index} ${JSON.stringify([size_m, speed_ratio, absorption_ratio])}`;
}

/** Each source that has a field, with its number in the room's lists; asked by every channel, looked up once. */
function ofPlaced(
  { room }: Pick<Setup, 'room'>,
  context: FieldContext,
  sources: readonly PlacedSource[],
  of: (source: PlacedSource, number: number) => ReturnType<TransfersOf>,
): TransfersOf {
  const places = new Map(sources.map((source) => [source.id, source]));
  const order = [...room.speakers, ...room.subwoofers].map(({ id }) => id);
  return once((id) => {
    const source = places.get(id);
    return source === undefined || noFieldNote(context, source) !== null
      ? null
      : of(source, order.indexOf(id));
  });
}

/** The draw's added lengths over the plan's extent and the room's height. */
function stretchOf({ shape }: FieldContext['fieldRoom'], { size_m }: Draw): Stretch {
  const across = shape.plan.map(({ x_m }) => x_m);
  const along = shape.plan.map(({ y_m }) => y_m);
  const heights = shape.plan.map((corner) => ceilingHeight_m(shape.ceiling, corner));
  const extents_m = [
    Math.max(...across) - Math.min(...across),
    Math.max(...along) - Math.min(...along),
    heights.reduce((sum, height) => sum + height, 0) / heights.length,
  ] as const;
  return [1 + size_m[0] / extents_m[0], 1 + size_m[1] / extents_m[1], 1 + size_m[2] / extents_m[2]];
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
