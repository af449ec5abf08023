// Rule record/sign-off-unmeasured: a room is signed off on measurements of the same set-up.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly sessionCount: number;
}

export const signOffUnmeasured: Rule = defineRule<Fact>({
  code: 'record/sign-off-unmeasured',
  severity: 'information',
  title: 'Signed off without measurement',
  reason: 'Figures of the file alone are predictions.',
  advice:
    'Measure (`groundbass recipe` lists the takes), and note the session beside the sign-off.',
  source: 'common practice, no source',

  *find({ record }) {
    const signOff = record?.signOff ?? null;
    if (record === undefined || signOff === null || signOff.isMeasured) return;
    const measured = record.sessions.filter(({ takeCount }) => 0 < takeCount);
    yield { path: signOff.path, fact: { sessionCount: measured.length } };
  },

  message: ({ sessionCount }) =>
    sessionCount === 0
      ? 'Signed off, and no session has a take'
      : 'Signed off, and every session with takes is later or of another set-up',
});
