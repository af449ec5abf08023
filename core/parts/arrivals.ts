// Part of Setup: when each driver's sound arrives at each seat, and what its delay should hold.

import type { Point } from '../../schema/model/quantities.ts';
import type { Room, Seat } from '../../schema/model/room.ts';
import type { Arrival, Note } from '../setup.ts';
import { type Alignment, align, type DelayNeed } from '../signal/alignment.ts';
import type { GovernedStage } from '../signal/governing.ts';
import { type Heard, heardAt, type Way } from '../signal/heard.ts';
import type { TracedPath } from '../signal/traced.ts';
import { referenceSeat } from './referenceSeat.ts';

export interface ArrivalsPart {
  readonly seats: readonly { readonly seat: string; readonly arrivals: readonly Arrival[] }[];
  /** What the reference seat asks of each delay setting. */
  readonly needs: readonly DelayNeed[];
  /** As the reference seat hears it. */
  readonly heard: readonly Heard[];
  readonly notes: readonly Note[];
}

export type ArrivalsOf = Pick<Room, 'speakers' | 'subwoofers' | 'devices' | 'seats'>;

/**
 * Arrivals of all seats; the reference seat decides what to dial.
 *
 * @param all the ways of these paths
 */
export function arrivalsPart(
  room: ArrivalsOf,
  paths: readonly TracedPath[],
  all: readonly Way[],
  speedOfSound_m_s: number,
): ArrivalsPart {
  const sources = [...room.speakers, ...room.subwoofers];
  const places = new Map<string, Point>(
    sources.flatMap(({ id, at }) => (at ? [[id, at] as const] : [])),
  );
  const hear = ({ at }: Seat) => (at ? heardAt(at, all, places, speedOfSound_m_s) : []);
  const reference = referenceSeat(room);
  const heard = reference ? hear(reference) : [];
  const aligned = align(heard);
  return {
    seats: room.seats.map((seat) => {
      if (seat === reference) return { seat: seat.id, arrivals: arrivals(heard, aligned) };
      const here = hear(seat);
      return { seat: seat.id, arrivals: arrivals(here, align(here)) };
    }),
    needs: aligned.needs,
    heard,
    notes: notes(room, paths),
  };
}

function arrivals(heard: readonly Heard[], { needed_s }: Alignment): readonly Arrival[] {
  const arrived_s = heard.map(({ fixed_s, ownDelay_s, path }) =>
    fixed_s === null || path?.delayGaps.length !== 0 ? null : fixed_s + ownDelay_s,
  );
  return heard.map((way, index) => {
    const arrival_s = arrived_s[index] ?? null;
    const latest_s = Math.max(
      ...arrived_s.map((other_s, other) =>
        heard[other]?.set === way.set && other_s !== null ? other_s : -Infinity,
      ),
    );
    const figures = {
      source: way.source,
      distance_m: way.distance_m,
      flight_s: way.flight_s,
      pathLatency_s: way.path?.latency_s ?? null,
      pathDelay_s: way.path && way.path.delayGaps.length === 0 ? way.path.delay_s : null,
      arrival_s,
      early_s: arrival_s === null ? null : latest_s - arrival_s,
      neededDelay_s: needed_s[index] ?? null,
      adviceIndex: null,
    };
    return way.set === null ? figures : { ...figures, set: way.set };
  });
}

function notes(room: ArrivalsOf, paths: readonly TracedPath[]): readonly Note[] {
  const gaps = [...new Set(paths.flatMap(({ latencyGaps }) => latencyGaps))];
  const untimed = new Map<string, GovernedStage>(
    paths.flatMap(({ delayGaps }) =>
      delayGaps.map((stage) => [stage.settingPath?.join('.') ?? stage.device, stage] as const),
    ),
  );
  return [
    ...gaps.map((id) => ({
      path: [placeOf(room, id), id],
      message: isKnown(room, id)
        ? `latency of ${id} is not recorded (0 ms where it is analogue throughout): arrivals by way of it cannot be worked out`
        : `the gear of ${id} is not known, and with it its latency: arrivals by way of it cannot be worked out`,
    })),
    ...[...untimed.values()].map(({ settingPath, device, value }) => ({
      path: settingPath ?? ['settings', device],
      message: `${value?.told ?? 'this delay'} cannot be turned into time: ${why(value?.kind)}`,
    })),
  ];
}

function why(kind: string | undefined): string {
  if (kind === 'samples') return 'no sample rate is known for the device';
  if (kind === 'unknown') return 'it is not settled';
  return 'the device is not told its delay so';
}

function isKnown({ devices, subwoofers, speakers }: ArrivalsOf, id: string): boolean {
  return [...devices, ...subwoofers, ...speakers].some((one) => one.id === id && one.gear !== null);
}

function placeOf({ devices, subwoofers }: ArrivalsOf, id: string): string {
  if (devices.some((device) => device.id === id)) return 'devices';
  return subwoofers.some((subwoofer) => subwoofer.id === id) ? 'subwoofers' : 'speakers';
}
