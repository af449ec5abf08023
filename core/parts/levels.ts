// Part of Setup: levels: gain along the ways, the reference level, what reaches the seat, bass sums, calibration, exposure.

import type { Gear } from '../../schema/model/gear.ts';
import type { Connection, Room } from '../../schema/model/room.ts';
import { allowedTime_s, NIOSH } from '../acoustics/exposure.ts';
import { bassSum_db, LFE_GAIN_DB, voltageTo_dbu } from '../acoustics/levels.ts';
import { channelReference_dbspl, volumeReference_dbspl } from '../acoustics/referenceLevel.ts';
import { pinkNoiseWeighting_db } from '../acoustics/weighting.ts';
import { isLfeName } from '../layouts/channelNames.ts';
import type { LevelFigures } from '../setup.ts';
import type { GovernedStage } from '../signal/governing.ts';
import { samePort } from '../signal/port.ts';
import type { TracedPath } from '../signal/traced.ts';
import { calibrationTargets } from './levels/calibration.ts';
import { chainsOf } from './levels/driven.ts';
import { namedReferences } from './levels/namedReferences.ts';
import { PEAK_DB, reference_dbc } from './levels/wanted.ts';

export type LevelsPartOf = Pick<
  Room,
  'speakers' | 'subwoofers' | 'devices' | 'wiring' | 'sets' | 'targets' | 'policy'
>;

/** @param volume_m3 of the room; null where it is not known */
export function levelsPart(
  room: LevelsPartOf,
  paths: readonly TracedPath[],
  volume_m3: number | null,
): LevelFigures {
  const reference = referenceOf(room, volume_m3);
  const lfe = lfeOf(paths);
  const level_dbc = reference_dbc(room);
  return {
    connections: room.wiring.map((connection) => connectionLevels(connection, room, paths)),
    reference,
    bass: bassOf(room, paths),
    lfe,
    exposure: exposureOf(reference),
    lfePeak_dbc:
      lfe === null || level_dbc === null ? null : level_dbc + PEAK_DB + LFE_GAIN_DB + SINE_PEAK_DB,
    chains: chainsOf(room, paths),
    calibration: calibrationTargets(room, paths),
    named: namedReferences(volume_m3, reference.channelCount),
  };
}

function connectionLevels(
  connection: Connection,
  room: LevelsPartOf,
  paths: readonly TracedPath[],
): LevelFigures['connections'][number] {
  const { index, from, to } = connection;
  const gear = (id: string) =>
    [...room.devices, ...room.subwoofers, ...room.speakers].find((thing) => thing.id === id)?.gear;
  // What travels as numbers over a network has no voltage.
  const isNetwork = from.port.includes('.');
  const through = paths.filter(({ connections }) => connections.includes(index));
  const output_v = isNetwork ? null : (gear(from.device)?.fullLevelOutput_v ?? null);
  const fromFull_v =
    output_v && output_v * ratio(gain_db(through, (stage) => isBefore(stage, connection)));
  const toFull_v = isNetwork ? null : inputFull_v(connection, gear(to.device) ?? null, through);
  const margin_db =
    fromFull_v === null || toFull_v === null || fromFull_v <= 0 || toFull_v <= 0
      ? null
      : voltageTo_dbu(toFull_v) - voltageTo_dbu(fromFull_v);
  return { connection: index, fromFull_v, toFull_v, margin_db };
}

/**
 * What an input takes: its sensitivity where that is set; else the gear's figure for full output, which a level turned down
 * in a loudspeaker or amplifier raises. A processor's input clips before any level of its own.
 */
function inputFull_v(
  connection: Connection,
  gear: Gear | null,
  through: readonly TracedPath[],
): number | null {
  const sensitivity = sensitivityAt(connection, through);
  if (sensitivity) return sensitivity.value?.kind === 'voltage' ? sensitivity.value.input_v : null;
  const full_v = gear?.fullLevelInput_v ?? null;
  if (gear === null || full_v === null || !DRIVERS.has(gear.kind)) return full_v;
  return full_v / ratio(gain_db(through, ({ device }) => device === connection.to.device));
}

const DRIVERS: ReadonlySet<string> = new Set(['loudspeaker', 'subwoofer', 'amplifier']);

