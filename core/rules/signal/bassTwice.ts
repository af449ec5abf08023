// Rule signal/bass-twice: the bass of a channel comes to a subwoofer by one way only.

import { grouped } from '../../signal/grouped.ts';
import { defineRule, type Rule } from '../rule.ts';
import { isLfePath, wirePath } from './stages.ts';

interface Fact {
  readonly channel: string;
  readonly sub: string;
  readonly wayCount: number;
}

export const bassTwice: Rule = defineRule<Fact>({
  code: 'signal/bass-twice',
  severity: 'warning',
  title: 'Bass summed twice',
  reason:
    'Two copies of one channel’s bass add up in the subwoofer: up to 6 dB too much, and a comb where their times differ.',
  advice:
    'Leave bass management to one device: take the bass away from the other way, or bypass it there.',
  source: 'coherent sum of two equal signals, 20 lg 2; common practice, no source',

  *find({ room, signalPaths }) {
    const subs = new Set(room.subwoofers.map(({ id }) => id));
    const ways = signalPaths.filter((path) => subs.has(path.target));
    const groups = grouped(ways, ({ source, target, set }) =>
      JSON.stringify([source, target, set ?? null]),
    );
    const told = new Set<string>();
    for (const [first, second, ...more] of groups.values()) {
      if (first === undefined || second === undefined) continue;
      const channel = first.channel ?? `${first.source.device}.${first.source.port}`;
      const key = `${channel} ${first.target}`;
      if (told.has(key) || [first, second, ...more].every(isLfePath)) continue;
      told.add(key);
      const shared = new Set(first.connections);
      const own = second.connections.find((index) => !shared.has(index));
      yield {
        path: wirePath(own ?? second.connections[0] ?? 0),
        fact: { channel, sub: first.target, wayCount: 2 + more.length },
        measured: { value: 2 + more.length, unit: 'count' },
        limit: { value: 1, unit: 'count' },
        related: first.connections
          .slice(0, 1)
          .map((index) => ({ path: wirePath(index), message: 'Where the first way begins' })),
      };
    }
  },

  message: ({ channel, sub, wayCount }) =>
    `The bass of ${channel} comes to ${sub} by ${wayCount} ways, and is added ${wayCount === 2 ? 'twice' : `${wayCount} times`}`,
});
