// Rule delay/pair: left and right of a pair arrive together at the reference seat.

import { rightOf } from '../../layouts/pairs.ts';
import type { Arrival } from '../../setup.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly early: string;
  readonly late: string;
  readonly apart_s: number;
}

/** 34 mm of path. @source ITU-R BS.1116: 100 µs between loudspeakers of a pair (from memory) */
const LIMIT_S = 0.0001;

export const delayPair: Rule = defineRule<Fact>({
  code: 'delay/pair',
  severity: 'warning',
  title: 'A pair arrives apart',
  reason: 'A difference between left and right moves the phantom centre and colours it.',
  advice: 'Make the distances equal, or dial in the computed delays.',
  source: 'ITU-R BS.1116: 100 µs (from memory)',

  *find({ room, referenceSeat, seats }) {
    const arrivals = seats.find(({ id }) => id === referenceSeat)?.arrivals ?? [];
    const of = (id: string, set: string | undefined): Arrival | undefined =>
      arrivals.find((arrival) => arrival.source === id && arrival.set === set);
    for (const left of room.speakers) {
      const opposite = left.channel === null ? null : rightOf(left.channel);
      for (const right of room.speakers.filter(
        ({ channel }) => opposite !== null && channel === opposite,
      )) {
        for (const { set, arrival_s } of arrivals.filter(({ source }) => source === left.id)) {
          const other_s = of(right.id, set)?.arrival_s ?? null;
          if (arrival_s === null || other_s === null) continue;
          const apart_s = Math.abs(arrival_s - other_s);
          if (apart_s <= LIMIT_S + 1e-9) continue;
          const [early, late] = arrival_s < other_s ? [left.id, right.id] : [right.id, left.id];
          yield {
            path: ['speakers', early],
            fact: { early, late, apart_s },
            measured: { value: apart_s, unit: 's' },
            limit: { value: LIMIT_S, unit: 's' },
            related: [{ path: ['speakers', late], message: 'The later one of the pair' }],
          };
        }
      }
    }
  },

  message: ({ early, late, apart_s }, show) =>
    `${early} arrives ${show.time(apart_s)} before ${late}`,
});