function isBefore({ device, toPort }: GovernedStage, { from }: Connection): boolean {
  return device === from.device && samePort(toPort, from.port);
}

/** Levels and gains dialled in on the first way through a connection, among the stages asked for. */
function gain_db(
  [path]: readonly TracedPath[],
  isAsked: (stage: GovernedStage) => boolean,
): number {
  return (path?.stages ?? []).reduce((sum_db, stage) => {
    const isGain = stage.kind === 'level' || stage.kind === 'gain';
    if (!isGain || stage.value?.kind !== 'level' || !isAsked(stage)) return sum_db;
    return sum_db + stage.value.level_db;
  }, 0);
}

function ratio(level_db: number): number {
  return 10 ** (level_db / 20);
}

/** The input sensitivity that a connection meets first; undefined where the input has none to set. */
function sensitivityAt(
  { to }: Connection,
  through: readonly TracedPath[],
): GovernedStage | undefined {
  return through
    .flatMap(({ stages }) => stages)
    .find(
      ({ kind, device, fromPort }) =>
        kind === 'input_sensitivity' && device === to.device && samePort(fromPort, to.port),
    );
}

function referenceOf(
  { targets, policy, speakers, sets }: LevelsPartOf,
  volume_m3: number | null,
): LevelFigures['reference'] {
  const stated = targets.referenceLevel ?? policy.referenceLevel;
  const channelCount = Math.max(
    0,
    ...(sets.length === 0 ? [speakers.length] : sets.map((set) => set.speakers.length)),
  );
  return {
    stated_db: stated?.level_db ?? null,
    weighting: stated?.weighting ?? null,
    from: targets.referenceLevel ? 'room' : stated ? 'policy' : null,
    byChannelCount_dba: channelCount === 0 ? null : channelReference_dbspl(channelCount),
    byVolume_db: volume_m3 !== null && 0 < volume_m3 ? volumeReference_dbspl(volume_m3) : null,
    channelCount,
  };
}

function bassOf({ subwoofers }: LevelsPartOf, paths: readonly TracedPath[]): LevelFigures['bass'] {
  return subwoofers.flatMap(({ id }) => {
    const toSub = paths.filter(({ target }) => target === id);
    const mains = toSub.filter(({ isLfe }) => !isLfe);
    const channels = [
      ...new Set(mains.map(({ channel, source }) => channel ?? `${source.device}.${source.port}`)),
    ];
    const lfe = mains.length < toSub.length;
    if (toSub.length === 0) return [];
    return [{ sub: id, channels, lfe, coherentSum_db: bassSum_db(channels.length, lfe) }];
  });
}

function lfeOf(paths: readonly TracedPath[]): LevelFigures['lfe'] {
  const path = paths.find(
    ({ isLfe, channel, stages }) =>
      isLfe && ((channel !== null && isLfeName(channel)) || 0 < stages.length),
  );
  if (path === undefined) return null;
  const gain_db = path.stages.reduce(
    (sum_db, { kind, value }) =>
      kind === 'lfe_gain' && value?.kind === 'level' ? sum_db + value.level_db : sum_db,
    0,
  );
  const filters_hz = path.stages.flatMap(({ kind, value }) =>
    (kind === 'lfe_low_pass' || kind === 'low_pass') && value?.kind === 'filter'
      ? (value.frequency_hz ?? [])
      : [],
  );
  return {
    sub: path.target,
    gain_db,
    lowPass_hz: filters_hz.length === 0 ? null : Math.min(...filters_hz),
  };
}

/** A sine's peak above its RMS value. */
const SINE_PEAK_DB = 10 * Math.log10(2);
/** Wide pink noise, as reference levels are set with. */
const PINK_HZ = [20, 20_000] as const;

/** All main channels at the reference level together, A-weighted, and NIOSH's hours for it. */
function exposureOf({
  stated_db,
  weighting,
  channelCount,
}: LevelFigures['reference']): LevelFigures['exposure'] {
  if (stated_db === null || weighting === null || channelCount === 0) return null;
  const change_db =
    pinkNoiseWeighting_db('A', ...PINK_HZ) - pinkNoiseWeighting_db(weighting, ...PINK_HZ);
  const level_dba = stated_db + change_db + 10 * Math.log10(channelCount);
  return { level_dba, hours: allowedTime_s(level_dba, NIOSH) / 3600 };
}
