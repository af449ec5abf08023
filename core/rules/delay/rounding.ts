// Rule delay/rounding: the device's steps are fine enough for the crossover.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly targets: readonly string[];
  readonly residual_s: number;
  readonly phase_rad: number;
}

/** Costs 0.03 dB at most, and is a third of what counts as aligned (30°): common practice, no source. */
const LIMIT_RAD = Math.PI / 18;

export const delayRounding: Rule = defineRule<Fact>({
  code: 'delay/rounding',
  severity: 'information',
  title: 'Coarse steps of delay',
  reason: 'What rounding to the steps of the device leaves turns the phase at the crossover.',
  advice:
    'Set the rest with another delay on the way, or move a loudspeaker by the distance that is left.',
  source: 'phase 2π f t; limit 10°: common practice, no source',

  *find({ advice }) {
    for (const { delay, path, residual_s, residualPhase_rad } of advice) {
      if (delay === undefined || residual_s === null || residualPhase_rad === null) continue;
      const phase_rad = Math.abs(residualPhase_rad);
      // Beyond the range is another rule's affair.
      if (phase_rad <= LIMIT_RAD || 1e-7 < delay.beyond_s) continue;
      yield {
        path,
        fact: { targets: delay.targets, residual_s, phase_rad },
        measured: { value: phase_rad, unit: 'rad' },
        limit: { value: LIMIT_RAD, unit: 'rad' },
      };
    }
  },

  message: ({ targets, residual_s, phase_rad }, show) =>
    `The nearest step leaves ${targets.join(', ')} ${show.time(Math.abs(residual_s))} off, ${show.angle(phase_rad)} at the crossover`,
});
