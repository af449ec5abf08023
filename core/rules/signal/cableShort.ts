// Rule signal/cable-short: a cable reaches from one of its ends to the other.

import { defineRule, type Rule } from '../rule.ts';
import { apart_m, cablePath, cableText } from './cables.ts';

interface Fact {
  readonly cable: string;
  readonly from: string;
  readonly to: string;
  readonly length_m: number;
  readonly apart_m: number;
}

export const cableShort: Rule = defineRule<Fact>({
  code: 'signal/cable-short',
  severity: 'warning',
  title: 'A cable that does not reach',
  reason:
    'A cable goes round corners, along walls and up to the plug: it is longer than the straight line.',
  advice: 'Correct its length or its ends in the file, or take a longer one.',
  source: 'the straight line between its ends, by their coordinates',

  *find({ room }) {
    for (const cable of room.cables ?? []) {
      const { length_m, from, to } = cable;
      const between_m = apart_m(room, cable);
      if (length_m === null || between_m === null || between_m <= length_m) continue;
      yield {
        path: cablePath(cable, 'length'),
        fact: {
          cable: cableText(cable),
          from: from.device,
          to: to.device,
          length_m,
          apart_m: between_m,
        },
        measured: { value: length_m, unit: 'm' },
        limit: { value: between_m, unit: 'm' },
      };
    }
  },

  message: ({ cable, from, to, length_m, apart_m }, show) =>
    `${cable} is ${show.length(length_m)} long; ${from} and ${to} are ${show.length(apart_m)} apart in a straight line`,
});
