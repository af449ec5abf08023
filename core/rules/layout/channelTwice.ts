// Rule layout/channel-twice: no two loudspeakers of one layout have the same channel.

import { positionFor } from '../../layouts/channelNames.ts';
import { layoutNamed } from '../../layouts/itu2051.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly id: string;
  readonly first: string;
  readonly channel: string;
}

export const layoutChannelTwice: Rule = defineRule<Fact>({
  code: 'layout/channel-twice',
  severity: 'warning',
  title: 'Channel with two loudspeakers',
  reason: 'Only one of them is checked against the layout, and both playing gives a comb.',
  advice: 'Correct one channel, or sort alternative monitors into `sets`.',
  source: 'ITU-R BS.2051: one loudspeaker a channel',

  *find({ room, layouts }) {
    for (const { layout: name, set } of layouts) {
      const layout = layoutNamed(name);
      const members = room.sets.find(({ id }) => id === set)?.speakers ?? null;
      const firsts = new Map<string, string>();
      for (const { id, channel } of room.speakers) {
        if (channel === null || (members !== null && !members.includes(id))) continue;
        const label = layout && positionFor(layout, channel)?.label;
        if (label === undefined) continue;
        const first = firsts.get(label);
        if (first === undefined) firsts.set(label, id);
        else {
          yield {
            path: ['speakers', id, 'channel'],
            fact: { id, first, channel },
            related: [{ path: ['speakers', first], message: `Has channel ${channel} already` }],
          };
        }
      }
    }
  },

  message: ({ id, first, channel }) => `${id} has channel ${channel}, as ${first} has`,
});
