// Rule signal/sub-gets-nothing: every subwoofer gets the bass of some channel, or the LFE.

import { defineRule, type Rule } from '../rule.ts';

export const subGetsNothing: Rule = defineRule<string>({
  code: 'signal/sub-gets-nothing',
  severity: 'warning',
  title: 'A subwoofer gets no signal',
  reason: 'The bass that it should carry is lost, or played by loudspeakers that cannot carry it.',
  advice: 'Wire it to the bass or LFE output, or correct the port that is named.',
  source: 'the wiring',

  *find({ room, signalPaths }) {
    if (room.wiring.length === 0) return;
    for (const { id } of room.subwoofers) {
      if (signalPaths.some(({ target }) => target === id)) continue;
      yield { path: ['subwoofers', id], fact: id };
    }
  },

  message: (id) => `${id} gets neither the bass of a channel nor the LFE`,
});
