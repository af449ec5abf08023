// The figures of the low end: what each channel comes to at a seat, and the room alone from each source to it.

import type { FieldCurve, FieldFigures, SeatField, SeatTransfer } from '../../core/fieldFigures.ts';
import { toDegrees } from './convert.ts';
import { atFrequencies } from './grid.ts';

/** One key a channel; where a room has several sets of monitors, `<channel>.<set>`. */
export function responseFigures(
  field: FieldFigures | null,
  seat: string,
  grid_hz: readonly number[] | null,
): unknown {
  return curvesAt(field, seat, grid_hz, ({ channels }) =>
    channels.map((one) => [named(one.channel, one.set), { sources: one.sources }, one]),
  );
}

/** The same of each loudspeaker and subwoofer by itself, with the channel that drives it there. */
export function sourceFigures(
  field: FieldFigures | null,
  seat: string,
  grid_hz: readonly number[] | null,
): unknown {
  return curvesAt(field, seat, grid_hz, ({ sources }) =>
    sources.map((one) => [named(one.source, one.set), { channel: one.channel }, one]),
  );
}

/** @param curvesOf key, what stands before the curve, and the curve */
function curvesAt(
  field: FieldFigures | null,
  seat: string,
  grid_hz: readonly number[] | null,
  curvesOf: (here: SeatField) => readonly (readonly [string, object, FieldCurve])[],
): unknown {
  const here = field?.seats.find((one) => one.seat === seat);
  if (!field || !here) return null;
  return Object.fromEntries(
    curvesOf(here).map(([key, about, curve]) => [
      key,
      { ...about, ...curveFigures(curve, field.frequency_hz, grid_hz) },
    ]),
  );
}

function named(id: string, set: string | null): string {
  return set === null ? id : `${id}.${set}`;
}

function curveFigures(
  { level_db, phase_rad, lower_db, upper_db, extremes }: FieldCurve,
  frequency_hz: readonly number[],
  wanted_hz: readonly number[] | null,
): object {
  const on = atFrequencies(frequency_hz, wanted_hz);
  return {
    frequency_hz: on.frequency_hz,
    level_db: on.values(level_db),
    phase_deg: on.phases(phase_rad).map((phase) => rounded(toDegrees(phase))),
    lower_db: lower_db === null ? null : on.values(lower_db),
    upper_db: upper_db === null ? null : on.values(upper_db),
    extremes: extremes && {
      from_hz: extremes.from_hz,
      to_hz: extremes.to_hz,
      median_db: extremes.median_db,
      dip: extremes.dip,
      peak: extremes.peak,
      plus_minus_db: extremes.plusMinus_db,
    },
  };
}

function rounded(degrees: number): number {
  return Math.round(degrees * 100) / 100;
}

/** By seat, then source, as `seats.<id>.transfer` holds them. */
export function transferFigures(transfers: readonly SeatTransfer[], seat: string): unknown {
  return Object.fromEntries(
    transfers
      .filter((one) => one.seat === seat)
      .map(({ source, frequency_hz, real_pa_s_m3, imag_pa_s_m3 }) => [
        source,
        { frequency_hz, real_pa_s_m3, imag_pa_s_m3 },
      ]),
  );
}

/** What holds for the whole room: basis of the levels, method, spread over the seats, polarities, uncertainty. */
export function lowEndFigures(field: FieldFigures | null): unknown {
  if (field === null) return null;
  const { method, damping, level, spread, polarity, uncertainty, schroeder_hz, boundaries } = field;
  return {
    method,
    damping_from: damping.from,
    schroeder_hz,
    level: { kind: level.kind, input_dbfs: level.input_dbfs, level_dbspl: level.level_dbspl },
    spread: spread.map(({ channel, set, variance_db2, deviation_db, ...rest }) => ({
      channel,
      set,
      from_hz: rest.from_hz,
      to_hz: rest.to_hz,
      variance_db2,
      deviation_db,
      worst: rest.worst,
      source: rest.source,
    })),
    polarity: polarity.map(
      ({ sub, set, channels, overlap_hz, asSet_db, turned_db, elsewhere }) => ({
        subwoofer: sub,
        set,
        channels,
        overlap_hz,
        as_set_db: asSet_db,
        turned_db,
        elsewhere: (elsewhere ?? []).map((other) => ({
          seat: other.seat,
          as_set_db: other.asSet_db,
          turned_db: other.turned_db,
        })),
      }),
    ),
    boundaries: boundaries.map(({ source, seat, frequency_hz, level_db }) => ({
      source,
      seat,
      frequency_hz,
      level_db,
    })),
    uncertainty: uncertainty && {
      draws: uncertainty.draws,
      dimension_m: uncertainty.dimension_m,
      source_position_m: uncertainty.sourcePosition_m,
      seat_position_m: uncertainty.seatPosition_m,
      temperature_k: uncertainty.temperature_k,
      absorption_ratio: uncertainty.absorption_ratio,
      construction_ratio: uncertainty.construction_ratio,
    },
  };
}
