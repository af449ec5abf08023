// Responses for an equaliser's fit from takes: each loudspeaker alone, at each seat where it was measured, in place of the prediction.

import { distance_m } from '../acoustics/point.ts';
import { medianOf } from '../field/extremes.ts';
import type { FieldFigures } from '../fieldFigures.ts';
import { type JudgedTake, readTakes } from '../measured/judgedTakes.ts';
import { onGrid_db, smoothed_db } from '../measured/onGrid.ts';
import { takeDrives } from '../measured/takeDrives.ts';
import { takeRoom } from '../measured/takeRoom.ts';
import { placedSeats } from '../parts/referenceSeat.ts';
import type { Setup } from '../setup.ts';
import type { GivenResponse } from './heard.ts';

export interface TakeChoice {
  /** The latest by date where absent. */
  readonly session?: string;
  /** All that fit where absent. */
  readonly takes?: readonly string[];
}

export interface MeasuredResponses {
  readonly session: string;
  /** The takes that were used. */
  readonly takes: readonly string[];
  readonly given: readonly GivenResponse[];
}

/**
 * Takes of one loudspeaker each, points about a seat joined with it by power. Levels are laid on the prediction's by one offset for the
 * whole session, and what a take does not reach is the prediction.
 *
 * @returns null where no take fits, or the room has no field
 */
export function measuredResponses(setup: Setup, choice: TakeChoice): MeasuredResponses | null {
  const { field } = setup;
  const session = choice.session ?? latest(setup);
  if (!field || session === null) return null;
  const used = takesToFit(setup, session).filter(
    ({ given }) => choice.takes?.includes(given.id) ?? true,
  );
  const levels = used.flatMap((take) => levelsOf(setup, field, take) ?? []);
  if (levels.length === 0) return null;
  const offset_db = medianOf(levels.flatMap(({ offs_db }) => offs_db));
  return {
    session,
    takes: levels.map(({ take }) => take),
    given: joined(field, levels, offset_db),
  };
}

/** A session's takes of one loudspeaker each, at a seat or a point about one, with nothing set otherwise. */
export function takesToFit(setup: Setup, session: string): readonly JudgedTake[] {
  return readTakes(setup).filter(
    ({ session: own, given, measured }) =>
      own === session &&
      given.sounding.length === 1 &&
      seatOf(setup, given) !== null &&
      given.changed.length === 0 &&
      measured.response !== null,
  );
}

/** A device with an equaliser on the way to a loudspeaker that such takes are of. */
export interface DeviceToFit {
  readonly device: string;
  /** Where its loudspeakers were measured. */
  readonly seats: readonly string[];
}

/** In the order of the signal. */
export function devicesToFit(setup: Setup, session: string): readonly DeviceToFit[] {
  const heard = takesToFit(setup, session).map(({ given }) => ({
    source: given.sounding[0],
    seat: seatOf(setup, given) ?? '',
  }));
  const seats = new Map<string, Set<string>>();
  for (const { target, stages } of setup.signalPaths) {
    const own = heard.filter(({ source }) => source === target);
    if (own.length === 0) continue;
    for (const { device, kind, settingPath } of stages) {
      if (kind !== 'eq' || settingPath === null) continue;
      seats.set(device, new Set([...(seats.get(device) ?? []), ...own.map(({ seat }) => seat)]));
    }
  }
  return [...seats].map(([device, at]) => ({ device, seats: [...at] }));
}

function latest({ measured }: Setup): string | null {
  const read = (measured?.sessions ?? []).filter(({ takes }) =>
    takes.some(({ response, sounding }) => response !== null && sounding.length === 1),
  );
  const [first] = read.toSorted((a, b) => (b.date ?? '').localeCompare(a.date ?? ''));
  return first?.session ?? null;
}

/** Points belong to the seat that they lie about. Common practice, no source. */
const ABOUT_M = 0.5;

/** The seat of a take, or the one about which its point lies; a subwoofer's points are spots where it could stand. */
function seatOf({ room }: Setup, { seat, at, sounding }: JudgedTake['given']): string | null {
  const isBass = room.subwoofers.some(({ id }) => sounding.includes(id));
  if (seat !== null || at === null || isBass) return seat;
  const near = placedSeats(room)
    .map(({ id, at: ears }) => ({ id, away_m: distance_m(ears, at) }))
    .filter(({ away_m }) => away_m <= ABOUT_M)
    .toSorted((a, b) => a.away_m - b.away_m);
  return near[0]?.id ?? null;
}

interface TakeLevels {
  readonly take: string;
  readonly source: string;
  readonly seat: string;
  /** As measured, with the equalisers as the file has them; null where the take says nothing. */
  readonly level_db: readonly (number | null)[];
  readonly planned_db: readonly number[];
  /** Measured less planned where the loudspeaker plays. */
  readonly offs_db: readonly number[];
}

function levelsOf(
  setup: Setup,
  field: FieldFigures,
  { given, measured }: JudgedTake,
): TakeLevels | null {
  const [source] = given.sounding;
  const seat = field.seats.find((one) => one.seat === seatOf(setup, given));
  const curve = seat?.sources.find((one) => one.source === source);
  if (source === undefined || !seat || !curve?.extremes || measured.response === null) return null;
  const grid_hz = field.frequency_hz;
  const filtered_db = bypassed_db(setup, given, grid_hz);
  const level_db = onGrid_db(measured.response, grid_hz).map((level, i) =>
    level === null ? null : level + (filtered_db[i] ?? 0),
  );
  const { from_hz, to_hz } = curve.extremes;
  const planned_db = [...smoothed_db(grid_hz, curve.level_db, measured.response.smoothing)];
  const offs_db = grid_hz.flatMap((f_hz, i) => {
    const level = level_db[i] ?? null;
    return level !== null && from_hz <= f_hz && f_hz <= to_hz ? [level - (planned_db[i] ?? 0)] : [];
  });
  return offs_db.length === 0
    ? null
    : { take: given.id, source, seat: seat.seat, level_db, planned_db, offs_db };
}

/** What stages that were bypassed for the take would have done, dB by frequency. */
function bypassed_db(
  { room }: Setup,
  given: JudgedTake['given'],
  grid_hz: readonly number[],
): readonly number[] {
  if (given.bypassed.length === 0) return [];
  const [asSet] = takeDrives(room, given, grid_hz);
  const [asTaken] = takeDrives(takeRoom(room, given), given, grid_hz);
  if (!asSet || !asTaken) return [];
  const size = ({ drive: { pressure_pa } }: typeof asSet, i: number) =>
    Math.hypot(pressure_pa.re[i] ?? 0, pressure_pa.im[i] ?? 0);
  return grid_hz.map((_, i) => 20 * Math.log10(size(asSet, i) / size(asTaken, i)));
}

function joined(
  { frequency_hz }: FieldFigures,
  levels: readonly TakeLevels[],
  offset_db: number,
): readonly GivenResponse[] {
  const groups = new Map<string, TakeLevels[]>();
  for (const one of levels) {
    const key = JSON.stringify([one.source, one.seat]);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].flatMap((group): readonly GivenResponse[] => {
    const [first] = group;
    if (first === undefined) return [];
    const level_db = frequency_hz.map((_, i) => {
      const powers = group.map(({ level_db: own, planned_db }) => {
        const level = own[i] ?? null;
        return 10 ** ((level === null ? (planned_db[i] ?? 0) : level - offset_db) / 10);
      });
      return 10 * Math.log10(powers.reduce((sum, power) => sum + power, 0) / powers.length);
    });
    return [{ seat: first.seat, source: first.source, level_db, pointCount: group.length }];
  });
}
