// Rule record/acceptance-ended: an acceptance with an end is looked at again when it has come.

import { covers, hasEnded } from '../acceptance.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly id: string;
  readonly finding: string;
  readonly until: string;
}

export const acceptanceEnded: Rule = defineRule<Fact>({
  code: 'record/acceptance-ended',
  severity: 'warning',
  title: 'Acceptance has ended',
  reason: 'Someone decided to live with it for a time, and that time is over.',
  advice: 'Mend what it was about, or agree on a new end.',
  source: 'the room file',

  *find({ room, findings }, { today }) {
    for (const acceptance of room.accepted) {
      const { id, finding, until } = acceptance;
      if (until === null || !hasEnded(acceptance, today)) continue;
      const about = findings.find(({ code, path }) => covers(acceptance, code, path));
      if (about === undefined) continue; // record/acceptance-unused says so
      yield {
        path: ['accepted', id, 'until'],
        fact: { id, finding, until },
        related: [{ path: about.path, message: about.message }],
      };
    }
  },

  message: ({ id, finding, until }) => `${id} accepted ${finding} until ${until}`,
});
