// Drift: what has moved between two dated sessions of one room, in takes of the same drive, sources, place and stages.

import type { Policy, Room } from '../../schema/model/room.ts';
import type { MeasuringSession } from '../../schema/model/sessions.ts';
import { distance_m } from '../acoustics/point.ts';
import type {
  MeasuredFigures,
  MeasuredSession,
  MeasuredTake,
} from '../measured/measuredFigures.ts';
import type { DriftFigures, SessionDrift, TakeDrift } from './driftFigures.ts';
import { changedParts } from './fingerprint.ts';
import { responseDrift } from './responseDrift.ts';
import { type Limits, takeDrift } from './takeDrift.ts';

export type RoomOfDrift = Pick<Room, 'sessions' | 'policy' | 'seats' | 'speakers' | 'subwoofers'>;

/** A moving of 1 dB rms is past what setting a microphone up again does: common practice, no source. */
export const USUAL_LIMIT_DB = 1;

/** null where no two dated sessions have a take in common. */
export function drift(room: RoomOfDrift, measured: MeasuredFigures): DriftFigures | null {
  const dated = measured.sessions
    .flatMap((figures) => {
      const told = room.sessions?.find(({ id }) => id === figures.session);
      return figures.date === null || told === undefined
        ? []
        : [{ figures, told, date: figures.date }];
    })
    .sort((one, other) => (one.date < other.date ? -1 : one.date === other.date ? 0 : 1));
  const limits = limitsOf(room.policy);
  const pairs: SessionDrift[] = [];
  for (const [index, later] of dated.entries()) {
    const before = dated.slice(0, index).reverse();
    const drifts = before.flatMap((earlier) => pairDrift(room, earlier, later, limits) ?? []);
    const [nearest] = drifts;
    const farthest = drifts.at(-1);
    if (nearest !== undefined) pairs.push(nearest);
    if (farthest !== undefined && farthest !== nearest && index === dated.length - 1)
      pairs.push(farthest);
  }
  if (pairs.length === 0) return null;
  return { pairs, limit_db: limits.moved_db, limitFrom: limits.from };
}

function limitsOf({ tolerances }: Policy): Limits {
  const told_db = tolerances.drift;
  return {
    moved_db: told_db ?? USUAL_LIMIT_DB,
    from: told_db === undefined ? 'practice' : 'policy',
  };
}

interface Dated {
  readonly figures: MeasuredSession;
  readonly told: MeasuringSession;
  readonly date: string;
}

/** null where they have no take in common that could be read. */
function pairDrift(
  room: RoomOfDrift,
  earlier: Dated,
  later: Dated,
  limits: Limits,
): SessionDrift | null {
  const matches = later.figures.takes.flatMap((take) => {
    const key = keyOf(later.told, take);
    const partner = earlier.figures.takes.find((one) => keyOf(earlier.told, one) === key);
    return key === null || partner === undefined || take.kind === null || partner.kind === null
      ? []
      : [{ earlier: partner, later: take, drift: shapeOf(partner, take) }];
  });
  if (matches.length === 0) return null;
  const changed =
    earlier.told.setup === null || later.told.setup === null
      ? null
      : changedParts(earlier.told.setup, later.told.setup);
  const isAbsolute = matches.every(
    (match) => match.earlier.level?.basis === 'spl' && match.later.level?.basis === 'spl',
  );
  const means_db = matches.flatMap((match) => (match.drift === null ? [] : [match.drift.mean_db]));
  const commonOffset_db = isAbsolute ? 0 : medianOf(means_db);
  const canTellLevel = isAbsolute || 1 < means_db.length;
  const takes = matches.map((match): TakeDrift => {
    const level_db =
      match.drift === null || !canTellLevel ? null : match.drift.mean_db - commonOffset_db;
    return takeDrift(match.earlier, match.later, {
      response: match.drift?.response ?? null,
      level_db,
      isJudged: changed === null || changed.length === 0,
      limits,
      distance_m: distanceTo_m(room, match.later),
      temperatures_k: [earlier.told.temperature_k, later.told.temperature_k],
    });
  });
  return {
    earlier: earlier.told.id,
    later: later.told.id,
    earlierDate: earlier.date,
    laterDate: later.date,
    path: later.told.path,
    changed,
    commonOffset_db,
    takes,
  };
}

function shapeOf(earlier: MeasuredTake, later: MeasuredTake): ReturnType<typeof responseDrift> {
  if (earlier.response === null || later.response === null) return null;
  return responseDrift(earlier.response, later.response);
}

/** What makes two takes the same; null where the file does not say what sounded and where. */
function keyOf(
  session: MeasuringSession,
  { take, drive, sounding, seat, at }: MeasuredTake,
): string | null {
  const told = session.takes.find(({ id }) => id === take);
  const place = seat ?? (at === null ? null : [at.x_m, at.y_m, at.z_m].map(centimetres).join(' '));
  if (told === undefined || place === null || sounding.length === 0) return null;
  const changed = told.changed.map((one) => `${one.device} ${one.control} ${one.told}`);
  return JSON.stringify([
    drive,
    [...sounding].sort(),
    place,
    [...told.bypassed].sort(),
    changed.sort(),
  ]);
}

/** A microphone is not set up again more exactly. */
function centimetres(length_m: number): string {
  return length_m.toFixed(2);
}

/** From the one source that sounded; null where several did, or a place is not known. */
function distanceTo_m(
  room: RoomOfDrift,
  { sounding: [id, ...others], seat, at }: MeasuredTake,
): number | null {
  const source = [...room.speakers, ...room.subwoofers].find((one) => one.id === id)?.at ?? null;
  const place = at ?? room.seats.find((one) => one.id === seat)?.at ?? null;
  return source === null || place === null || 0 < others.length ? null : distance_m(source, place);
}

function medianOf(values_db: readonly number[]): number {
  const sorted = values_db.toSorted((one, other) => one - other);
  const middle = sorted.length / 2;
  const low_db = sorted[Math.ceil(middle) - 1] ?? 0;
  return (low_db + (sorted[Math.floor(middle)] ?? low_db)) / 2;
}
