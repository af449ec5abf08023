// Part of Setup, second phase: the low end at every seat, from the room's field, the sources and everything on their way.

import { boundaryCurves } from '../field/boundaryCurve.ts';
import { type FieldContext, fieldContext, noFieldNote } from '../field/context.ts';
import { crossoverInRoom } from '../field/crossoverInRoom.ts';
import type { TransfersOf } from '../field/curves.ts';
import { drawnTransfers, nominalTransfers } from '../field/drawn.ts';
import { createAtLevel, type Drive, type Drives, drivesOf, waysOf } from '../field/drives.ts';
import { fieldModes } from '../field/fieldModes.ts';
import { type Kept, kept, type Remembered, remembered } from '../field/kept.ts';
import { type PolarityMemory, polarities } from '../field/polarity.ts';
import { methodOf } from '../field/roomField.ts';
import { type GroupCurves, seatCurves } from '../field/seatCurves.ts';
import { surfaceNotes } from '../field/surfaces.ts';
import { createTransfers, type Transfers } from '../field/transfers.ts';
import { drawsOf, uncertaintyOf } from '../field/uncertainty.ts';
import type {
  BoundaryCurve,
  CrossoverInRoom,
  FieldFigures,
  PolarityFigures,
} from '../fieldFigures.ts';
import type { Note, Setup } from '../setup.ts';
import { trace } from '../signal/traced.ts';
import { crossoverCases } from './crossoverCase.ts';
import { memoPart } from './memo.ts';
import { placedSources } from './referenceSeat.ts';
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
  setup: Pick<Setup, 'room' | 'air' | 'space' | 'referenceSeat'> &
    Partial<Pick<Setup, 'crossovers'>>,
  options: FieldOptions,
) => FieldPart;

/**
 * A worker for one file: keeps fields by room, receivers and sources by place, filters by what is dialled in.
 *
 * @param transfers shared with whoever else asks for fields of the same file
 */
export function createFieldWork(transfers: Transfers = createTransfers()): FieldWork {
  const memory: Memory = {
    transfers,
    boundaries: kept(60),
    curves: remembered(MOST_GROUPS),
    polarities: { whole: remembered(MOST_GROUPS), overlap: remembered(MOST_GROUPS) },
  };
  const atLevel = createAtLevel();
  const steady = createSteadyRoom();
  const traced = memoPart(
    ['devices', 'wiring', 'settings', 'sets', 'speakers', 'subwoofers'],
    (room, frequency_hz: readonly number[]) => waysOf(room, trace(room).paths, frequency_hz),
  );
  const grids = kept<readonly number[]>(4);
  return (given, options) => {
    const { room, wired } = steady(given.room);
    const setup = { ...given, room };
    const found = fieldContext(setup);
    if (found === null) return { field: null, notes: [] };
    if (found.frequency_hz.length === 0) return { field: null, notes: [TOO_LARGE] };
    // The same grid is the very same list, by which ways and curves are remembered.
    const frequency_hz = grids(String(found.frequency_hz.at(-1)), () => found.frequency_hz);
    const context = { ...found, frequency_hz };
    const driven = drivesOf(room, traced({ ...room, ...wired }, frequency_hz), atLevel);
    try {
      return { field: figures(setup, context, driven, memory, options), notes: [] };
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

/** A mesh for every draw would take too long. */
const FIRST_ORDER: Note = {
  path: ['space'],
  message:
    'Not a box: in the envelope of its responses dimensions and absorption count to first order, each mode by itself',
};

type Of = Parameters<FieldWork>[0];

interface Memory {
  readonly transfers: Transfers;
  readonly boundaries: Kept<BoundaryCurve>;
  readonly curves: Remembered<GroupCurves>;
  readonly polarities: PolarityMemory;
}

/** Sources and channels of one room, in all its sets: more than any has. */
const MOST_GROUPS = 200;

function figures(
  setup: Of,
  context: FieldContext,
  { drives, level, notes }: Drives,
  memory: Memory,
  options: FieldOptions,
): FieldFigures {
  const { transfers } = memory;
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
        drawnTransfers(setup, context, sources, transfers, { draw, index }),
      )
    : [];
  const curves = seatCurves(context, usable, { nominal, draws }, memory.curves);
  const placed = sources.filter((source) => noFieldNote(context, source) === null);
  const reference = context.seats.findIndex(({ id }) => id === setup.referenceSeat);
  return {
    frequency_hz,
    method: methodOf(fieldRoom.shape),
    schroeder_hz: space?.schroeder_hz ?? null,
    damping: { from, assumed },
    level,
    seats: curves.seats,
    polarity: polarityOver(context, usable, nominal, { reference, memory }),
    spread: curves.spread,
    modes: fieldModes(
      transfers.field({ key: context.key, make: () => fieldRoom, frequency_hz }),
      placed,
      context.seats,
    ),
    boundaries: boundaryCurves(context, placed, reference, memory.boundaries),
    uncertainty: options.envelope ? uncertainty : null,
    ...(options.envelope && 0 <= reference
      ? { crossovers: crossoversAt(setup, context, usable, nominal, reference) }
      : {}),
    notes: [
      ...notes,
      ...problems,
      ...surfaceNotes(fieldRoom.surfaces),
      ...(options.envelope && fieldRoom.shape.box === null ? [FIRST_ORDER] : []),
    ],
  };
}

/** The crossovers of the Setup, in their order, with the room in their sums. */
function crossoversAt(
  { room, crossovers }: Of,
  { fieldRoom, frequency_hz }: FieldContext,
  drives: readonly Drive[],
  nominal: TransfersOf,
  reference: number,
): readonly CrossoverInRoom[] {
  if (crossovers === undefined || crossovers.length === 0) return [];
  const { density_kg_m3 } = fieldRoom.medium;
  const transferOf = (source: string) => nominal(source)?.[reference] ?? null;
  const at = { frequency_hz, density_kg_m3, transferOf };
  const cases = crossoverCases(room, trace(room).paths);
  return crossovers.flatMap((figures, index) => {
    const of = cases[index];
    return of === undefined ? [] : (crossoverInRoom(of, figures, drives, at) ?? []);
  });
}

/** Those of the reference seat, with what the same comes to at the others. */
function polarityOver(
  { fieldRoom, frequency_hz, seats }: FieldContext,
  drives: readonly Drive[],
  nominal: TransfersOf,
  { reference, memory }: { readonly reference: number; readonly memory: Memory },
): readonly PolarityFigures[] {
  const { density_kg_m3 } = fieldRoom.medium;
  const { whole, overlap } = memory.polarities;
  const at = seats.map(({ id }, index) => {
    const transferOf = (source: string) => nominal(source)?.[index] ?? null;
    const own: PolarityMemory = {
      whole: (name, inputs, make) => whole(JSON.stringify([id, name]), inputs, make),
      overlap,
    };
    return polarities(drives, { frequency_hz, density_kg_m3, transferOf }, own);
  });
  const others = seats.flatMap(({ id }, index) =>
    index === reference ? [] : (at[index] ?? []).map((figures) => ({ seat: id, figures })),
  );
  return (at[reference] ?? []).map((one) => ({
    ...one,
    elsewhere: others
      .filter(({ figures }) => figures.sub === one.sub && figures.set === one.set)
      .map(({ seat, figures: { asSet_db, turned_db } }) => ({ seat, asSet_db, turned_db })),
  }));
}
