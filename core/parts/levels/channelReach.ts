// Channel reach: how loud a channel can be at the reference seat by third octaves, all its drivers together, until the first has no more.

import type { ChannelReach } from '../../levelFigures.ts';
import { grouped } from '../../signal/grouped.ts';
import { memoNamed } from '../memo.ts';
import type { Driven } from './driven.ts';
import { driverPeak_db, signalPass_db, worstOf } from './reach.ts';
import { wantedPeak_db } from './wanted.ts';

export type ReachOfChannels = (
  ways: readonly Driven[],
  reference_db: number | null,
) => readonly ChannelReach[];

/** A worker: one entry a channel and set; channels with a driver of unknown level are left out. */
export function createChannelReach(): ReachOfChannels {
  const reachOfOne = memoNamed(ofChannel);
  return (ways, reference_db) => {
    const named = ways.filter(({ path }) => path.channel !== null);
    const groups = grouped(named, ({ path }) => `${path.channel} ${path.set}`);
    return [...groups].flatMap(([name, members]) => reachOfOne(name, reference_db, ...members));
  };
}

/** Empty or one. */
function ofChannel(
  reference_db: number | null,
  ...members: readonly Driven[]
): readonly ChannelReach[] {
  const [first] = members;
  const channel = first?.path.channel ?? null;
  if (first === undefined || channel === null) return [];
  const wanted_db = wantedPeak_db(reference_db, first.path.isLfe);
  const told = members.find(({ source }) => !source.isSubwoofer) ?? first;
  const byMember = members.map(partsOf);
  const bands = told.bands.flatMap(({ nominal_hz }) => {
    const parts = byMember.flatMap((byBand) => byBand.get(nominal_hz) ?? []);
    const together = channelBand(parts);
    if (together === null) return [];
    const headroom_db = wanted_db === null ? null : together.max_db - wanted_db;
    return [{ frequency_hz: nominal_hz, ...together, headroom_db }];
  });
  if (bands.length === 0) return [];
  return [{ channel, set: first.path.set, bands, worst: worstOf(bands) }];
}

interface Part {
  readonly source: string;
  /** Peak at the seat with the source as high as it can go before anything but a driver clips. */
  readonly level_db: number | null;
  readonly driver_db: number | null;
}

/** By the nominal frequency of the band. */
function partsOf(way: Driven): ReadonlyMap<number, Part> {
  const pass_db = signalPass_db(way);
  return new Map(
    way.bands.map((band) => [
      band.nominal_hz,
      {
        source: way.source.id,
        level_db:
          pass_db === null
            ? null
            : pass_db + band.crossover_db + band.equaliser_db + band.natural_db,
        driver_db: driverPeak_db(way, band.exact_hz),
      },
    ]),
  );
}

/** Quieter than this beside the sum, a driver does not limit it. */
const COUNTS_DB = 10;

/** All turned down together until no driver that counts is asked for more than it has; null where that is not known. */
function channelBand(
  parts: readonly Part[],
): { readonly max_db: number; readonly limitedBy: string } | null {
  let sum = 0;
  for (const { level_db } of parts) {
    if (level_db === null) return null;
    sum += 10 ** (level_db / 20);
  }
  if (parts.length === 0) return null;
  const sum_db = 20 * Math.log10(sum);
  let turn_db = 0;
  let limitedBy = 'signal';
  for (const { source, level_db, driver_db } of parts) {
    if (level_db === null || level_db < sum_db - COUNTS_DB) continue;
    if (driver_db === null) return null;
    if (driver_db - level_db < turn_db) {
      turn_db = driver_db - level_db;
      limitedBy = source;
    }
  }
  return { max_db: sum_db + turn_db, limitedBy };
}
