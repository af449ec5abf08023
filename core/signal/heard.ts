// What a seat hears: for each driver and set the distance, the way its signal takes, and what on it can be moved.

import type { Point } from '../../schema/model/quantities.ts';
import type { Room, Speaker } from '../../schema/model/room.ts';
import { flight_s } from '../acoustics/arrival.ts';
import { distance_m } from '../acoustics/point.ts';
import type { GovernedStage } from './governing.ts';
import { grouped } from './grouped.ts';
import { ownDelayStage, servedByDelays, settingKey } from './ownDelay.ts';
import { setsOf, stageDelay_s, type TracedPath } from './traced.ts';

/** The way to a driver that counts for its arrival, whatever the seat. */
export interface Way {
  readonly source: string;
  readonly set: string | null;
  readonly isSubwoofer: boolean;
  /** null where no signal reaches it. */
  readonly path: TracedPath | null;
  readonly own: GovernedStage | null;
  /** What its own stage holds now; 0 without one. */
  readonly ownDelay_s: number;
}

/** A way heard at a seat. */
export interface Heard extends Way {
  readonly distance_m: number;
  readonly flight_s: number;
  /** Flight, latency and all delays but its own; null where that is not known. */
  readonly fixed_s: number | null;
}

export type Sounding = Pick<Room, 'speakers' | 'subwoofers' | 'sets' | 'settings'>;

/** One way for each driver and set, speakers first, in the file's order. */
export function ways(room: Sounding, paths: readonly TracedPath[]): readonly Way[] {
  const served = servedByDelays(paths);
  const settings = new Map(room.settings.map((of) => [of.device, of]));
  const byDriver = grouped(paths, ({ target, set }) => wayKey(target, set));
  const waysTo = (speaker: Speaker, isSubwoofer: boolean) =>
    setsOf(room, speaker.id).map((set): Way => {
      const all = byDriver.get(wayKey(speaker.id, set)) ?? [];
      const path = countingPath(all);
      const alike = all.filter(({ isLfe }) => isLfe === path?.isLfe);
      const own = path ? ownDelayStage(path, alike, served) : null;
      const ownDelay_s = own ? (stageDelay_s(own, settings.get(own.device)) ?? 0) : 0;
      return { source: speaker.id, set, isSubwoofer, path, own, ownDelay_s };
    });
  return [
    ...room.speakers.flatMap((speaker) => waysTo(speaker, false)),
    ...room.subwoofers.flatMap((speaker) => waysTo(speaker, true)),
  ];
}

/** The ways as a seat hears them; those whose driver has no known place are left out. */
export function heardAt(
  seat: Point,
  all: readonly Way[],
  places: ReadonlyMap<string, Point>,
  speedOfSound_m_s: number,
): readonly Heard[] {
  return all.flatMap((way) => {
    const at = places.get(way.source);
    if (at === undefined) return [];
    const away_m = distance_m(at, seat);
    const flown_s = flight_s(away_m, speedOfSound_m_s);
    const latency_s = way.path?.latency_s ?? null;
    const gaps = way.path?.delayGaps.filter((gap) => !isOwn(way, gap)) ?? [];
    const isKnown = way.path !== null && latency_s !== null && gaps.length === 0;
    const fixed_s = isKnown ? flown_s + latency_s + way.path.delay_s - way.ownDelay_s : null;
    return [{ ...way, distance_m: away_m, flight_s: flown_s, fixed_s }];
  });
}

function isOwn({ own }: Way, stage: GovernedStage): boolean {
  return own !== null && settingKey(own) === settingKey(stage);
}

export function wayKey(source: string, set: string | null): string {
  return `${source} ${set ?? ''}`;
}

/** Of several ways the one that carries a main channel, then the latest one: LFE is aligned along with what it is heard with. */
function countingPath(paths: readonly TracedPath[]): TracedPath | null {
  const mains = paths.filter(({ isLfe }) => !isLfe);
  const candidates = 0 < mains.length ? mains : paths;
  const lateness = ({ latency_s, delay_s }: TracedPath) => (latency_s ?? 0) + delay_s;
  return candidates.reduce<TracedPath | null>(
    (latest, path) => (latest === null || lateness(latest) < lateness(path) ? path : latest),
    null,
  );
}
