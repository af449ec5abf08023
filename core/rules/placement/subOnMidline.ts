// Rule placement/sub-on-midline: a single subwoofer does not stand half-way between two walls.

import { defineRule, type Rule } from '../rule.ts';

/** Where the first mode is driven 20 dB less than from the wall: sin(π d/L) = 0.1. */
const NEAR_SHARE = Math.asin(0.1) / Math.PI;
/** What would be shown as 0 mm is on it. */
const ON_IT_M = 0.0005;

interface Fact {
  readonly sub: string;
  readonly between: string;
  readonly off_m: number;
}

export const subOnMidline: Rule = defineRule<Fact>({
  code: 'placement/sub-on-midline',
  severity: 'information',
  title: 'Subwoofer on a midline',
  reason:
    'Half-way between two walls it drives none of the odd modes between them: notes are missing.',
  advice:
    'Move it sideways; practice starts off the midline, out of the corners, in line with the mains.',
  source: 'common practice, no source; the null of the first mode is computed',

  *find({ room, placement }) {
    const { shape } = room.space;
    if (shape?.kind !== 'box' || room.subwoofers.length !== 1) return;
    for (const { source: sub, fromWidthMidline_m, fromDepthMidline_m } of placement ?? []) {
      const axes = [
        { between: 'left and right', axis: 'x', off_m: fromWidthMidline_m, side_m: shape.width_m },
        { between: 'front and back', axis: 'y', off_m: fromDepthMidline_m, side_m: shape.depth_m },
      ];
      for (const { between, axis, off_m, side_m } of axes) {
        const limit_m = NEAR_SHARE * side_m;
        if (off_m === null || limit_m <= Math.abs(off_m)) continue;
        yield {
          path: ['subwoofers', sub, 'at', axis],
          fact: { sub, between, off_m: Math.abs(off_m) },
          measured: { value: Math.abs(off_m), unit: 'm' },
          limit: { value: limit_m, unit: 'm' },
        };
      }
    }
  },

  message: ({ sub, between, off_m }, show) => {
    const off = off_m < ON_IT_M ? 'on' : `${show.smallLength(off_m)} from`;
    return `${sub} is ${off} the midline between the ${between} walls`;
  },
});
