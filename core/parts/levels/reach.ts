// Reach: how loud each driver can be at the reference seat by third octaves, against the reference level and its peaks.

import { BOUNDARY_DB } from '../../field/source.ts';
import type { BandReach, ReachFigures } from '../../levelFigures.ts';
import { valueAt } from '../coverings.ts';
import { memoNamed } from '../memo.ts';
import { type Driven, fullScale_db, leading } from './driven.ts';
import type { PathBand } from './pathBands.ts';
import { wantedPeak_db } from './wanted.ts';

/** A sine's peak above its RMS value. */
const SINE_PEAK_DB = 10 * Math.log10(2);
/** A subwoofer is judged from here on. Common practice, no source. */
const SUB_FROM_HZ = 31.5;
/** The LFE's band. @source ITU-R BS.775-3 Annex 7 */
const LFE_TO_HZ = 120;
/** Where its filters take no more than this it carries the channel: the −6 dB of a Linkwitz–Riley crossover. */
const CARRIES_DB = -6.1;
/** Nominal and exact mid frequencies of a band differ by less. */
const NOMINAL_RATIO = 1.03;
/** A data sheet's lowest figure holds for the band around it: half a third octave. */
const BAND_EDGE_RATIO = 10 ** (-1 / 20);

export type ReachOfDrivers = (
  ways: readonly Driven[],
  seat: string,
  reference_db: number | null,
) => readonly ReachFigures[];

/** A worker: one entry for each driver, set and kind of channel. */
export function createReach(): ReachOfDrivers {
  const reachOfOne = memoNamed(ofDriver);
  return (ways, seat, reference_db) => {
    const all = leading(ways);
    return all.map((way) => {
      const together = all.filter((other) => other !== way && playsTheSame(other, way));
      const { target, set, isLfe } = way.path;
      return reachOfOne(`${target} ${isLfe} ${set}`, seat, reference_db, way, ...together);
    });
  };
}

function ofDriver(
  seat: string,
  reference_db: number | null,
  way: Driven,
  ...together: readonly Driven[]
): ReachFigures {
  const wanted_db = wantedPeak_db(reference_db, way.path.isLfe);
  const range_hz = rangeOf(way);
  const bands = way.bands.map((band) => judged(way, together, band, range_hz, wanted_db));
  return {
    source: way.source.id,
    set: way.path.set,
    isSubwoofer: way.source.isSubwoofer,
    isLfe: way.path.isLfe,
    together: together.map(({ source }) => source.id),
    seat,
    distance_m: way.distance_m,
    wanted_db,
    range_hz,
    bands,
    worst: worstOf(bands),
    unknownBelow_hz: unknownBelow_hz(way, range_hz[0]),
  };
}

/** Subwoofers that get the same signal share the work. */
function playsTheSame(one: Driven, other: Driven): boolean {
  return (
    one.source.isSubwoofer &&
    other.source.isSubwoofer &&
    one.path.set === other.path.set &&
    one.path.isLfe === other.path.isLfe &&
    one.path.source.device === other.path.source.device &&
    one.path.source.port === other.path.source.port
  );
}

function judged(
  way: Driven,
  together: readonly Driven[],
  band: PathBand,
  [from_hz, to_hz]: readonly [number, number],
  wanted_db: number | null,
): BandReach {
  const driver_db = driverPeak_db(way, band.exact_hz);
  const full_db = signalPass_db(way);
  const signal_db = full_db === null ? null : full_db + band.equaliser_db;
  const boost_db = Math.max(0, band.equaliser_db);
  const max_db = driver_db === null ? null : Math.min(driver_db, signal_db ?? Infinity);
  const isIn =
    from_hz <= band.nominal_hz * NOMINAL_RATIO && band.nominal_hz <= to_hz * NOMINAL_RATIO;
  return {
    frequency_hz: band.nominal_hz,
    driver_db,
    signal_db,
    boost_db,
    max_db,
    limitedBy: max_db === null ? null : max_db === driver_db ? 'driver' : 'signal',
    headroom_db:
      driver_db === null || wanted_db === null || !isIn
        ? null
        : withOthers_db(driver_db, together, band.exact_hz) - boost_db - wanted_db,
  };
}

/** Coherent, as the bass of several subwoofers is; one of unknown level adds nothing. */
function withOthers_db(driver_db: number, others: readonly Driven[], exact_hz: number): number {
  const levels = others.map((other) => driverPeak_db(other, exact_hz) ?? Number.NEGATIVE_INFINITY);
  const sum = [driver_db, ...levels].reduce((total, level_db) => total + 10 ** (level_db / 20), 0);
  return 20 * Math.log10(sum);
}

/** The data sheet's peak at the seat; null below the lowest frequency that it tells of. */
export function driverPeak_db(
  { source, spread_db, boundary_db }: Driven,
  frequency_hz: number,
): number | null {
  const most = source.gear?.maxLevel ?? null;
  const lowest_hz = most?.peak_db.frequency_hz[0];
  if (most === null || lowest_hz === undefined || !(0 < most.distance_m)) return null;
  if (frequency_hz < lowest_hz * BAND_EDGE_RATIO) return null;
  const peak_db = valueAt(most.peak_db, frequency_hz);
  if (peak_db === null) return null;
  const free_db = most.space === 'half' ? BOUNDARY_DB : 0;
  return peak_db + 20 * Math.log10(most.distance_m) - free_db + boundary_db - spread_db;
}

/** Peak at the seat in the pass band that the signal can make before something on its way clips; null where not known. */
export function signalPass_db(way: Driven): number | null {
  const full_db = fullScale_db(way);
  return full_db === null ? null : full_db + SINE_PEAK_DB + way.usable_db;
}

/** Where it carries its channel: by its own ends and the filters on its way. */
function rangeOf({ path, source, bands }: Driven): readonly [number, number] {
  const carries = bands.filter(({ crossover_db }) => CARRIES_DB <= crossover_db);
  const from_hz = carries[0]?.nominal_hz ?? SUB_FROM_HZ;
  const to_hz = carries.at(-1)?.nominal_hz ?? SUB_FROM_HZ;
  if (!source.isSubwoofer) {
    return [Math.max(from_hz, source.gear?.lowEnd?.minus6db_hz ?? from_hz), to_hz];
  }
  const top_hz = path.isLfe ? Math.min(LFE_TO_HZ, to_hz) : to_hz;
  const end_hz = source.gear?.highEnd?.minus6db_hz ?? top_hz;
  return [Math.max(SUB_FROM_HZ, from_hz), Math.min(top_hz, end_hz)];
}

/** The band with the least headroom; null where none is known. */
export function worstOf(
  bands: readonly { readonly frequency_hz: number; readonly headroom_db: number | null }[],
): { readonly frequency_hz: number; readonly headroom_db: number } | null {
  let worst: { readonly frequency_hz: number; readonly headroom_db: number } | null = null;
  for (const { frequency_hz, headroom_db } of bands)
    if (headroom_db !== null && (worst === null || headroom_db < worst.headroom_db))
      worst = { frequency_hz, headroom_db };
  return worst;
}

function unknownBelow_hz({ source }: Driven, from_hz: number): number | null {
  const lowest_hz = source.gear?.maxLevel?.peak_db.frequency_hz[0] ?? null;
  return lowest_hz !== null && from_hz < lowest_hz * BAND_EDGE_RATIO ? lowest_hz : null;
}
