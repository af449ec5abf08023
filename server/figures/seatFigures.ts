// The figures of one seat: arrivals and angles of everything heard there.

import type { Arrival, SeatFigures, Setup } from '../../core/setup.ts';
import { toDegrees, toMs } from './convert.ts';
import { responseFigures, sourceFigures, transferFigures } from './fieldFigures.ts';
import type { FiguresOptions } from './figures.ts';

export function seatFigures(
  setup: Setup,
  seat: SeatFigures,
  { grid_hz, transfers }: FiguresOptions,
): unknown {
  return {
    arrivals: Object.fromEntries(
      seat.arrivals.map((arrival) => [arrival.source, arrivalFigures(setup, arrival)]),
    ),
    angles: Object.fromEntries(
      seat.angles.map(({ source, azimuth_rad, elevation_rad }) => [
        source,
        { azimuth_deg: toDegrees(azimuth_rad), elevation_deg: toDegrees(elevation_rad) },
      ]),
    ),
    response: responseFigures(setup.field ?? null, seat.id, grid_hz),
    source_response: sourceFigures(setup.field ?? null, seat.id, grid_hz),
    ...(transfers === null ? {} : { transfer: transferFigures(transfers, seat.id) }),
  };
}

function arrivalFigures({ advice }: Setup, arrival: Arrival): unknown {
  const { neededDelay_s, adviceIndex } = arrival;
  const setting = adviceIndex === null ? undefined : advice[adviceIndex];
  return {
    distance_m: arrival.distance_m,
    flight_ms: toMs(arrival.flight_s),
    path_latency_ms: toMs(arrival.pathLatency_s),
    path_delay_ms: toMs(arrival.pathDelay_s),
    arrival_ms: toMs(arrival.arrival_s),
    needed_delay_ms: toMs(neededDelay_s),
    needed_delay_samples_48k: neededDelay_s === null ? null : neededDelay_s * 48_000,
    dial_in: setting === undefined ? null : valueAndUnit(setting.dialIn),
    residual_ms: setting === undefined ? null : toMs(setting.residual_s),
  };
}

/** "1.25 ms" as its number and its unit. */
function valueAndUnit(text: string): { readonly value: number; readonly unit: string } | null {
  const match = /^([-+]?\d+(?:\.\d+)?)\s*(\S.*)$/.exec(text);
  if (!match?.[1] || !match[2]) return null;
  return { value: Number(match[1]), unit: match[2] };
}
