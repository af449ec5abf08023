// Measuring sessions: what was driven, what sounded, where the microphone was. The files are named here and read elsewhere.

import type { ResolveContext } from '../model/resolved.ts';
import type { DeviceSettings } from '../model/room.ts';
import type {
  MeasuringAverage,
  MeasuringCalibrator,
  MeasuringSession,
  MeasuringTake,
  NoiseRecording,
} from '../model/sessions.ts';
import { isChannel } from './channels.ts';
import { members, referEnd } from './groups.ts';
import { below, entriesOf, itemsOf, mapOf, type NamedPlace, type Place, textOf } from './place.ts';
import { seatNames } from './placed.ts';
import { isFaulty, type Reading, refer, tell } from './reading.ts';
import { referTo } from './referTo.ts';
import type { Scope } from './scope.ts';
import { readSettings } from './settings.ts';
import { number, oneOf, point, si } from './values.ts';

export function readSessions(
  reading: Reading,
  place: Place,
  scope: Scope,
): readonly MeasuringSession[] {
  return entriesOf(place).map((session) => readSession(reading, session, scope));
}

function readSession(reading: Reading, session: NamedPlace, scope: Scope): MeasuringSession {
  const shared = readRecorded(reading, session, scope, NOT_RECORDED);
  const entries = entriesOf(below(session, 'takes'));
  const known = new Map(entries.map(({ name, path }) => [name, path]));
  return {
    id: session.name,
    path: session.path,
    date: textOf(below(session, 'date')),
    by: textOf(below(session, 'by')),
    setup: textOf(below(session, 'setup')),
    temperature_k: si(
      reading,
      below(below(session, 'air'), 'temperature'),
      'temperature',
      'optional',
    ),
    microphone: readFile(reading, below(below(session, 'microphone'), 'correction'), scope.context),
    interface: readFile(reading, below(below(session, 'interface'), 'correction'), scope.context),
    calibrator: readCalibrator(reading, below(session, 'calibrator'), scope, shared),
    fullScale_dbspl: si(reading, below(session, 'full_scale'), 'sound_level', 'optional'),
    takes: entries.map((take) => readTake(reading, take, scope, shared)),
    noise: entriesOf(below(session, 'noise')).map((one) => readNoise(reading, one, scope, shared)),
    averages: entriesOf(below(session, 'averages')).map((average) =>
      readAverage(reading, average, known),
    ),
  };
}

/** How recordings were made: told for a take, or once for all takes of a session. */
type Recorded = Required<Pick<MeasuringTake, 'sweep' | 'channel' | 'loopback'>>;

const NOT_RECORDED: Recorded = { sweep: null, channel: null, loopback: null };

function readRecorded(reading: Reading, place: Place, scope: Scope, shared: Recorded): Recorded {
  return {
    sweep: readFile(reading, below(place, 'sweep'), scope.context) ?? shared.sweep,
    channel: number(reading, below(place, 'channel'), 'optional') ?? shared.channel,
    loopback: number(reading, below(place, 'loopback'), 'optional') ?? shared.loopback,
  };
}

function readTake(
  reading: Reading,
  take: NamedPlace,
  scope: Scope,
  shared: Recorded,
): MeasuringTake {
  const changed = readSettings(reading, below(take, 'changed'), scope);
  return {
    id: take.name,
    path: take.path,
    file: readFile(reading, below(take, 'file'), scope.context),
    drive: readDrive(reading, below(take, 'drive'), scope),
    sounding: members(reading, below(take, 'sounding'), scope.userNames.sources),
    seat: referTo(reading, below(take, 'seat'), seatNames(scope)),
    at: point(reading, below(take, 'at'), 'optional'),
    bypassed: itemsOf(below(take, 'bypassed'))
      .map(textOf)
      .filter((name) => name !== null),
    changed: changed.flatMap(toldOf),
    changedSettings: changed,
    timing: oneOf(reading, below(take, 'timing'), ['loopback', 'acoustic', 'none'], 'optional'),
    ...readRecorded(reading, take, scope, shared),
  };
}

function readNoise(
  reading: Reading,
  noise: NamedPlace,
  scope: Scope,
  shared: Recorded,
): NoiseRecording {
  return {
    id: noise.name,
    path: noise.path,
    file: readFile(reading, below(noise, 'file'), scope.context),
    channel: number(reading, below(noise, 'channel'), 'optional') ?? shared.channel,
    seat: referTo(reading, below(noise, 'seat'), seatNames(scope)),
    at: point(reading, below(noise, 'at'), 'optional'),
  };
}

function readCalibrator(
  reading: Reading,
  place: Place,
  scope: Scope,
  shared: Recorded,
): MeasuringCalibrator | null {
  if (mapOf(place) === null) return null;
  return {
    path: place.path,
    file: readFile(reading, below(place, 'file'), scope.context),
    channel: number(reading, below(place, 'channel'), 'optional') ?? shared.channel,
    level_dbspl: si(reading, below(place, 'level'), 'sound_level', 'optional'),
    frequency_hz: si(reading, below(place, 'frequency'), 'frequency', 'optional'),
  };
}

function toldOf({ device, values }: DeviceSettings): MeasuringTake['changed'] {
  return values.map(({ control, told }) => ({ device, control, told }));
}

/** A channel's label, a device, or one of its ports. */
function readDrive(reading: Reading, place: Place, scope: Scope): string | null {
  const driven = isFaulty(reading, place.path) ? null : textOf(place);
  if (driven !== null && !isChannel(driven, scope.context)) referEnd(reading, place, scope);
  return driven;
}

function readAverage(
  reading: Reading,
  average: NamedPlace,
  known: ReadonlyMap<string, NamedPlace['path']>,
): MeasuringAverage {
  return {
    id: average.name,
    path: average.path,
    takes: members(reading, below(average, 'takes'), {
      code: 'reference/take',
      kind: 'take',
      lead: 'This session has no take called',
      plural: 'takes',
      known,
    }),
    by: oneOf(reading, below(average, 'by'), ['power', 'level', 'vector'], 'optional'),
  };
}

/** A file beside the room: told only where someone can say that it is not there. */
function readFile(reading: Reading, place: Place, context: ResolveContext): string | null {
  const file = isFaulty(reading, place.path) ? null : textOf(place);
  if (file === null || place.value === null) return null;
  const { range } = place.value;
  const exists = context.fileExists?.(file) ?? null;
  const target = exists === false ? null : { file, path: [] };
  refer(reading, 'file', { id: file, range, path: place.path }, target);
  if (exists === false)
    tell(reading, place, { code: 'reference/file', message: `There is no file \`${file}\`` });
  return file;
}
