// Rule signal/driver-unreached: every main loudspeaker gets a signal.

import { defineRule, type Rule } from '../rule.ts';

export const driverUnreached: Rule = defineRule<string>({
  code: 'signal/driver-unreached',
  severity: 'warning',
  title: 'A loudspeaker gets no signal',
  reason:
    'No way leads from a source to its driver, so it stays silent and nothing about its delay is known.',
  advice: 'Complete its wiring, or correct the ports that it names.',
  source: 'the wiring',

  *find({ room, signalPaths }) {
    if (room.wiring.length === 0) return;
    for (const { id } of room.speakers) {
      if (signalPaths.some(({ target }) => target === id)) continue;
      yield { path: ['speakers', id], fact: id };
    }
  },

  message: (id) => `${id} gets no signal: no wiring leads from a source to it`,
});
