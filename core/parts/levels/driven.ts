// Driven: each driver with the ways that count for its level, their chains, and the distance to the reference seat.

import type { Gear } from '../../../schema/model/gear.ts';
import type { Point } from '../../../schema/model/quantities.ts';
import type { Room } from '../../../schema/model/room.ts';
import { distance_m } from '../../acoustics/point.ts';
import { whiteNoiseLeft_db } from '../../acoustics/whiteNoise.ts';
import { BOUNDARY_DB, fullOutput_dbspl } from '../../field/source.ts';
import type { GainChain } from '../../levelFigures.ts';
import { grouped } from '../../signal/grouped.ts';
import type { TracedPath } from '../../signal/traced.ts';
import { memoNamed } from '../memo.ts';
import { type PlacedSource, placedSources, referenceSeat } from '../referenceSeat.ts';
import { gainChain } from './gainChain.ts';
import type { PathBand } from './pathBands.ts';

/** One way to a driver whose place is known. */
export interface Driven {
  readonly source: PlacedSource;
  readonly path: TracedPath;
  readonly chain: GainChain;
  readonly bands: readonly PathBand[];
  readonly distance_m: number;
  /** What the way to the seat takes from the level at 1 m. */
  readonly spread_db: number;
  /** What a boundary adds that the data sheet's half space holds: 0 where it is not there. */
  readonly boundary_db: number;
  /** How much of the source's full scale can be used before something before the driver clips, <= 0. */
  readonly usable_db: number;
  /** What its filters leave of A-weighted hiss made before them, <= 0 where nothing is amplified. */
  readonly hiss_db: number;
}

export type DrivenOf = Pick<
  Room,
  'speakers' | 'subwoofers' | 'devices' | 'seats' | 'targets' | 'policy'
>;

/** The chain of every path, in their order. */
export function chainsOf(
  room: Pick<Room, 'speakers' | 'subwoofers' | 'devices' | 'wiring'>,
  paths: readonly TracedPath[],
): readonly GainChain[] {
  const gears = new Map<string, Gear | null>(
    [...room.devices, ...room.speakers, ...room.subwoofers].map(({ id, gear }) => [id, gear]),
  );
  return paths.map((path) =>
    gainChain(path, { wiring: room.wiring, gearOf: (id) => gears.get(id) ?? null }),
  );
}

export type DrivenWays = (
  room: DrivenOf,
  paths: readonly TracedPath[],
  chains: readonly GainChain[],
  bands: readonly (readonly PathBand[])[],
) => readonly Driven[];

/**
 * A worker: every way to a driver in its place, as the reference seat hears it; empty without a seat. A way on which nothing
 * changed is the very same object again.
 */
export function createDrivenWays(): DrivenWays {
  const drivenOf = memoNamed(driven);
  const hissOf = memoNamed(hissLeft_db);
  return (room, paths, chains, bands) => {
    const ear = referenceSeat(room)?.at ?? null;
    if (ear === null) return [];
    const sources = new Map(placedSources(room).map((source) => [source.id, source]));
    return paths.flatMap((path, index) => {
      const source = sources.get(path.target);
      const chain = chains[index];
      if (source === undefined || chain === undefined) return [];
      const name = `${index}`;
      const own = bands[index] ?? NO_BANDS;
      const hiss_db = hissOf(name, source.isSubwoofer, own);
      return drivenOf(name, source, path, chain, own, hiss_db, ear);
    });
  };
}

/** The same list each time. */
const NO_BANDS: readonly PathBand[] = [];

function driven(
  source: PlacedSource,
  path: TracedPath,
  chain: GainChain,
  bands: readonly PathBand[],
  hiss_db: number,
  ear: Point,
): Driven {
  const away_m = distance_m(source.at, ear);
  return {
    source,
    path,
    chain,
    bands,
    distance_m: away_m,
    spread_db: 20 * Math.log10(Math.max(NEAREST_M, away_m)),
    boundary_db: isBounded(source) ? BOUNDARY_DB : 0,
    usable_db: usable_db(chain),
    hiss_db,
  };
}

/** A high-pass takes nothing to speak of from A-weighted hiss; a subwoofer's filters take nearly all of it. */
function hissLeft_db(isSubwoofer: boolean, bands: readonly PathBand[]): number {
  if (!isSubwoofer) return 0;
  return whiteNoiseLeft_db(
    bands.map(({ exact_hz, crossover_db, equaliser_db, natural_db }) => ({
      exact_hz,
      level_db: crossover_db + equaliser_db + natural_db,
    })),
  );
}

function usable_db({ points }: GainChain): number {
  let least_db = 0;
  for (const { kind, margin_db } of points)
    if (kind !== 'driver' && margin_db !== null) least_db = Math.min(least_db, margin_db);
  return least_db;
}

/** Nearer than this nobody listens. */
const NEAREST_M = 0.1;

/** Half-space figures hold as they are for what is built in and for subwoofers, which stand on the floor. */
function isBounded({ gear, flushIn, isSubwoofer }: PlacedSource): boolean {
  return gear?.maxLevel?.space === 'half' && (flushIn !== null || isSubwoofer);
}

/** RMS level of the pass band at the seat with the source at full scale; null where the chain or the data sheet has a gap. */
export function fullScale_db({ source, chain, spread_db, boundary_db }: Driven): number | null {
  const full_db = source.gear?.maxLevel ? fullOutput_dbspl(source.gear.maxLevel) : null;
  return full_db === null || chain.driver_db === null
    ? null
    : full_db + chain.driver_db + boundary_db - spread_db;
}

/** The way that counts for each driver, set and kind: the first of the main channels, the first of the LFE. */
export function leading(ways: readonly Driven[]): readonly Driven[] {
  const groups = grouped(ways, ({ path }) => `${path.target} ${path.isLfe} ${path.set}`);
  return [...groups.values()].flatMap(([first]) => first ?? []);
}
