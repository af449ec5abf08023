// Rule signal/loop: no signal comes back to where it has been.

import { findLoops } from '../../signal/loops.ts';
import { defineRule, type Rule } from '../rule.ts';
import { wirePath } from './stages.ts';

export const signalLoop: Rule = defineRule<readonly string[]>({
  code: 'signal/loop',
  severity: 'error',
  title: 'A loop in the wiring',
  reason:
    'A signal that comes back to where it has been builds up: at best an echo, at worst full level at once.',
  advice: 'Take away the connection that closes the loop.',
  source: 'the wiring',

  *find({ room }) {
    const from = new Map(
      room.wiring.map((connection) => [connection.index, connection.from.device]),
    );
    for (const loop of findLoops(room)) {
      const closing = loop.at(-1);
      if (closing === undefined) continue;
      yield {
        path: wirePath(closing),
        fact: loop.flatMap((index) => from.get(index) ?? []),
        related: loop
          .filter((index) => index !== closing)
          .map((index) => ({ path: wirePath(index), message: 'Part of the loop' })),
      };
    }
  },

  message: (devices) => `This closes a loop: ${[...devices, devices[0]].join(' → ')}`,
});
