// Rule geometry/plan-crosses: the walls of a plan do not cross or touch each other.

import { selfCrossings } from '../../acoustics/polygon.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly first: string;
  readonly second: string;
  readonly x_m: number;
  readonly y_m: number;
}

export const geometryPlanCrosses: Rule = defineRule<Fact>({
  code: 'geometry/plan-crosses',
  severity: 'error',
  title: 'Plan crosses itself',
  reason: 'A plan whose walls cross encloses no room: area, volume and reflections are wrong.',
  advice: 'Bring the corners into order round the room, and correct the one that lies wrong.',
  source: 'geometry',

  *find({ room }) {
    const { shape } = room.space;
    if (shape?.kind !== 'plan') return;
    for (const { wallIndices, at } of selfCrossings(shape.walls)) {
      const [first, second] = wallIndices.map((index) => shape.walls[index]?.name ?? '');
      if (first === undefined || second === undefined) continue;
      yield {
        path: ['space', 'plan', second],
        fact: { first, second, x_m: at.x_m, y_m: at.y_m },
        related: [{ path: ['space', 'plan', first], message: 'The other wall' }],
      };
    }
  },

  message: ({ first, second, x_m, y_m }, show) =>
    `Walls ${first} and ${second} meet at x ${show.length(x_m)}, y ${show.length(y_m)}`,
});
