// Rule signal/lfe-no-low-pass: somewhere on its way the LFE is filtered.

import type { StageOnPath } from '../../setup.ts';
import { defineRule, type Rule } from '../rule.ts';
import { filterState, isLfePath, wirePath } from './stages.ts';

interface Fact {
  readonly sub: string;
  readonly isBypassed: boolean;
}

export const lfeNoLowPass: Rule = defineRule<Fact>({
  code: 'signal/lfe-no-low-pass',
  severity: 'warning',
  title: 'LFE without a low-pass',
  reason:
    'The LFE channel ends at 120 Hz; what lies above it is then played by the subwoofer and heard as a place.',
  advice: 'Switch on a low-pass near 120 Hz on the way of the LFE.',
  source: 'ITU-R BS.775-3 Annex 7: LFE band 20 Hz to 120 Hz',

  *find({ room, signalPaths, advice }) {
    const told = new Set<string>();
    for (const path of signalPaths) {
      if (!isLfePath(path) || told.has(path.target)) continue;
      const filters = path.stages.filter(isLowPass);
      const states = filters.map((stage) => filterState(room, stage).state);
      if (states.includes('on') || states.includes('unset')) continue;
      told.add(path.target);
      const at = filters[0]?.settingPath ?? wirePath(path.connections[0] ?? 0);
      const fix = advice.find((one) => one.path.join('\n') === at.join('\n'))?.fix;
      yield {
        path: at,
        fact: { sub: path.target, isBypassed: 0 < filters.length },
        limit: { value: 120, unit: 'Hz' },
        fixes: fix ? [fix] : [],
      };
    }
  },

  message: ({ sub, isBypassed }) =>
    isBypassed
      ? `The low-pass of the LFE on its way to ${sub} stands at bypass`
      : `The LFE reaches ${sub} without a low-pass`,
});

function isLowPass({ kind }: StageOnPath): boolean {
  return kind === 'lfe_low_pass' || kind === 'low_pass';
}
