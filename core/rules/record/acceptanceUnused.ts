// Rule record/acceptance-unused: each acceptance is about a finding that is there.

import { covers } from '../acceptance.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly id: string;
  readonly finding: string;
  readonly about: string | null;
}

export const acceptanceUnused: Rule = defineRule<Fact>({
  code: 'record/acceptance-unused',
  severity: 'information',
  title: 'Acceptance of nothing',
  reason: 'What was accepted is mended or has moved; kept, the line would hide the next one.',
  advice: 'Remove it, or correct what it is about.',
  source: 'the room file',

  *find({ room, findings, field, measured }, { codes }) {
    for (const acceptance of room.accepted) {
      const { id, finding, about } = acceptance;
      if (!codes.has(finding)) continue; // a wrong code is told where references are judged
      if (finding.startsWith('field/') && !field) continue; // not looked for yet
      if (finding === 'record/drift' && !measured) continue; // takes are read later
      if (findings.some(({ code, path }) => covers(acceptance, code, path))) continue;
      yield {
        path: ['accepted', id],
        fact: { id, finding, about },
        fixes: [
          {
            title: `Remove the acceptance ${id}`,
            edits: [{ do: 'remove', path: ['accepted', id] }],
            safe: false,
          },
        ],
      };
    }
  },

  message: ({ id, finding, about }) =>
    `${id} accepts ${finding}${about === null ? '' : ` about ${about}`}, which is not found`,
});
