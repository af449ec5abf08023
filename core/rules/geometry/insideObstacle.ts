// Rule geometry/inside-obstacle: nothing stands inside a desk, a column or another obstacle.

import { thingsOf } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';
import { isInRegion, regions } from './region.ts';

interface Fact {
  readonly id: string;
  readonly obstacle: string;
}

export const geometryInsideObstacle: Rule = defineRule<Fact>({
  code: 'geometry/inside-obstacle',
  severity: 'error',
  title: 'Inside an obstacle',
  reason: 'Two things cannot be at one place: one of the two is measured or written wrongly.',
  advice: 'Correct the position, or the extent of the obstacle; give a desk its height with `z`.',
  source: 'geometry',

  *find({ room }) {
    for (const { id, at, path } of thingsOf(room)) {
      for (const obstacle of regions(room.space.fixtures, 'obstacle')) {
        if (!isInRegion(obstacle, at)) continue;
        yield {
          path: [...path, 'at'],
          fact: { id, obstacle: obstacle.id },
          related: [{ path: ['space', 'fixtures', obstacle.id], message: 'The obstacle' }],
        };
      }
    }
  },

  message: ({ id, obstacle }) => `${id} is inside ${obstacle}`,
});
