// Rule field/none: the room's plan is one for which the low end can be worked out.

import { defineRule, type Rule } from '../rule.ts';

export const fieldNone: Rule = defineRule<null>({
  code: 'field/none',
  severity: 'warning',
  title: 'No prediction of the bass',
  reason:
    "A plan with needle-sharp corners, slivers, or of a hall's size has no mesh that is quick enough.",
  advice: 'Correct the plan: leave out corners of a few millimetres and walls that nearly meet.',
  source: 'the method: finite elements over the plan',

  *find({ field, space }) {
    // undefined while it has not been tried.
    if (field !== null || space === null || space.volume_m3 === null) return;
    yield { path: ['space'], fact: null };
  },

  message: () => 'The low end of this room cannot be worked out',
});
