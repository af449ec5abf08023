// Gain chain: the level along one way, from the source's full scale to the driver, with what each point on it takes.

import type { Gear } from '../../../schema/model/gear.ts';
import type { Connection } from '../../../schema/model/room.ts';
import { voltageTo_dbu } from '../../acoustics/levels.ts';
import type { GainChain, GainPoint } from '../../levelFigures.ts';
import { samePort } from '../../signal/port.ts';
import type { TracedPath } from '../../signal/traced.ts';

export interface ChainOf {
  readonly wiring: readonly Connection[];
  readonly gearOf: (id: string) => Gear | null;
}

/** Signal on its way: as volts, or as numbers re full scale. null in both: not known. */
interface Carried {
  readonly level_v: number | null;
  readonly full_db: number | null;
}

/** The chain of one traced path. What is not dialled in counts as 0 dB; a device without any full level passes volts on. */
export function gainChain(path: TracedPath, { wiring, gearOf }: ChainOf): GainChain {
  const hops = path.connections.flatMap(
    (index) => wiring.find((connection) => connection.index === index) ?? [],
  );
  const points: GainPoint[] = [];
  let missing: string | null = null;
  let carried: Carried = { level_v: null, full_db: 0 };
  for (const [index, hop] of hops.entries()) {
    const gear = gearOf(hop.from.device);
    const out =
      index === 0 ? sourceOut(gear, hop, path) : throughOut(carried, gear, hop.from.device, path);
    if (out.level_v === null && out.full_db === null)
      missing ??= `the full level of ${hop.from.device}`;
    points.push(outputPoint(hop, out, gear));
    const to = gearOf(hop.to.device);
    points.push(inputPoint(hop, out, to, path));
    carried = out;
  }
  const driver_db = driverLevel_db(carried, gearOf(path.target), path, hops.length === 0);
  if (driver_db === null) missing ??= `the input of ${path.target} for full output`;
  points.push({
    at: path.target,
    kind: 'driver',
    level_dbu: null,
    limit_dbu: null,
    margin_db: driver_db === null ? null : -driver_db + 0,
  });
  const known = points.flatMap(({ at, margin_db }) =>
    margin_db === null ? [] : [{ at, margin_db }],
  );
  const [first] = known.toSorted((a, b) => a.margin_db - b.margin_db);
  return {
    source: `${path.source.device}.${path.source.port}`,
    channel: path.channel,
    target: path.target,
    set: path.set,
    points,
    firstToClip: first ? { at: first.at, source_dbfs: first.margin_db } : null,
    driver_db,
    missing,
  };
}

/** What arrives re full scale at the source; levels of the source itself are counted. */
function sourceOut(gear: Gear | null, { from }: Connection, path: TracedPath): Carried {
  const gain_db = deviceGain_db(path, from.device);
  if (from.port.includes('.')) return { level_v: null, full_db: gain_db };
  const full_v = gear?.fullLevelOutput_v ?? null;
  return { level_v: full_v === null ? null : full_v * ratio(gain_db), full_db: null };
}

function throughOut(
  { level_v, full_db }: Carried,
  gear: Gear | null,
  id: string,
  path: TracedPath,
): Carried {
  const gain_db = deviceGain_db(path, id);
  const input_v = sensitivity_v(path, id) ?? gear?.fullLevelInput_v ?? null;
  const output_v = gear?.fullLevelOutput_v ?? null;
  if (gear === null) return { level_v: null, full_db: null };
  if (level_v === null) {
    // Numbers become volts at the device's own full level.
    if (full_db === null || output_v === null) return { level_v: null, full_db: null };
    return { level_v: output_v * ratio(full_db + gain_db), full_db: null };
  }
  if (gear.gain_db !== null)
    return { level_v: level_v * ratio(gear.gain_db + gain_db), full_db: null };
  if (input_v !== null && output_v !== null)
    return { level_v: (level_v / input_v) * output_v * ratio(gain_db), full_db: null };
  return { level_v: level_v * ratio(gain_db), full_db: null };
}

