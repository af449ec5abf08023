// Rule field/seat-on-mode: the reference seat lies neither on a maximum nor in a null of a low mode of the room's depth.
//
// Modes of the width are left out: a seat on the midline is in the null of every odd one, and is there for good reasons. The
// null of the first mode of the depth has a rule of its own (space/seat-at-mid-length).

import type { ModeFigures } from '../../setup.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly seat: string;
  readonly mode: ModeFigures;
  readonly isNull: boolean;
}

/** Twenty decibels below the mode's greatest pressure, and within half a decibel of it. */
const NULL_STRENGTH = 0.1;
const MAXIMUM_STRENGTH = 0.95;
const MOST_ORDER = 3;
const MOST_HZ = 110;

export const fieldSeatOnMode: Rule = defineRule<Fact>({
  code: 'field/seat-on-mode',
  severity: 'hint',
  title: "Seat on a mode's maximum or null",
  reason: 'At a maximum that note booms, in a null it is missing.',
  advice: 'Move the seat forwards or backwards by a few decimetres.',
  source: 'computed from the mode shape, cos(nπy/D); the limits are common practice, no source',

  *find({ space, field, referenceSeat }) {
    if (!field || referenceSeat === null) return;
    for (const mode of space?.modes ?? []) {
      const heard = mode.heardAt.find(({ seat }) => seat === referenceSeat);
      const [x, y, z] = mode.order;
      if (heard === undefined || 0 < x || 0 < z || MOST_ORDER < y) continue;
      if (MOST_HZ < mode.frequency_hz) continue;
      const isNull = heard.strength < NULL_STRENGTH && 1 < y;
      if (!isNull && heard.strength <= MAXIMUM_STRENGTH) continue;
      yield {
        path: ['seats', referenceSeat, 'at', 'y'],
        fact: { seat: referenceSeat, mode, isNull },
        measured: { value: heard.strength, unit: '1' },
        limit: { value: isNull ? NULL_STRENGTH : MAXIMUM_STRENGTH, unit: '1' },
      };
    }
  },

  message: ({ seat, mode, isNull }, show) =>
    `${seat} is ${isNull ? 'in a null' : 'on a maximum'} of the depth's mode at ${show.frequency(mode.frequency_hz)}`,
});
