// EQ for a room as predicted: every equaliser on the way to a loudspeaker or subwoofer, fitted to what it does at the seats.
//
// The target is what the loudspeaker does without the room, through its filters, laid through the middle of what the room makes of
// it: so a crossover's slope is never taken for a fault.

import type { Path } from '../../schema/model/path.ts';
import { levels_db } from '../acoustics/complex.ts';
import { waysOf } from '../field/drives.ts';
import { JUDGED_HZ, medianOf, PLAYS_DB } from '../field/extremes.ts';
import type { FieldFigures } from '../fieldFigures.ts';
import { share } from '../search/share.ts';
import { targetOn_db } from '../search/targetCurve.ts';
import { allAtOnce, type InSlices } from '../search/transferMap.ts';
import type { Setup } from '../setup.ts';
import { type TracedPath, trace } from '../signal/traced.ts';
import { type CheckedSeat, checkedSeats, checkedWarnings } from './checkedSeats.ts';
import { type EqStage, equalisers } from './equalisers.ts';
import { fitInSlices } from './fit.ts';
import type { EqualiserFit, FitLimits, FitSeat, FitTask } from './fitTask.ts';
import { type GivenResponse, type HeardResponse, heardOf, ownLevel_db, placesOf } from './heard.ts';

export interface RoomFitOptions {
  /** Only the equalisers of these devices, subwoofers and speakers. */
  readonly devices?: readonly string[];
  /** Only these seats; all where absent. */
  readonly seats?: readonly string[];
  /** Seats that are not fitted, but told of: what the bands do there. */
  readonly checked?: readonly string[];
  /** 0 for cuts alone. */
  readonly boost_db?: number;
  /** Up to here at full strength; where absent the larger of Schroeder's frequency and 200 Hz. */
  readonly to_hz?: number;
  /**
   * What was measured: takes the place of what is predicted of the same source at the same seat; without them all is predicted. An
   * equaliser of whose sources nothing was measured is then left out.
   */
  readonly given?: readonly GivenResponse[];
}

/** One equaliser and what was found for it. */
export interface RoomFit {
  readonly device: string;
  readonly control: string;
  readonly port: string | null;
  readonly set: string | null;
  /** Where its setting stands in the file, or would stand. */
  readonly path: Path;
  /** Loudspeakers and subwoofers that it serves. */
  readonly sources: readonly string[];
  readonly frequency_hz: readonly number[];
  readonly target_db: readonly number[];
  /** In the order of `fit.seats`: which source at which seat, and its level without this equaliser. */
  readonly heard: readonly HeardResponse[];
  readonly limits: FitLimits;
  readonly fit: EqualiserFit;
  /** The seats that were not fitted: as `heard` and `fit.seats` are of those that were. */
  readonly checked: {
    readonly heard: readonly HeardResponse[];
    readonly seats: readonly CheckedSeat[];
  };
}

/** The reference seat counts as much as two others. Our own weight. */
const REFERENCE_WEIGHT = 2;
/** A boost that no driver notices. Common practice, no source. */
export const USUAL_BOOST_DB = 3;
/** @source computation: full strength below the larger of Schroeder's frequency and 200 Hz; common practice, no source */
const FULL_TO_HZ = 200;
const LEAST_GAIN_RATIO = 0.02;
/** Predicted modes are a few per cent off: a narrower bell would stand beside its peak. Common practice, no source. */
const PREDICTED_Q = 8;

/** In the order of the signal paths; equalisers of which nothing can be predicted are left out. */
export function fitRoom(setup: Setup, options: RoomFitOptions = {}): readonly RoomFit[] {
  return allAtOnce(fitRoomInSlices(setup, options));
}

/** The same a few milliseconds at a time. */
export function* fitRoomInSlices(
  setup: Setup,
  options: RoomFitOptions = {},
): InSlices<readonly RoomFit[]> {
  const { field, room } = setup;
  if (!field) return [];
  const served = equalisers(trace(room).paths, options.devices ?? null);
  const fits: RoomFit[] = [];
  for (const [index, { stage, paths }] of served.entries()) {
    const work = fitOne(setup, field, stage, paths, options);
    const fit = yield* share(work, index / served.length, (index + 1) / served.length);
    if (fit !== null) fits.push(fit);
  }
  return fits;
}

