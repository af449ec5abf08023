// Rule space/seat-at-mid-length: no seat is in the null of the first mode between front and back wall.

import type { Severity } from '../../../schema/model/problem.ts';
import { defineRule, type Rule } from '../rule.ts';

/** Twenty decibels below the mode's greatest pressure: within about 3 % of the depth. */
const LEAST_STRENGTH = 0.1;

interface Fact {
  readonly seat: string;
  readonly frequency_hz: number;
}

export const spaceSeatAtMidLength: Rule = defineRule<Fact>({
  code: 'space/seat-at-mid-length',
  severity: 'information',
  title: 'Seat in the middle of the depth',
  reason:
    'Half-way between front and back wall the first mode of the depth, and every odd one, is not heard.',
  advice: 'Move the seat forwards or backwards; practice tries about 38 % of the depth first.',
  source: 'computed from the mode shape, cos(π y/D); the 38 % are common practice, no source',

  *find({ room, referenceSeat, space }) {
    const first = space?.modes?.find(({ order: [x, y, z] }) => x === 0 && y === 1 && z === 0);
    for (const { seat, strength } of first?.heardAt ?? []) {
      if (first === undefined || LEAST_STRENGTH <= strength) continue;
      const severity: Severity = seat === referenceSeat ? 'information' : 'hint';
      const path = ['seats', seat, 'at', 'y'];
      if (room.seats.every(({ id }) => id !== seat)) continue;
      yield { path, fact: { seat, frequency_hz: first.frequency_hz }, severity };
    }
  },

  message: ({ seat, frequency_hz }, show) =>
    `${seat} is half-way between front and back wall: no sound of the mode at ${show.frequency(frequency_hz)}`,
});
