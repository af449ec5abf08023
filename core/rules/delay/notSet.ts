// Rule delay/not-set: a delay that is needed is recorded.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly targets: readonly string[];
  readonly dialIn: string;
}

export const delayNotSet: Rule = defineRule<Fact>({
  code: 'delay/not-set',
  severity: 'information',
  title: 'Needed delay is not recorded',
  reason:
    'The device has a delay for it and the distances ask for one, but the file does not say what is dialled in.',
  advice: 'Dial in the computed delay and write it down.',
  source: 'distance by the speed of sound, latency and delay along the wiring',

  *find({ advice }) {
    for (const { delay, path, told, dialIn, fix } of advice) {
      if (delay === undefined || told !== null || Number.parseFloat(dialIn) === 0) continue;
      yield {
        path,
        fact: { targets: delay.targets, dialIn },
        limit: { value: delay.needed_s, unit: 's' },
        fixes: fix ? [fix] : [],
      };
    }
  },

  message: ({ targets, dialIn }) =>
    `${dialIn} is computed for ${targets.join(', ')}; nothing is recorded`,
});
