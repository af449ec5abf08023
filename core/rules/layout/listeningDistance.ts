// Rule layout/listening-distance: the seat is not too far from the front pair for its base.

import { defineRule, type Rule } from '../rule.ts';
import { frontPairStands, stands } from './layoutPath.ts';

/** @source ITU-R BS.1116-3 (from memory): at most 1.7 times the base width */
const MOST_OF_BASE = 1.7;

interface Fact {
  readonly seat: string;
  readonly distance_m: number;
  readonly most_m: number;
}

export const layoutListeningDistance: Rule = defineRule<Fact>({
  code: 'layout/listening-distance',
  severity: 'information',
  title: 'Listening distance',
  reason: 'Farther away the image shrinks and the room is heard more than the loudspeakers.',
  advice: 'Move the seat forwards or the loudspeakers apart.',
  source: 'ITU-R BS.1116-3 §8.5.1.2 (from memory): at most 1.7 times the base width',

  *find(setup) {
    const all = stands(setup);
    for (const layout of setup.layouts) {
      const { seat, baseWidth_m, listeningDistance_m: distance_m } = layout;
      if (!frontPairStands(all, layout)) continue;
      if (baseWidth_m === null || distance_m === null) continue;
      const most_m = MOST_OF_BASE * baseWidth_m;
      if (distance_m <= most_m) continue;
      yield {
        path: ['seats', seat, 'at'],
        fact: { seat, distance_m, most_m },
        measured: { value: distance_m, unit: 'm' },
        limit: { value: most_m, unit: 'm' },
      };
    }
  },

  message: ({ seat, distance_m, most_m }, show) =>
    `${seat} is ${show.length(distance_m)} from the front pair, at most ${show.length(most_m)} suits its base`,
});
