// Rule signal/no-delay-stage: what arrives early can be made to wait.

import { sourcePath } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly id: string;
  readonly early_s: number;
}

/** A pair of mains agrees to this (ITU-R BS.1116, from memory). */
const MAIN_S = 0.0001;
/** 1 ms at 80 Hz costs 0.28 dB (20 lg cos(π f t)): common practice, no source. */
const SUB_S = 0.001;

export const noDelayStage: Rule = defineRule<Fact>({
  code: 'signal/no-delay-stage',
  severity: 'information',
  title: 'Early, and nothing to delay it',
  reason: 'It arrives before the others, and no delay stage on its way serves it.',
  advice: 'Move it farther away, or lead it through a device that has a delay.',
  source:
    '0.1 ms for mains: ITU-R BS.1116 (from memory); 1 ms for subwoofers: common practice, no source',

  *find({ room, referenceSeat, seats }) {
    const arrivals = seats.find(({ id }) => id === referenceSeat)?.arrivals ?? [];
    for (const { source, neededDelay_s, adviceIndex } of arrivals) {
      const limit_s = room.subwoofers.some(({ id }) => id === source) ? SUB_S : MAIN_S;
      if (adviceIndex !== null || neededDelay_s === null || neededDelay_s <= limit_s) continue;
      yield {
        path: sourcePath(room, source),
        fact: { id: source, early_s: neededDelay_s },
        measured: { value: neededDelay_s, unit: 's' },
        limit: { value: limit_s, unit: 's' },
      };
    }
  },

  message: ({ id, early_s }, show) =>
    `${id} arrives ${show.time(early_s)} before the latest, and nothing on its way can delay it`,
});
