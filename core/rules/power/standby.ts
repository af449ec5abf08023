// Rule power/standby: nothing falls asleep in a quiet passage.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly device: string;
  readonly told: string;
}

export const powerStandby: Rule = defineRule<Fact>({
  code: 'power/standby',
  severity: 'information',
  title: 'Standby is on',
  reason:
    'It mutes after a time without bass and wakes up late, with the first beat missing or a thump.',
  advice: 'Switch standby off, or choose the longest time and note it.',
  source: 'common practice, no source',

  *find({ room }) {
    for (const { device, values } of room.settings) {
      for (const value of values) {
        if (value.control !== 'standby' || value.told === 'off' || value.kind === 'unknown')
          continue;
        yield { path: value.path, fact: { device, told: value.told } };
      }
    }
  },

  message: ({ device, told }) => `${device} goes to standby (${told})`,
});
