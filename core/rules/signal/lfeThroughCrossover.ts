// Rule signal/lfe-through-crossover: the LFE goes past the mains' crossover.

import { defineRule, type Rule } from '../rule.ts';
import { filterState, isLfePath, wirePath } from './stages.ts';

interface Fact {
  readonly sub: string;
  readonly frequency_hz: number;
}

const LFE_ENDS_HZ = 120;

export const lfeThroughCrossover: Rule = defineRule<Fact>({
  code: 'signal/lfe-through-crossover',
  severity: 'warning',
  title: 'LFE through the crossover',
  reason:
    'The low-pass of the mains takes away the upper part of the LFE channel, which nothing else plays.',
  advice: 'Lead the LFE into the LFE input, past the crossover.',
  source:
    'ITU-R BS.775-3 Annex 7: LFE band 20 Hz to 120 Hz; the way past the crossover: common practice, no source',

  *find({ room, signalPaths }) {
    for (const path of signalPaths) {
      if (!isLfePath(path)) continue;
      for (const stage of path.stages.filter(({ kind }) => kind === 'low_pass')) {
        const filter = filterState(room, stage);
        if (filter.state !== 'on' || LFE_ENDS_HZ * 0.95 <= filter.frequency_hz) continue;
        yield {
          path: wirePath(path.connections[0] ?? 0),
          fact: { sub: path.target, frequency_hz: filter.frequency_hz },
          measured: { value: filter.frequency_hz, unit: 'Hz' },
          limit: { value: LFE_ENDS_HZ, unit: 'Hz' },
        };
      }
    }
  },

  message: ({ sub, frequency_hz }, show) =>
    `On its way to ${sub} the LFE passes a low-pass at ${show.frequency(frequency_hz)} and loses what lies above`,
});
