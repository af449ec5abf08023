// Pressure over the plan at one frequency, from one source or all that a channel drives.

import type { ComplexResponse } from '../acoustics/complex.ts';
import { pressureMap } from '../acoustics/field/pressureMap.ts';
import type { Point3 } from '../acoustics/point.ts';
import type { OverPlaces } from '../elements/prismField.ts';
import type { FieldMap, FieldMapRequest } from '../fieldFigures.ts';
import { memoPart } from '../parts/memo.ts';
import { createSteadyRoom } from '../parts/steadyRoom.ts';
import type { Setup } from '../setup.ts';
import { trace } from '../signal/traced.ts';
import { type FieldContext, fieldContext, noFieldNote } from './context.ts';
import { type Drive, drivesOf, waysOf } from './drives.ts';
import { kept, remembered } from './kept.ts';
import { boxAt, isInside } from './roomField.ts';
import { addPressure, channelGroups, level_dbspl, silence, sourceGroups } from './sums.ts';
import { createTransfers, type Transfers } from './transfers.ts';

/** null where the room has no size, or nothing of that name sounds in it. */
export type FieldMaps = (
  setup: Pick<Setup, 'room' | 'air'>,
  request: FieldMapRequest,
) => FieldMap | null;

/**
 * A worker for one file: outside boxes the modes of the room are found once, so that other frequencies and sources are quick.
 *
 * @param transfers whose fields are used too
 */
export function createFieldMaps(transfers: Transfers = createTransfers()): FieldMaps {
  const grids = kept<OverPlaces>(4);
  const gridsOf = remembered<Grid>(1);
  const steady = createSteadyRoom();
  const paths = memoPart(
    ['devices', 'wiring', 'settings', 'sets', 'speakers', 'subwoofers'],
    (room) => trace(room).paths,
  );
  return (given, request) => {
    const { frequency_hz, height_m } = request;
    const { room, wired } = steady(given.room);
    const setup = { ...given, room };
    const context = fieldContext(setup, [frequency_hz]);
    if (context === null || !(0 < frequency_hz)) return null;
    const ways = waysOf(room, paths({ ...room, ...wired }), context.frequency_hz);
    const drives = wantedDrives(room, ways, context, request);
    if (drives.length === 0) return null;
    const { columns, rows } = request;
    // Thousands of places, the same ones while only the frequency moves.
    const grid = gridsOf('', [room.space, columns, rows, height_m], () => gridAt(context, request));
    const transferOf =
      context.fieldRoom.shape.box === null
        ? elementsOver(setup, context, grid, { transfers, grids })
        : boxOver(context, grid);
    return mapOf(context, drives, grid, transferOf);
  };
}

/** The same once, with nothing kept. */
export const fieldMap: FieldMaps = (setup, request) => createFieldMaps()(setup, request);

interface Grid {
  readonly height_m: number;
  readonly x_m: readonly number[];
  readonly y_m: readonly number[];
  /** Row by row. */
  readonly places: readonly Point3[];
  readonly inside: readonly boolean[];
}

function mapOf(
  { fieldRoom, frequency_hz: [f_hz = 0] }: FieldContext,
  drives: readonly Drive[],
  { height_m, x_m, y_m, places, inside }: Grid,
  transferOf: (drive: Drive) => ComplexResponse,
): FieldMap {
  const sum = silence(places.length);
  const frequencies = new Array<number>(places.length).fill(f_hz);
  for (const drive of drives) {
    const everywhere = { ...drive, pressure_pa: spread(drive, places.length) };
    const { density_kg_m3 } = fieldRoom.medium;
    addPressure(sum, transferOf(drive), everywhere, frequencies, density_kg_m3);
  }
  return {
    frequency_hz: f_hz,
    height_m,
    x_m,
    y_m,
    level_db: inside.map((isHere, at) => {
      if (!isHere) return null;
      const square = (sum.re[at] ?? 0) ** 2 + (sum.im[at] ?? 0) ** 2;
      return Math.round(level_dbspl(square) * 100) / 100 + 0;
    }),
  };
}

