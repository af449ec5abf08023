// Rule signal/port-used-twice: one input takes one signal.

import { defineRule, type Rule } from '../rule.ts';
import { portText, wirePath } from './stages.ts';

interface Fact {
  readonly input: string;
  readonly first: string;
  readonly second: string;
}

export const portUsedTwice: Rule = defineRule<Fact>({
  code: 'signal/port-used-twice',
  severity: 'error',
  title: 'Two signals into one input',
  reason: 'Two outputs on one input load each other; a sum needs a device that makes it.',
  advice: 'Take one of the two connections away, or lead one to another input.',
  source: 'common practice, no source',

  *find({ room }) {
    for (const [position, connection] of room.wiring.entries()) {
      // A network port carries a channel for each of its connections.
      if (connection.from.port.includes('.')) continue;
      const input = portText(connection.to);
      const before = room.wiring.slice(0, position).find(({ to }) => portText(to) === input);
      if (before === undefined) continue;
      yield {
        path: wirePath(connection.index),
        fact: { input, first: portText(before.from), second: portText(connection.from) },
        related: [{ path: wirePath(before.index), message: `The first connection into ${input}` }],
        fixes: [
          {
            title: 'Take this connection away',
            edits: [{ do: 'remove', path: wirePath(connection.index) }],
            safe: false,
          },
        ],
      };
    }
  },

  message: ({ input, first, second }) => `${second} goes into ${input}, where ${first} is already`,
});
