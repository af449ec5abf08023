// Rule layout/unexpected: each loudspeaker's channel belongs to the layout.

import { positionFor } from '../../layouts/channelNames.ts';
import { layoutNamed } from '../../layouts/itu2051.ts';
import { defineRule, type Rule } from '../rule.ts';
import { layoutPath } from './layoutPath.ts';

interface Fact {
  readonly id: string;
  readonly channel: string;
  readonly layout: string;
}

export const layoutUnexpected: Rule = defineRule<Fact>({
  code: 'layout/unexpected',
  severity: 'warning',
  title: 'Channel that the layout does not have',
  reason: 'Its direction and level cannot be checked, and no programme in that layout feeds it.',
  advice: 'Correct the channel, take the loudspeaker out of the set, or name a layout that has it.',
  source: 'ITU-R BS.2051',

  *find({ room, layouts }) {
    for (const figures of layouts) {
      const layout = layoutNamed(figures.layout);
      if (layout === undefined) continue;
      const members = room.sets.find(({ id }) => id === figures.set)?.speakers ?? null;
      for (const { id, channel } of room.speakers) {
        if (channel === null || (members !== null && !members.includes(id))) continue;
        if (positionFor(layout, channel) !== undefined) continue;
        yield {
          path: ['speakers', id, 'channel'],
          fact: { id, channel, layout: layout.name },
          related: [{ path: layoutPath(room, figures), message: 'The layout that is meant' }],
        };
      }
    }
  },

  message: ({ id, channel, layout }) => `${layout} has no channel ${channel} (${id})`,
});
