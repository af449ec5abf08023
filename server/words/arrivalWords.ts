// How long sound takes from a loudspeaker to a seat, in words.

import type { Arrival, SeatFigures, Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { code, type Explanation } from './explanation.ts';

export function seatFigures(setup: Setup, seat: string | null): SeatFigures | null {
  return setup.seats.find(({ id }) => id === seat) ?? null;
}

export function arrivalOf(setup: Setup, seat: string | null, source: string): Arrival | null {
  return seatFigures(setup, seat)?.arrivals.find((arrival) => arrival.source === source) ?? null;
}

/** What a hundredth of a millisecond cannot show. */
const TOGETHER_s = 5e-6;

export function explainArrival(
  setup: Setup,
  seat: string,
  arrival: Arrival,
  show: Show,
): Explanation {
  const speed = show.speed(setup.air.speedOfSound_m_s);
  const lines = [
    `distance ${show.length(arrival.distance_m)}`,
    `time of flight ${show.length(arrival.distance_m)} ÷ ${speed} = **${show.time(arrival.flight_s)}**`,
  ];
  if (arrival.pathLatency_s !== null)
    lines.push(`latency along the wired path ${show.time(arrival.pathLatency_s)}`);
  if (arrival.pathDelay_s !== null)
    lines.push(`delay dialled in along the path ${show.time(arrival.pathDelay_s)}`);
  if (arrival.arrival_s !== null) lines.push(`arrives after ${show.time(arrival.arrival_s)}`);
  if (arrival.early_s !== null)
    lines.push(
      arrival.early_s < TOGETHER_s
        ? 'the latest arrival at this seat'
        : `${show.time(arrival.early_s)} before the latest arrival`,
    );
  if (arrival.neededDelay_s !== null)
    lines.push(`its delay should hold ${show.time(arrival.neededDelay_s)} in all`);
  return {
    title: `${code(arrival.source)} at ${code(seat)}`,
    lines,
    source: `speed of sound: ${setup.air.source}`,
  };
}
