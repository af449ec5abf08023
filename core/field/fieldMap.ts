// Pressure over the plan at one frequency, from one source or all that a channel drives.

import type { ComplexResponse } from '../acoustics/complex.ts';
import { pressureMap } from '../acoustics/field/pressureMap.ts';
import type { FieldMap, FieldMapRequest } from '../fieldFigures.ts';
import type { Setup } from '../setup.ts';
import { trace } from '../signal/traced.ts';
import { type FieldContext, fieldContext, noFieldNote } from './context.ts';
import { type Drive, drivesOf, waysOf } from './drives.ts';
import { boxAt, isInside, prepareRoomField } from './roomField.ts';
import { addPressure, channelGroups, level_dbspl, silence, sourceGroups } from './sums.ts';

/** More than any screen shows. */
const MOST_POINTS = 40_000;

export function fieldMap(
  setup: Pick<Setup, 'room' | 'air'>,
  request: FieldMapRequest,
): FieldMap | null {
  const { frequency_hz, height_m } = request;
  const context = fieldContext(setup, [frequency_hz]);
  if (context === null || !(0 < frequency_hz)) return null;
  const drives = wantedDrives(setup, context, request);
  if (drives.length === 0) return null;
  const { shape, medium } = context.fieldRoom;
  const [x_m, y_m] = gridOver(context, request);
  const sum = silence(x_m.length * y_m.length);
  const frequencies = new Array<number>(sum.re.length).fill(frequency_hz);
  for (const drive of drives) {
    const transfer = over(context, drive, height_m, x_m, y_m);
    const everywhere = { ...drive, pressure_pa: spread(drive, sum.re.length) };
    addPressure(sum, transfer, everywhere, frequencies, medium.density_kg_m3);
  }
  return {
    frequency_hz,
    height_m,
    x_m,
    y_m,
    level_db: Array.from(sum.re, (re, at) => {
      const place = {
        x_m: x_m[at % x_m.length] ?? 0,
        y_m: y_m[Math.floor(at / x_m.length)] ?? 0,
        z_m: height_m,
      };
      if (!isInside(shape, place)) return null;
      return Math.round(level_dbspl(re ** 2 + (sum.im[at] ?? 0) ** 2) * 100) / 100 + 0;
    }),
  };
}

function wantedDrives(
  { room }: Pick<Setup, 'room'>,
  context: FieldContext,
  { of }: FieldMapRequest,
): readonly Drive[] {
  const ways = waysOf(room, trace(room).paths, context.frequency_hz);
  const { drives } = drivesOf(room, ways);
  const usable = drives.filter(({ source }) => noFieldNote(context, source) === null);
  const group =
    'source' in of
      ? sourceGroups(usable).find(({ source }) => source === of.source)
      : channelGroups(usable).find(({ channel, set }) => channel === of.channel && set === of.set);
  return group?.drives ?? [];
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

function over(
  { fieldRoom, frequency_hz }: FieldContext,
  { source }: Drive,
  height_m: number,
  x_m: readonly number[],
  y_m: readonly number[],
): ComplexResponse {
  const [f_hz = 0] = frequency_hz;
  if (fieldRoom.shape.box !== null) {
    const { x_m: x, y_m: y, z_m: z } = source.at;
    const box = boxAt(fieldRoom, f_hz);
    return pressureMap(box, fieldRoom.medium, f_hz, [x, y, z], height_m, x_m, y_m);
  }
  // By reciprocity: one receiver at the source, and every place of the grid a source.
  const listening = prepareRoomField(fieldRoom, [f_hz]).listenAt([source.at]);
  const out = silence(x_m.length * y_m.length);
  y_m.forEach((y, row) => {
    x_m.forEach((x, column) => {
      const place = { x_m: x, y_m: y, z_m: height_m };
      if (!isInside(fieldRoom.shape, place)) return;
      const [there] = listening(place);
      out.re[row * x_m.length + column] = there?.re[0] ?? 0;
      out.im[row * x_m.length + column] = there?.im[0] ?? 0;
    });
  });
  return out;
}

/** The drive's one value at every place. */
function spread({ pressure_pa }: Drive, length: number): ComplexResponse {
  return {
    re: new Float64Array(length).fill(pressure_pa.re[0] ?? 0),
    im: new Float64Array(length).fill(pressure_pa.im[0] ?? 0),
  };
}
