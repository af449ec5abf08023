// Rule signal/lfe-not-plus-10: something on the LFE's way can make its 10 dB.

import { defineRule, type Rule } from '../rule.ts';
import { isLfePath, wirePath } from './stages.ts';

export const lfeNotPlus10: Rule = defineRule<string>({
  code: 'signal/lfe-not-plus-10',
  severity: 'information',
  title: 'Nothing makes the LFE 10 dB',
  reason:
    'The LFE is recorded 10 dB low and replayed 10 dB high in its band; no LFE gain stage is on its way.',
  advice:
    'Make up the 10 dB by the level of the subwoofer that plays nothing else, or at the source, and note where.',
  source: 'ITU-R BS.775-3 Annex 7; ITU-R BR.1384',

  *find({ room, signalPaths }) {
    const told = new Set<string>();
    for (const path of signalPaths) {
      const { target, stages, gain_db } = path;
      const isSub = room.subwoofers.some(({ id }) => id === target);
      if (!isSub || !isLfePath(path) || told.has(target)) continue;
      // A level dialled up by as much on a subwoofer that plays nothing else is the 10 dB.
      if (stages.some(({ kind }) => kind === 'lfe_gain') || 9.5 <= gain_db) continue;
      told.add(target);
      yield {
        path: wirePath(path.connections[0] ?? 0),
        fact: target,
        limit: { value: 10, unit: 'dB' },
      };
    }
  },

  message: (sub) => `No stage on the way of the LFE to ${sub} makes its 10 dB`,
});