function* fitOne(
  setup: Setup,
  field: FieldFigures,
  stage: EqStage,
  paths: readonly TracedPath[],
  options: RoomFitOptions,
): InSlices<RoomFit | null> {
  const sources = [...new Set(paths.map(({ target }) => target))];
  const own_db = ownLevel_db(stage, field.frequency_hz);
  const shape_db = shapeOf_db(setup, paths, own_db, field.frequency_hz);
  const heardAt = (seats: readonly string[] | null) =>
    heardOf(setup, field, sources, stage.set, { ...options, seats }, own_db);
  const heard = heardAt(options.seats ?? null);
  const range = rangeOf(field, shape_db, options);
  if (heard.length === 0 || range === null) return null;
  if (options.given && heard.every(({ from }) => from === 'prediction')) return null;
  const { device, control, port, set, settingPath } = stage;
  const first = field.frequency_hz.findIndex((f_hz) => range.from_hz <= f_hz * (1 + 1e-9));
  const end = field.frequency_hz.findLastIndex((f_hz) => f_hz <= range.to_hz * (1 + 1e-9)) + 1;
  const frequency_hz = field.frequency_hz.slice(first, end);
  const onGrid = (one: HeardResponse) => ({
    ...one,
    level_db: one.level_db.slice(first, end),
  });
  const cut = heard.map(onGrid);
  const target_db = through(
    cut.map(({ level_db }) => level_db),
    shape_db.slice(first, end),
  );
  const limits: FitLimits = {
    ...range,
    broadTo_hz: null,
    boost: boostOf(setup, sources, options),
    leaveNulls: true,
    ...(heard.every(({ from }) => from === 'measurement') ? {} : { most_q: PREDICTED_Q }),
    leastGain_ratio: LEAST_GAIN_RATIO,
  };
  const toSeat = ({ seat, source, level_db }: HeardResponse): FitSeat => ({
    seat: 1 < sources.length ? `${seat} (${source})` : seat,
    level_db,
    weight: seat === setup.referenceSeat ? REFERENCE_WEIGHT : 1,
  });
  const task: FitTask = {
    frequency_hz,
    seats: cut.map(toSeat),
    placeCount: placesOf(cut, options),
    target_db,
    device: control,
    limits,
    sampleRate_hz: rateOf_hz(setup, device),
  };
  const found = yield* fitInSlices(task);
  const fitted = new Set(cut.map(({ seat }) => seat));
  const others = heardAt((options.checked ?? []).filter((seat) => !fitted.has(seat))).map(onGrid);
  const bySeat = checkedSeats(task, found, others.map(toSeat));
  const warnings = [...found.warnings, ...checkedWarnings(task, found, bySeat)];
  return {
    device,
    control: control.name,
    port,
    set,
    path: settingPath ?? ['settings', device, control.name],
    sources,
    frequency_hz,
    target_db,
    heard: cut,
    limits,
    fit: { ...found, warnings },
    checked: { heard: others, seats: bySeat },
  };
}

/** Where the sources play within the bass, as far up as a fit from a prediction goes. */
function rangeOf(
  { schroeder_hz, frequency_hz }: FieldFigures,
  shape_db: readonly number[],
  { to_hz }: RoomFitOptions,
): { readonly from_hz: number; readonly to_hz: number } | null {
  const most_hz = to_hz ?? Math.max(schroeder_hz ?? 0, FULL_TO_HZ);
  const least_db = Math.max(...shape_db) - PLAYS_DB;
  const inside = frequency_hz.filter(
    (f_hz, i) => least_db <= (shape_db[i] ?? -999) && JUDGED_HZ.from <= f_hz && f_hz <= most_hz,
  );
  const [from, to] = [inside[0], inside.at(-1)];
  if (from === undefined || to === undefined || to < from * Math.SQRT2) return null;
  return { from_hz: from, to_hz: to };
}

/** What the sources do without room and without this equaliser, with the room's own target: mean of the ways, dB. */
function shapeOf_db(
  { room }: Setup,
  paths: readonly TracedPath[],
  own_db: readonly number[],
  frequency_hz: readonly number[],
): readonly number[] {
  const ways = waysOf(room, paths, frequency_hz).filter(({ path }) => path !== null);
  const levels = ways.map(({ response }) => levels_db(response));
  const curve_db = targetOn_db(room.targets.curve, frequency_hz);
  return frequency_hz.map((_, i) => {
    const sum = levels.reduce((total, list) => total + (list[i] ?? 0), 0);
    return sum / Math.max(1, levels.length) - (own_db[i] ?? 0) + (curve_db?.[i] ?? 0);
  });
}

/** The shape, laid through the middle of the responses. */
function through(
  responses: readonly (readonly number[])[],
  shape: readonly number[],
): readonly number[] {
  const offset_db = medianOf(
    responses.flatMap((level_db) => level_db.map((level, i) => level - (shape[i] ?? 0))),
  );
  return shape.map((level) => level + offset_db);
}

function boostOf(
  { room }: Setup,
  sources: readonly string[],
  { boost_db = USUAL_BOOST_DB }: RoomFitOptions,
): FitLimits['boost'] {
  if (!(0 < boost_db)) return null;
  const things = [...room.speakers, ...room.subwoofers].filter(({ id }) => sources.includes(id));
  const lows = things.map(({ gear }) => gear?.lowEnd?.minus6db_hz ?? null);
  // Nobody knows how low these go: nothing is raised.
  if (lows.some((low) => low === null)) return null;
  return { most_db: boost_db, from_hz: Math.max(...lows.map((low) => low ?? 0)) };
}

function rateOf_hz({ room }: Setup, device: string): number | null {
  const said = room.settings.find((one) => one.device === device)?.sampleRate_hz ?? null;
  const things = [...room.devices, ...room.speakers, ...room.subwoofers];
  return said ?? things.find(({ id }) => id === device)?.gear?.sampleRate_hz ?? null;
}
