// Rule layout/missing: every channel of the layout has a loudspeaker.

import type { Severity } from '../../../schema/model/problem.ts';
import { isLfeName } from '../../layouts/channelNames.ts';
import { defineRule, type Rule } from '../rule.ts';
import { layoutPath } from './layoutPath.ts';

interface Fact {
  readonly layout: string;
  readonly channels: readonly string[];
}

export const layoutMissing: Rule = defineRule<Fact>({
  code: 'layout/missing',
  severity: 'warning',
  title: 'Channel without a loudspeaker',
  reason: 'A channel that nobody hears is a channel that nobody checks.',
  advice:
    'Add the loudspeaker, give an existing one that channel, or name the layout that is really there.',
  source: 'ITU-R BS.2051',

  *find({ room, layouts }) {
    for (const layout of layouts) {
      const missing = layout.positions.filter(({ speaker }) => speaker === null);
      const isEmpty = layout.positions.every(
        ({ speaker, label }) => speaker === null || isLfeName(label),
      );
      if (missing.length === 0 || isEmpty) continue; // a room that is only being begun
      const severity: Severity = missing.every(({ label }) => isLfeName(label))
        ? 'information'
        : 'warning';
      yield {
        path: layoutPath(room, layout),
        fact: { layout: layout.layout, channels: missing.map(({ channel }) => channel) },
        severity,
        measured: { value: layout.positions.length - missing.length, unit: 'count' },
        limit: { value: layout.positions.length, unit: 'count' },
      };
    }
  },

  message: ({ layout, channels }) =>
    `${channels.join(', ')} of ${layout} ${channels.length === 1 ? 'has' : 'have'} no loudspeaker`,
});
