// Noise at the seat: what each output's and each loudspeaker's own noise comes to there, through the gains after it.
//
// An output's noise is taken as made behind the device's own levels, as a converter's and an output stage's is: it does not
// follow them, and whatever turns down after it turns it down too. A monitor controller on the way stands as at the reference level.

import type { Gear } from '../../../schema/model/gear.ts';
import type { Room } from '../../../schema/model/room.ts';
import { voltageTo_dbu } from '../../acoustics/levels.ts';
import type { Attenuation } from '../../levelFigures.ts';
import type { NoiseSource, SeatNoise } from '../../noiseFigures.ts';
import { grouped } from '../../signal/grouped.ts';
import { memoNamed } from '../memo.ts';
import { type Driven, fullScale_db } from './driven.ts';

type Devices = Pick<Room, 'speakers' | 'subwoofers' | 'devices'>;

/** Gear by the id of what it is. */
export type Gears = ReadonlyMap<string, Gear | null>;

/** Of all that stands in the room. */
export function gearsOf(room: Devices): Gears {
  return new Map(
    [...room.devices, ...room.speakers, ...room.subwoofers].map(({ id, gear }) => [id, gear]),
  );
}

/** The noise heard from one loudspeaker in one set of monitors. */
export interface HeardNoise {
  readonly target: string;
  readonly set: string | null;
  /** As `Attenuation.surplus_db`; null where that is not known, and for what is no main. */
  readonly surplus_db: number | null;
  readonly sources: readonly NoiseSource[];
}

/** A worker: one entry a set and loudspeaker. Where nothing changed on its ways, the sources are the very same list again. */
export function createHeardNoise(): (
  ways: readonly Driven[],
  gears: Gears,
  attenuation: readonly Attenuation[],
) => readonly HeardNoise[] {
  const sourcesOf = memoNamed(noiseSources);
  return (ways, gears, attenuation) =>
    [...grouped(ways, noiseKey)].flatMap(([key, members]): readonly HeardNoise[] => {
      const [first] = members;
      if (first === undefined) return [];
      const { target, set } = first.path;
      const surplus_db =
        attenuation.find((one) => one.target === target && one.set === set)?.surplus_db ?? null;
      const turned_db = Math.max(0, surplus_db ?? 0);
      return [{ target, set, surplus_db, sources: sourcesOf(key, gears, turned_db, ...members) }];
    });
}

function noiseKey({ path: { target, set } }: Driven): string {
  return `${set ?? ''}\n${target}`;
}

/** One entry a set; a set of whose noise nothing is recorded is left out. */
export function seatNoises(
  heard: readonly HeardNoise[],
  ways: readonly Driven[],
  gears: Gears,
): readonly SeatNoise[] {
  const bySet = grouped(ways, ({ path }) => path.set ?? '');
  return [...grouped(heard, ({ set }) => set ?? '')].flatMap(([name, members]) => {
    const sources = members
      .flatMap((one) => one.sources)
      .toSorted((a, b) => b.level_dba - a.level_dba);
    if (sources.length === 0) return [];
    return [
      {
        set: members[0]?.set ?? null,
        level_dba: sum_db(sources.map(({ level_dba }) => level_dba)),
        sources,
        missing: missingOf(bySet.get(name) ?? [], gears),
      },
    ];
  });
}

/**
 * All that is heard from one loudspeaker. An output that several ways pass counts once, as the loudest of them brings it.
 *
 * @param turned_db what the monitor control takes at the reference level
 */
function noiseSources(
  gears: Gears,
  turned_db: number,
  ...ways: readonly Driven[]
): readonly NoiseSource[] {
  const outputs = ways.flatMap((way) => outputNoises(way, gears, turned_db));
  const once = [...grouped(outputs, ({ at }) => at).values()].map((same) =>
    same.reduce((a, b) => (a.level_dba < b.level_dba ? b : a)),
  );
  const [first] = ways;
  return [...(first === undefined ? [] : ownNoise(first)), ...once];
}

function ownNoise({ source, path, spread_db }: Driven): readonly NoiseSource[] {
  const at1m_dba = source.gear?.selfNoise_dba ?? null;
  if (at1m_dba === null) return [];
  const level_dba = at1m_dba - spread_db;
  return [{ at: path.target, kind: 'driver', target: path.target, output_dbu: null, level_dba }];
}

/** The point from which on the monitor control counts: a controller's output, else the source's own. */
export function controlIndex({ chain }: Driven, gears: Gears): number {
  return Math.max(
    0,
    chain.points.findLastIndex(
      ({ at, kind }) => kind === 'output' && gears.get(deviceAt(at))?.kind === 'controller',
    ),
  );
}

function outputNoises(way: Driven, gears: Gears, turned_db: number): readonly NoiseSource[] {
  const full_db = fullScale_db(way);
  if (full_db === null) return [];
  const control = controlIndex(way, gears);
  return way.chain.points.flatMap(({ at, kind, level_dbu }, index): readonly NoiseSource[] => {
    const noise_v = gears.get(deviceAt(at))?.outputNoise_v ?? null;
    if (kind !== 'output' || level_dbu === null || noise_v === null || noise_v <= 0) return [];
    const output_dbu = voltageTo_dbu(noise_v);
    // The source's full scale passes here at `level_dbu` and arrives at `full_db`.
    const less_db = index < control ? turned_db : 0;
    const level_dba = full_db + output_dbu - level_dbu + way.hiss_db - less_db;
    return [{ at, kind: 'output', target: way.path.target, output_dbu, level_dba }];
  });
}

function missingOf(ways: readonly Driven[], gears: Gears): readonly string[] {
  const missing = ways.flatMap(({ path, chain, source }) => [
    ...chain.points
      .filter(({ kind, level_dbu }) => kind === 'output' && level_dbu !== null)
      .map(({ at }) => deviceAt(at))
      .filter((id) => (gears.get(id)?.outputNoise_v ?? null) === null),
    // One without a mains lead has no noise of its own.
    ...(source.gear?.power != null && (source.gear.selfNoise_dba ?? null) === null
      ? [path.target]
      : []),
  ]);
  return [...new Set(missing)];
}

/** The device of `sub.out_left`. */
export function deviceAt(at: string): string {
  return at.slice(0, Math.max(0, at.indexOf('.')));
}

/** Of sources that have nothing to do with each other; minus infinity for none. */
export function sum_db(levels_db: readonly number[]): number {
  return 10 * Math.log10(levels_db.reduce((power, level_db) => power + 10 ** (level_db / 10), 0));
}
