// Rule delay/out-of-range: the device can hold the delay that it should hold.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly device: string;
  readonly targets: readonly string[];
  readonly exact: string;
  readonly dialIn: string;
}

export const delayOutOfRange: Rule = defineRule<Fact>({
  code: 'delay/out-of-range',
  severity: 'warning',
  title: 'Needed delay beyond the device',
  reason: 'The device cannot wait that long; what it serves then arrives early.',
  advice:
    'Let another device before it hold the rest, bring the latest arrival nearer, or take latency out of its way.',
  source: 'the range in the gear file',

  *find({ advice }) {
    for (const { delay, device, path, exact, dialIn } of advice) {
      if (delay === undefined || !(1e-7 < delay.beyond_s)) continue;
      yield {
        path,
        fact: { device, targets: delay.targets, exact, dialIn },
        measured: { value: delay.needed_s, unit: 's' },
      };
    }
  },

  message: ({ device, targets, exact, dialIn }) =>
    `${targets.join(', ')} would need ${exact}; the nearest that ${device} can hold is ${dialIn}`,
});
