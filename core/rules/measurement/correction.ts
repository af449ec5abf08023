// Rule measurement/correction: the corrections of microphone and interface can be read.

import { defineRule, type Rule } from '../rule.ts';
import { faultsOf } from './takeFaults.ts';

interface Fact {
  readonly message: string;
}

export const measurementCorrection: Rule = defineRule<Fact>({
  code: 'measurement/correction',
  severity: 'warning',
  title: 'Correction cannot be read',
  reason: "Without it the microphone's own response stays in every level of the session.",
  advice: 'Name a text of frequency and level, or take the key away.',
  source: 'the file itself',

  *find(setup) {
    for (const { session, fault } of faultsOf(setup, 'measurement/correction')) {
      const given = setup.room.sessions?.find(({ id }) => id === session.session);
      const isMicrophone = fault.message.includes(`\`${given?.microphone}\``);
      // All takes of a session share it: the same words at the same place are told once.
      yield {
        path: [...session.path, isMicrophone ? 'microphone' : 'interface', 'correction'],
        fact: { message: fault.message },
      };
    }
  },

  message: ({ message }) => `${message.charAt(0).toUpperCase()}${message.slice(1)}`,
});
