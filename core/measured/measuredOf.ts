// The takes of a room's sessions joined with what their files say.

import type { Room } from '../../schema/model/room.ts';
import type {
  MeasuringCalibrator,
  MeasuringSession,
  MeasuringTake,
  NoiseRecording,
} from '../../schema/model/sessions.ts';
import { averageOf } from './averageOf.ts';
import type {
  MeasuredCalibrator,
  MeasuredFigures,
  MeasuredNoise,
  MeasuredSession,
  MeasuredTake,
} from './measuredFigures.ts';
import { noiseAgainstCurves } from './noiseAgainstCurves.ts';
import { NOTHING_READ, type TakeReading } from './takeReading.ts';

/** All of a session that names a file of its own. */
export type Recording = MeasuringTake | NoiseRecording | MeasuringCalibrator;

/** What is known of a recording's file; null while it is still being read. */
export type ReadingOf = (recording: Recording, session: MeasuringSession) => TakeReading | null;

/** Takes first, as the file has them. */
export function recordingsOf({
  takes,
  noise = [],
  calibrator,
}: MeasuringSession): readonly Recording[] {
  return [...takes, ...noise, ...(calibrator ? [calibrator] : [])];
}

/** @returns null for a room without recordings */
export function measuredFigures(
  { sessions = [] }: Pick<Room, 'sessions'>,
  readingOf: ReadingOf,
): MeasuredFigures | null {
  if (sessions.every((session) => recordingsOf(session).length === 0)) return null;
  return { sessions: sessions.map((session) => sessionOf(session, readingOf)), notes: [] };
}

function sessionOf(session: MeasuringSession, readingOf: ReadingOf): MeasuredSession {
  const takes = session.takes.map((take) => takeOf(take, readingOf(take, session)));
  return {
    session: session.id,
    path: session.path,
    date: session.date,
    takes,
    noise: (session.noise ?? []).map((one) => noiseOf(one, readingOf(one, session))),
    calibrator: session.calibrator
      ? calibratorOf(session.calibrator, readingOf(session.calibrator, session))
      : null,
    averages: session.averages.map((average) => averageOf(average, takes)),
  };
}

function takeOf(
  { id, path, drive, sounding, seat, at, timing }: MeasuringTake,
  reading: TakeReading | null,
): MeasuredTake {
  const { calibrator: _, ...figures } = reading ?? NOTHING_READ;
  return {
    take: id,
    path,
    drive,
    sounding,
    seat,
    at,
    timing,
    ...(reading === null ? { isPending: true } : {}),
    ...figures,
  };
}

function noiseOf(
  { id, path, seat, at }: NoiseRecording,
  reading: TakeReading | null,
): MeasuredNoise {
  const { faults, noise, refusals } = reading ?? NOTHING_READ;
  return {
    recording: id,
    path,
    seat,
    at,
    ...(reading === null ? { isPending: true } : {}),
    faults,
    noise,
    background: noise === null ? null : noiseAgainstCurves(noise, path),
    refusals,
  };
}

function calibratorOf(
  { path }: MeasuringCalibrator,
  reading: TakeReading | null,
): MeasuredCalibrator {
  const { faults, calibrator } = reading ?? NOTHING_READ;
  return {
    path,
    ...(reading === null ? { isPending: true } : {}),
    faults,
    tone: calibrator,
  };
}