function outputPoint({ from }: Connection, out: Carried, gear: Gear | null): GainPoint {
  const level_dbu = out.level_v !== null && 0 < out.level_v ? voltageTo_dbu(out.level_v) : null;
  const full_v = gear?.fullLevelOutput_v ?? null;
  const limit_dbu =
    level_dbu !== null && full_v !== null && 0 < full_v ? voltageTo_dbu(full_v) : null;
  const margin_db =
    level_dbu !== null && limit_dbu !== null
      ? rounded(limit_dbu - level_dbu)
      : out.full_db === null
        ? null
        : -out.full_db + 0;
  return { at: `${from.device}.${from.port}`, kind: 'output', level_dbu, limit_dbu, margin_db };
}

function inputPoint(
  { from, to }: Connection,
  out: Carried,
  gear: Gear | null,
  path: TracedPath,
): GainPoint {
  const level_dbu = out.level_v !== null && 0 < out.level_v ? voltageTo_dbu(out.level_v) : null;
  const limit_v = from.port.includes('.') ? null : inputLimit_v(gear, to, path);
  const limit_dbu = limit_v !== null && 0 < limit_v ? voltageTo_dbu(limit_v) : null;
  return {
    at: `${to.device}.${to.port}`,
    kind: 'input',
    level_dbu,
    limit_dbu,
    margin_db: level_dbu === null || limit_dbu === null ? null : rounded(limit_dbu - level_dbu),
  };
}

/** The sensitivity dialled in there; else the gear's figure, which a level turned down in a loudspeaker or amplifier raises. */
function inputLimit_v(gear: Gear | null, to: Connection['to'], path: TracedPath): number | null {
  const own = path.stages.find(
    ({ kind, device, fromPort }) =>
      kind === 'input_sensitivity' && device === to.device && samePort(fromPort, to.port),
  );
  if (own) return own.value?.kind === 'voltage' ? own.value.input_v : null;
  const full_v = gear?.fullLevelInput_v ?? null;
  if (gear === null || full_v === null || !DRIVERS.has(gear.kind)) return full_v;
  return full_v / ratio(stageGain_db(path, to.device));
}

const DRIVERS: ReadonlySet<string> = new Set(['loudspeaker', 'subwoofer', 'amplifier']);

/** Level at the driver re its full output, its own levels counted; null where either is not known. */
function driverLevel_db(
  { level_v, full_db }: Carried,
  gear: Gear | null,
  path: TracedPath,
  isAlone: boolean,
): number | null {
  const gain_db = deviceGain_db(path, path.target);
  if (isAlone) return null;
  if (level_v === null) return full_db === null ? null : rounded(full_db + gain_db);
  const input_v = sensitivity_v(path, path.target) ?? gear?.fullLevelInput_v ?? null;
  if (input_v === null || input_v <= 0 || level_v <= 0) return null;
  return rounded(20 * Math.log10(level_v / input_v) + gain_db);
}

function sensitivity_v(path: TracedPath, id: string): number | null {
  const own = path.stages.find(
    ({ kind, device }) => kind === 'input_sensitivity' && device === id,
  )?.value;
  return own?.kind === 'voltage' ? own.input_v : null;
}

/** Levels and gains dialled in on a device, with what its buses turn their inputs down by. */
export function deviceGain_db(path: TracedPath, id: string): number {
  const buses_db = path.busSums.reduce(
    (sum_db, { device, sum_db: one_db }) => (device === id ? sum_db + one_db : sum_db),
    0,
  );
  return stageGain_db(path, id) + buses_db;
}

function stageGain_db({ stages }: TracedPath, id: string): number {
  return stages.reduce(
    (sum_db, { device, value }) =>
      device === id && value?.kind === 'level' ? sum_db + value.level_db : sum_db,
    0,
  );
}

function ratio(level_db: number): number {
  return 10 ** (level_db / 20);
}

/** A millionth of a decibel: equal figures of two data sheets leave nothing. */
function rounded(level_db: number): number {
  return Math.round(level_db * 1e6) / 1e6 + 0;
}
