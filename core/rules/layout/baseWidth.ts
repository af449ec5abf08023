// Rule layout/base-width: left and right stand as far apart as the listening-room standards have in mind.

import type { LayoutFigures } from '../../setup.ts';
import { defineRule, type Rule } from '../rule.ts';
import { frontPairStands, stands } from './layoutPath.ts';

/** @source EBU Tech 3276: 2 to 4 m (ITU-R BS.1116: 2 to 3 m, up to 5 m in suitable rooms, from memory) */
const LEAST_M = 2;
const MOST_M = 4;

export const layoutBaseWidth: Rule = defineRule<{ readonly width_m: number }>({
  code: 'layout/base-width',
  severity: 'hint',
  title: 'Base width',
  reason: 'A narrow base suits near listening only; a wide one leaves a hole in the middle.',
  advice: 'Keep the triangle of pair and seat, and change its size if the room allows.',
  source: 'EBU Tech 3276: 2 to 4 m; ITU-R BS.1116 (from memory)',

  *find(setup) {
    const all = stands(setup);
    for (const layout of setup.layouts) {
      if (!frontPairStands(all, layout)) continue;
      const width_m = layout.baseWidth_m;
      if (width_m === null || (LEAST_M <= width_m && width_m <= MOST_M)) continue;
      yield {
        path: frontPath(layout),
        fact: { width_m },
        measured: { value: width_m, unit: 'm' },
        limit: { value: width_m < LEAST_M ? LEAST_M : MOST_M, unit: 'm' },
      };
    }
  },

  message: ({ width_m }, show) =>
    `Left and right are ${show.length(width_m)} apart, ${show.length(LEAST_M)} to ${show.length(MOST_M)} is usual for a reference pair`,
});

/** The right loudspeaker of the front pair: where the width can be changed. */
function frontPath({ positions }: LayoutFigures): readonly string[] {
  const right = positions.find(({ label }) => label === 'M-030')?.speaker;
  return right ? ['speakers', right, 'at'] : ['speakers'];
}
