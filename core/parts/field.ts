// Part of Setup, second phase: the low end at every seat, from the room's field, the sources and everything on their way.

import type { ComplexResponse } from '../acoustics/complex.ts';
import { boundaryCurves } from '../field/boundaryCurve.ts';
import {
  drawnRoom,
  type FieldContext,
  fieldContext,
  moved,
  noFieldNote,
} from '../field/context.ts';
import {
  type CurveContext,
  curveExtremes,
  type Envelope,
  envelopeOf,
  fieldCurve,
  pressures,
  rounded_db,
  shifted_db,
  type TransfersOf,
} from '../field/curves.ts';
import { type Drive, type Drives, drivesOf, waysOf } from '../field/drives.ts';
import { fieldModes } from '../field/fieldModes.ts';
import { kept } from '../field/kept.ts';
import { polarities } from '../field/polarity.ts';
import { methodOf } from '../field/roomField.ts';
import { spreadOf } from '../field/spread.ts';
import { channelGroups, levels_dbspl, sourceGroups } from '../field/sums.ts';
import { createTransfers, type Transfers } from '../field/transfers.ts';
import { type Draw, drawsOf, uncertaintyOf } from '../field/uncertainty.ts';
import type { FieldFigures, PolarityFigures, SeatField, SpreadFigures } from '../fieldFigures.ts';
import type { Note, Setup } from '../setup.ts';
import { trace } from '../signal/traced.ts';
import { memoPart } from './memo.ts';
import { type PlacedSource, placedSources } from './referenceSeat.ts';
import { createSteadyRoom } from './steadyRoom.ts';

export interface FieldOptions {
  /** Without it curves have no envelope: for what must follow a hand. */
  readonly envelope: boolean;
}

export interface FieldPart {
  /** null where there is no room, no height, or no mesh that fits. */
  readonly field: FieldFigures | null;
  readonly notes: readonly Note[];
}

export type FieldWork = (
  setup: Pick<Setup, 'room' | 'air' | 'space' | 'referenceSeat'>,
  options: FieldOptions,
) => FieldPart;

/** A worker for one file: keeps fields by room, receivers and sources by place, filters by what is dialled in. */
export function createFieldWork(): FieldWork {
  const transfers = createTransfers();
  const steady = createSteadyRoom();
  const traced = memoPart(
    ['devices', 'wiring', 'settings', 'sets', 'speakers', 'subwoofers'],
    (room, frequency_hz: readonly number[]) => waysOf(room, trace(room).paths, frequency_hz),
  );
  const grids = kept<readonly number[]>(4);
  return (given, options) => {
    const { room, wired } = steady(given.room);
    const setup = { ...given, room };
    const context = fieldContext(setup);
    if (context === null) return { field: null, notes: [] };
    if (context.frequency_hz.length === 0) return { field: null, notes: [TOO_LARGE] };
    // The same grid is the very same list, by which the ways are remembered.
    const { frequency_hz } = context;
    const grid_hz = grids(String(frequency_hz.at(-1)), () => frequency_hz);
    const driven = drivesOf(room, traced({ ...room, ...wired }, grid_hz));
    try {
      return { field: figures(setup, context, driven, transfers, options), notes: [] };
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      const message = `The low end cannot be worked out in this plan: ${error.message}`;
      return { field: null, notes: [{ path: ['space'], message }] };
    }
  };
}

const TOO_LARGE: Note = {
  path: ['space'],
  message: 'Too large a room for single modes: its low end is not worked out',
};

type Of = Parameters<FieldWork>[0];

function figures(
  setup: Of,
  context: FieldContext,
  { drives, level, notes }: Drives,
  transfers: Transfers,
  options: FieldOptions,
): FieldFigures {
  const { room, space } = setup;
  const { fieldRoom, frequency_hz } = context;
  const sources = placedSources(room);
  const problems = sources.flatMap((source) => noFieldNote(context, source) ?? []);
  const usable = drives.filter(({ source }) => noFieldNote(context, source) === null);
  const nominal = nominalTransfers(context, sources, transfers);
  const { from, assumed } = fieldRoom.surfaces;
  const uncertainty = uncertaintyOf({ room, air: setup.air, from, assumedCount: assumed.length });
  const draws = options.envelope
    ? drawsOf(room, uncertainty).map((draw, index) =>
        drawnTransfers(setup, context, sources, transfers, draw, index),
      )
    : [];
  const curves = seatCurves(context, usable, nominal, draws);
  const placed = sources.filter((source) => noFieldNote(context, source) === null);
  const reference = context.seats.findIndex(({ id }) => id === setup.referenceSeat);
  return {
    frequency_hz,
    method: methodOf(fieldRoom.shape),
    schroeder_hz: space?.schroeder_hz ?? null,
    damping: { from, assumed },
    level,
    seats: curves.seats,
    polarity: reference < 0 ? [] : polarityAt(context, usable, nominal, reference),
    spread: curves.spread,
    modes: fieldModes(
      transfers.field({ key: context.key, make: () => fieldRoom, frequency_hz }),
      placed,
      context.seats,
    ),
    boundaries: boundaryCurves(context, placed, reference),
    uncertainty: options.envelope ? uncertainty : null,
    notes: [...notes, ...problems, ...surfaceNotes(context)],
  };
}

