// The takes of a room's sessions joined with what their files say.

import type { Room } from '../../schema/model/room.ts';
import type { MeasuringSession, MeasuringTake } from '../../schema/model/sessions.ts';
import { averageOf } from './averageOf.ts';
import type { MeasuredFigures, MeasuredSession, MeasuredTake } from './measuredFigures.ts';
import { NOTHING_READ, type TakeReading } from './takeReading.ts';

/** What is known of a take's file; null while it is still being read. */
export type ReadingOf = (take: MeasuringTake, session: MeasuringSession) => TakeReading | null;

/** @returns null for a room without takes */
export function measuredFigures(
  { sessions = [] }: Pick<Room, 'sessions'>,
  readingOf: ReadingOf,
): MeasuredFigures | null {
  if (sessions.every(({ takes }) => takes.length === 0)) return null;
  return { sessions: sessions.map((session) => sessionOf(session, readingOf)), notes: [] };
}

function sessionOf(session: MeasuringSession, readingOf: ReadingOf): MeasuredSession {
  const takes = session.takes.map((take) => takeOf(take, readingOf(take, session)));
  return {
    session: session.id,
    path: session.path,
    date: session.date,
    takes,
    averages: session.averages.map((average) => averageOf(average, takes)),
  };
}

function takeOf(
  { id, path, drive, sounding, seat, at, timing }: MeasuringTake,
  reading: TakeReading | null,
): MeasuredTake {
  return {
    take: id,
    path,
    drive,
    sounding,
    seat,
    at,
    timing,
    ...(reading === null ? { isPending: true } : {}),
    ...(reading ?? NOTHING_READ),
  };
}
