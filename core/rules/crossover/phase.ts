// Rule crossover/phase: main and subwoofer are in phase at the crossover.

import { defineRule, type Rule } from '../rule.ts';
import { phaseFixes } from './figures.ts';

interface Fact {
  readonly phase_rad: number;
  readonly crossover_hz: number;
}

/** 0.3 dB are lost at 30°, 1.25 dB at 60° (20 lg cos φ/2): common practice, no source. */
const TOLD_RAD = Math.PI / 6;
const WARNED_RAD = Math.PI / 3;

export const crossoverPhase: Rule = defineRule<Fact>({
  code: 'crossover/phase',
  severity: 'information',
  title: 'Phase at the crossover',
  reason:
    'What is out of phase does not add up: the sum is lower and changes quickly with frequency.',
  advice: 'Set delays and polarity, then check the phase by a measurement of both together.',
  source: 'sum of two equal halves, 20 lg cos(φ/2); limits 30° and 60°: common practice, no source',

  *find(setup) {
    for (const figures of setup.crossovers) {
      const { current, path } = figures;
      if (current === null) continue;
      const phase_rad = Math.abs(current.phaseAtCrossover_rad);
      if (phase_rad <= TOLD_RAD + 1e-9) continue;
      const isFar = WARNED_RAD + 1e-9 < phase_rad;
      yield {
        path,
        fact: { phase_rad, crossover_hz: current.filter.frequency_hz },
        severity: isFar ? 'warning' : 'information',
        measured: { value: phase_rad, unit: 'rad' },
        limit: { value: isFar ? WARNED_RAD : TOLD_RAD, unit: 'rad' },
        fixes: phaseFixes(setup, figures),
      };
    }
  },

  message: ({ phase_rad, crossover_hz }, show) =>
    `Main and subwoofer are predicted ${show.angle(phase_rad)} apart at ${show.frequency(crossover_hz)}`,
});