interface DrawnTransfers {
  readonly of: TransfersOf;
  /** How far everything moves in frequency besides; 1 where the room itself was drawn anew. */
  readonly shift_ratio: number;
}

function nominalTransfers(
  context: FieldContext,
  sources: readonly PlacedSource[],
  transfers: Transfers,
): TransfersOf {
  const { key, fieldRoom, frequency_hz, seats } = context;
  const room = { key, make: () => fieldRoom, frequency_hz };
  const ears = seats.map(({ at }) => at);
  const places = new Map(sources.map((source) => [source.id, source]));
  return (id) => {
    const source = places.get(id);
    return source && noFieldNote(context, source) === null
      ? transfers.between(room, ears, source.at)
      : null;
  };
}

function drawnTransfers(
  setup: Of,
  context: FieldContext,
  sources: readonly PlacedSource[],
  transfers: Transfers,
  draw: Draw,
  index: number,
): DrawnTransfers {
  const { fieldRoom, frequency_hz, seats, key } = context;
  const isBox = fieldRoom.shape.box !== null;
  const make = () => drawnRoom(setup, fieldRoom, draw);
  // Outside boxes a new room would cost a mesh: places move, and the whole curve is shifted_db instead.
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
  const order = [...setup.room.speakers, ...setup.room.subwoofers].map(({ id }) => id);
  return {
    of: (id) => {
      const source = places.get(id);
      if (source === undefined || noFieldNote(context, source) !== null) return null;
      return transfers.between(
        room,
        ears,
        moved(shape, source.at, draw.offset_m('source', order.indexOf(id))),
      );
    },
    shift_ratio: isBox ? 1 : draw.speed_ratio,
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

function seatCurves(
  { fieldRoom, frequency_hz, seats }: FieldContext,
  drives: readonly Drive[],
  nominal: TransfersOf,
  draws: readonly DrawnTransfers[],
): { readonly seats: readonly SeatField[]; readonly spread: readonly SpreadFigures[] } {
  const { density_kg_m3 } = fieldRoom.medium;
  const about: CurveContext = { frequency_hz, density_kg_m3, seatCount: seats.length };
  const curvesOf = (group: readonly Drive[]) => {
    const here = pressures(group, about, nominal);
    const levels = here.map(levels_dbspl);
    const drawn = draws.map(({ of, shift_ratio }) =>
      pressures(group, about, of).map((pressure) =>
        shift_ratio === 1
          ? levels_dbspl(pressure)
          : shifted_db(frequency_hz, levels_dbspl(pressure), shift_ratio),
      ),
    );
    const envelope = (seat: number): Envelope | null =>
      draws.length === 0
        ? null
        : envelopeOf([...drawn, levels].flatMap((bySeat) => bySeat[seat] ?? []));
    return {
      levels,
      at: (seat: number) => {
        const pressure = here[seat] as ComplexResponse;
        return fieldCurve(pressure, envelope(seat), curveExtremes(pressure, group, frequency_hz));
      },
    };
  };
  const bySource = sourceGroups(drives).map((group) => ({ group, curves: curvesOf(group.drives) }));
  const byChannel = channelGroups(drives).map((group) => ({
    group,
    curves: curvesOf(group.drives),
  }));
  return {
    seats: seats.map(({ id }, seat) => ({
      seat: id,
      sources: bySource.map(({ group: { source, set, channel }, curves }) => ({
        source,
        set,
        channel,
        ...curves.at(seat),
      })),
      channels: byChannel.map(({ group, curves }) => ({
        channel: group.channel,
        set: group.set,
        sources: [...new Set(group.drives.map(({ source }) => source.id))],
        ...curves.at(seat),
      })),
    })),
    spread: byChannel.flatMap(({ group: { channel, set }, curves }) => {
      const spread = spreadOf(frequency_hz, curves.levels);
      return spread ? [{ channel, set, ...spread }] : [];
    }),
  };
}

function polarityAt(
  { fieldRoom, frequency_hz }: FieldContext,
  drives: readonly Drive[],
  nominal: TransfersOf,
  seat: number,
): readonly PolarityFigures[] {
  const { density_kg_m3 } = fieldRoom.medium;
  const transferOf = (source: string) => nominal(source)?.[seat] ?? null;
  return polarities(drives, { frequency_hz, density_kg_m3, transferOf }).map((figures) => ({
    ...figures,
    curve: {
      asSet_db: rounded_db(figures.curve.asSet_db),
      turned_db: rounded_db(figures.curve.turned_db),
    },
  }));
}

function surfaceNotes({ fieldRoom }: FieldContext): readonly Note[] {
  const { from, assumed, beyond } = fieldRoom.surfaces;
  const notes: Note[] = [];
  if (from === 'measured')
    notes.push({
      path: ['space', 'decay_time'],
      message:
        'Damping of the bass: absorption of the surfaces, scaled in each band so that oblique modes decay as measured; level below the lowest measured band',
    });
  if (0 < assumed.length)
    notes.push({
      path: ['space', 'surfaces'],
      message: `No covering known for ${assumed.join(', ')}: absorption 0.15 is assumed in the bass`,
    });
  if (0 < beyond.length)
    notes.push({
      path: ['space', 'surfaces'],
      message: `${beyond.join(', ')}: more absorption than a real admittance can give, 0.95 is taken`,
    });
  return notes;
}
