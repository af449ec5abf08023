// Rule delay/differs: each delay holds what the distances and latencies ask for.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly targets: readonly string[];
  readonly told: string;
  readonly dialIn: string;
}

export const delayDiffers: Rule = defineRule<Fact>({
  code: 'delay/differs',
  severity: 'warning',
  title: 'Delay differs from the computed one',
  reason:
    'What arrives apart is heard apart: images move, and bass adds up wrongly at the crossover.',
  advice: 'Dial in the computed delay, or correct the distance that it is computed from.',
  source: 'distance by the speed of sound, latency and delay along the wiring',

  *find({ advice }) {
    for (const { delay, agrees, path, told, dialIn, fix } of advice) {
      if (delay === undefined || agrees !== false || told === null) continue;
      yield {
        path,
        fact: { targets: delay.targets, told, dialIn },
        ...(delay.told_s === null ? {} : { measured: { value: delay.told_s, unit: 's' } }),
        limit: { value: delay.needed_s, unit: 's' },
        fixes: fix ? [fix] : [],
      };
    }
  },

  message: ({ targets, told, dialIn }) =>
    `${told} for ${targets.join(', ')}, where ${dialIn} is computed`,
});