function wantedDrives(
  room: Setup['room'],
  ways: ReturnType<typeof waysOf>,
  context: FieldContext,
  { of }: FieldMapRequest,
): readonly Drive[] {
  const { drives } = drivesOf(room, ways);
  const usable = drives.filter(({ source }) => noFieldNote(context, source) === null);
  const group =
    'source' in of
      ? sourceGroups(usable).find(({ source }) => source === of.source)
      : channelGroups(usable).find(({ channel, set }) => channel === of.channel && set === of.set);
  return group?.drives ?? [];
}

/** More than any screen shows. */
const MOST_POINTS = 40_000;

function gridAt(context: FieldContext, request: FieldMapRequest): Grid {
  const { height_m } = request;
  const [x_m, y_m] = gridOver(context, request);
  const places = y_m.flatMap((y) => x_m.map((x): Point3 => ({ x_m: x, y_m: y, z_m: height_m })));
  const inside = places.map((place) => isInside(context.fieldRoom.shape, place));
  return { height_m, x_m, y_m, places, inside };
}

/** Middles of even cells over the plan's bounds. */
function gridOver(
  { fieldRoom }: FieldContext,
  { columns, rows }: FieldMapRequest,
): readonly [readonly number[], readonly number[]] {
  const { plan } = fieldRoom.shape;
  const count = (wanted: number) =>
    Math.max(1, Math.min(Math.floor(wanted), Math.floor(Math.sqrt(MOST_POINTS))));
  const cells = (values: readonly number[], wanted: number) => {
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const cellCount = count(wanted);
    return Array.from(
      { length: cellCount },
      (_, i) => low + ((i + 0.5) * (high - low)) / cellCount,
    );
  };
  return [
    cells(
      plan.map(({ x_m }) => x_m),
      columns,
    ),
    cells(
      plan.map(({ y_m }) => y_m),
      rows,
    ),
  ];
}

function boxOver(
  { fieldRoom, frequency_hz: [f_hz = 0] }: FieldContext,
  { height_m, x_m, y_m }: Grid,
): (drive: Drive) => ComplexResponse {
  const box = boxAt(fieldRoom, f_hz);
  return ({ source: { at } }) =>
    pressureMap(box, fieldRoom.medium, f_hz, [at.x_m, at.y_m, at.z_m], height_m, x_m, y_m);
}

/** Finite elements: the room's field is that of its curves, unless the frequency lies above them. */
function elementsOver(
  setup: Pick<Setup, 'room' | 'air'>,
  { key, fieldRoom, frequency_hz }: FieldContext,
  { places, inside }: Grid,
  kept: {
    readonly transfers: Transfers;
    readonly grids: (key: string, make: () => OverPlaces) => OverPlaces;
  },
): (drive: Drive) => ComplexResponse {
  const [f_hz = 0] = frequency_hz;
  const curves = fieldContext(setup);
  const reaches = curves !== null && f_hz <= (curves.frequency_hz.at(-1) ?? 0);
  const room = {
    key: reaches ? curves.key : key,
    make: () => fieldRoom,
    frequency_hz: reaches ? curves.frequency_hz : frequency_hz,
  };
  const used = places.filter((_, at) => inside[at]);
  const about = JSON.stringify([used[0], used.at(-1), used.length, places.length]);
  const over = kept.grids(`${room.key}\n${about}`, () => {
    const make = kept.transfers.field(room).over;
    if (make === null) throw new RangeError('a box has no elements');
    return make(used);
  });
  return ({ source }) => {
    const there = over(source.at, f_hz);
    const out = silence(places.length);
    let next = 0;
    inside.forEach((isHere, at) => {
      if (!isHere) return;
      out.re[at] = there.re[next] ?? 0;
      out.im[at] = there.im[next] ?? 0;
      next++;
    });
    return out;
  };
}

/** The drive's one value at every place. */
function spread({ pressure_pa }: Drive, length: number): ComplexResponse {
  return {
    re: new Float64Array(length).fill(pressure_pa.re[0] ?? 0),
    im: new Float64Array(length).fill(pressure_pa.im[0] ?? 0),
  };
}
