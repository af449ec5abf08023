// Rule geometry/outside: seats, loudspeakers and subwoofers are inside the room.

import { thingsOf } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';
import { type Beyond, beyondRoom } from './beyondRoom.ts';

interface Fact extends Beyond {
  readonly id: string;
}

export const geometryOutside: Rule = defineRule<Fact>({
  code: 'geometry/outside',
  severity: 'error',
  title: 'Outside the room',
  reason: 'Distances, modes and reflections are computed inside the walls only.',
  advice:
    'Correct its position or the size of the room; say `mount: { flush_in: … }` where it is built into a wall.',
  source: 'geometry',

  *find({ room }) {
    for (const thing of thingsOf(room)) {
      const found = beyondRoom(room.space, thing);
      if (found === null) continue;
      yield {
        path: [...thing.path, 'at'],
        fact: { id: thing.id, ...found },
        measured: { value: found.beyond_m, unit: 'm' },
        limit: { value: 0, unit: 'm' },
        related: [{ path: ['space'], message: 'The size of the room' }],
      };
    }
  },

  message: ({ id, beyond_m, where }, show) => `${id} stands ${show.length(beyond_m)} ${where}`,
});
