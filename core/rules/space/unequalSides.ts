// Rule space/unequal-sides: the reference seat has both side walls equally far away.

import { lengthText, ROUNDING_M, seatAt } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

/** Less than the side reflections' paths differ audibly by: common practice, no source. */
const MOST_M = 0.1;

interface Fact {
  readonly seat: string;
  readonly left_m: number;
  readonly right_m: number;
}

export const spaceUnequalSides: Rule = defineRule<Fact>({
  code: 'space/unequal-sides',
  severity: 'information',
  title: 'Side walls unequally far',
  reason: 'Left and right then have different reflections, and the image leans.',
  advice: 'Centre seat and loudspeakers between the side walls, or treat the nearer one.',
  source:
    'ITU-R BS.1116-3 §8.2.2.1: symmetric about the median plane; 0.1 m is common practice, no source',

  *find({ room, referenceSeat }) {
    const { shape } = room.space;
    const at = seatAt(room, referenceSeat);
    if (shape?.kind !== 'box' || at === null || referenceSeat === null) return;
    const left_m = at.x_m;
    const right_m = shape.width_m - at.x_m;
    if (left_m < 0 || right_m < 0 || Math.abs(left_m - right_m) / 2 <= MOST_M + ROUNDING_M) return;
    const path = ['seats', referenceSeat];
    const value = lengthText(shape.width_m / 2, room.habits);
    yield {
      path: [...path, 'at', 'x'],
      fact: { seat: referenceSeat, left_m, right_m },
      measured: { value: Math.abs(left_m - right_m) / 2, unit: 'm' },
      limit: { value: MOST_M, unit: 'm' },
      fixes: [
        {
          title: `Centre ${referenceSeat} between the side walls`,
          edits: [{ do: 'set', path: [...path, 'at', 'x'], value }],
          safe: false,
        },
      ],
    };
  },

  message: ({ seat, left_m, right_m }, show) =>
    `${seat} is ${show.length(left_m)} from the left wall and ${show.length(right_m)} from the right one`,
});
