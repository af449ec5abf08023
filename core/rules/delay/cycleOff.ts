// Rule delay/cycle-off: mains and subwoofer are not a whole cycle of the crossover apart.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly subs: readonly string[];
  readonly off_s: number;
  readonly cycleCount: number;
  readonly crossover_hz: number;
}

/** Nearer than this to a whole number of cycles, the phase at the crossover looks right. A sixth of a turn: common practice, no source. */
const NEAR_CYCLE = 1 / 6;

export const delayCycleOff: Rule = defineRule<Fact>({
  code: 'delay/cycle-off',
  severity: 'warning',
  title: 'Delay a cycle off',
  reason:
    'Phase at one frequency repeats every cycle: at the crossover it adds up, above and below it does not, and the bass comes late.',
  advice:
    'Take the smallest delay whose phases stay together over the whole overlap, and check it by the arrival.',
  source: 'phase 2π f t; the smallest delay that suits the overlap: common practice, no source',

  *find({ crossovers, advice }) {
    for (const { current, aligned, subs, mains, path } of crossovers) {
      if (current === null || aligned === undefined) continue;
      const crossover_hz = current.filter.frequency_hz;
      // With the other polarity half a cycle is no mistake, and half cycles are not told here.
      if (current.polarity !== aligned.polarity) continue;
      const off_s = current.subDelay_s - aligned.subDelay_s;
      const cycles = off_s * crossover_hz;
      const cycleCount = Math.round(cycles);
      if (cycleCount === 0 || NEAR_CYCLE < Math.abs(cycles - cycleCount)) continue;
      const own = advice.find(({ delay }) =>
        delay?.targets.some((id) => (0 < off_s ? subs : mains).includes(id)),
      );
      yield {
        path: own?.path ?? path,
        fact: { subs, off_s, cycleCount: Math.abs(cycleCount), crossover_hz },
        measured: { value: off_s, unit: 's' },
        limit: { value: NEAR_CYCLE / crossover_hz, unit: 's' },
        related: [{ path, message: 'The crossover' }],
        fixes: own?.fix ? [own.fix] : [],
      };
    }
  },

  message: ({ subs, off_s, cycleCount, crossover_hz }, show) =>
    `${subs.join(', ')} play${subs.length === 1 ? 's' : ''} ${show.time(Math.abs(off_s))} too ${0 < off_s ? 'late' : 'early'}: ${
      cycleCount === 1 ? 'a whole cycle' : `${cycleCount} cycles`
    } at ${show.frequency(crossover_hz)}, where the phase looks right`,
});
