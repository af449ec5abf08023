// Part of Setup: what to dial in, device by device, and which piece of advice belongs to which arrival.

import type { Room } from '../../schema/model/room.ts';
import type { SeatFigures, SettingAdvice } from '../setup.ts';
import type { DelayNeed } from '../signal/alignment.ts';
import { wayKey } from '../signal/heard.ts';
import { controllersOf } from './advice/crossovers.ts';
import { delayAdvice } from './advice/delays.ts';
import { polarityAdvice } from './advice/polarity.ts';
import type { CrossoversPart } from './crossovers.ts';

export interface AdvicePart {
  readonly advice: readonly SettingAdvice[];
  /** Index into `advice` by driver and set, as `wayKey` spells them. */
  readonly delayOf: ReadonlyMap<string, number>;
}

export type AdviceOf = Pick<Room, 'devices' | 'subwoofers' | 'speakers' | 'settings'>;

/**
 * All advice, in the order of devices, subwoofers, loudspeakers; within a device levels first, delays last.
 *
 * @param standing advice on gain and on filters, which no place of a loudspeaker changes
 */
export function advicePart(
  room: AdviceOf,
  standing: readonly SettingAdvice[],
  needs: readonly DelayNeed[],
  { crossovers, judged }: CrossoversPart,
): AdvicePart {
  const delays = delayAdvice(needs, room.settings, crossovers);
  const all = [
    ...standing,
    ...polarityAdvice(crossovers, judged, controllersOf(room.devices)),
    ...delays.map(({ advice }) => advice),
  ];
  const order = new Map(
    [...room.devices, ...room.subwoofers, ...room.speakers].map(({ id }, index) => [id, index]),
  );
  const place = ({ device }: SettingAdvice) => order.get(device) ?? order.size;
  const seen = new Set<string>();
  const advice = all
    .filter(({ path }) => {
      const key = JSON.stringify(path);
      const isNew = !seen.has(key);
      seen.add(key);
      return isNew;
    })
    .sort((a, b) => place(a) - place(b));
  const indexOf = new Map(advice.map((one, index) => [one, index]));
  const delayOf = new Map<string, number>();
  for (const { advice: one, need } of delays) {
    const index = indexOf.get(one);
    if (index === undefined) continue;
    for (const target of need.targets) {
      for (const set of need.sets) delayOf.set(wayKey(target, set), index);
    }
  }
  return { advice, delayOf };
}

/** Arrivals of the reference seat with the index of the advice on their delay. */
export function withAdvice(
  arrivals: SeatFigures['arrivals'],
  delayOf: AdvicePart['delayOf'],
): SeatFigures['arrivals'] {
  return arrivals.map((arrival) => ({
    ...arrival,
    adviceIndex: delayOf.get(wayKey(arrival.source, arrival.set ?? null)) ?? null,
  }));
}
