// What has to be read for each take of a room: its file, and what it was made with, as files inside the fence.

import { type Recording, recordingsOf } from '../../core/measured/measuredOf.ts';
import type { MeasuringSession, MeasuringTake } from '../../schema/model/sessions.ts';
import type { Analysis } from '../analysis.ts';
import { folderOf, isBelow, join } from '../files/uri.ts';

/** A file as the room names it, and where it is; null where its path leads out of the fence. */
export interface NamedUri {
  readonly name: string;
  readonly uri: string | null;
}

export interface TakeRequest {
  readonly records: RecordingKind;
  readonly file: NamedUri;
  readonly sweep: NamedUri | null;
  readonly corrections: readonly NamedUri[];
  readonly channel: number;
  readonly loopback: number | null;
  readonly timing: MeasuringTake['timing'];
  /** What makes levels sound pressure levels; null where nothing does. */
  readonly reference: LevelRequest | null;
  /** No link may lead out of it. */
  readonly fence: string;
}

/** What was recorded: a loudspeaker, the noise of the room, a sound calibrator. */
export type RecordingKind = 'take' | 'noise' | 'calibrator';

/** A calibrator's recording, or the level of full scale as written. */
export interface LevelRequest {
  readonly calibrator: {
    readonly file: NamedUri;
    readonly channel: number;
    readonly level_dbspl: number;
    readonly frequency_hz: number | null;
  } | null;
  readonly fullScale_dbspl: number | null;
}

export type RequestsOf = (
  session: MeasuringSession,
) => readonly { readonly recording: Recording; readonly request: TakeRequest | null }[];

/** Takes are read, without end, from nobody's thousandth file on. */
export const MOST_TAKES = 500;

/** Of each recording of a session; null for one that names no file. */
export function requestsOf({ source, surroundings: { fence } }: Analysis): RequestsOf {
  const named = (name: string): NamedUri => {
    const isPath = !/^[a-z][a-z0-9+.-]*:/i.test(name) && !name.startsWith('/');
    const uri = join(folderOf(source.uri), name);
    return { name, uri: isPath && isBelow(uri, fence) ? uri : null };
  };
  return (session) => {
    const { microphone, interface: wired, takes } = session;
    const corrections = [microphone, wired].flatMap((name) => (name === null ? [] : [named(name)]));
    const reference = referenceOf(session, named);
    const requestOf = (recording: Recording): TakeRequest | null => {
      const { file, channel } = recording;
      if (file === null) return null;
      const take = 'drive' in recording ? recording : null;
      const records = take ? 'take' : 'id' in recording ? 'noise' : 'calibrator';
      return {
        records,
        file: named(file),
        sweep: take?.sweep ? named(take.sweep) : null,
        corrections,
        channel: channel ?? 1,
        loopback: take?.loopback ?? null,
        timing: take?.timing ?? null,
        reference: records !== 'take' || isOneSweep(takes) ? reference : null,
        fence,
      };
    };
    return recordingsOf(session).map((recording) => ({
      recording,
      request: requestOf(recording),
    }));
  };
}

function referenceOf(
  { calibrator, fullScale_dbspl }: MeasuringSession,
  named: (name: string) => NamedUri,
): LevelRequest | null {
  const isWhole = calibrator && calibrator.file !== null && calibrator.level_dbspl !== null;
  if (!isWhole)
    return typeof fullScale_dbspl === 'number' ? { calibrator: null, fullScale_dbspl } : null;
  const { file, channel, level_dbspl, frequency_hz } = calibrator;
  return {
    calibrator: {
      file: named(file ?? ''),
      channel: channel ?? 1,
      level_dbspl: level_dbspl ?? 0,
      frequency_hz,
    },
    fullScale_dbspl: fullScale_dbspl ?? null,
  };
}

/** Takes are held against each other: either all of a session tell sound pressure, of one signal, or none does. */
function isOneSweep(takes: readonly MeasuringTake[]): boolean {
  const sweeps = new Set(takes.map(({ sweep }) => sweep ?? null));
  return sweeps.size === 1 && !sweeps.has(null);
}

/** Files that a request rests on. */
export function urisOf({ file, sweep, corrections, reference }: TakeRequest): readonly string[] {
  const calibrator = reference?.calibrator ?? null;
  return [
    file,
    ...(sweep === null ? [] : [sweep]),
    ...corrections,
    ...(calibrator === null ? [] : [calibrator.file]),
  ].flatMap(({ uri }) => uri ?? []);
}
