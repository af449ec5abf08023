// Rule measured/undecided: what the takes cannot tell, and the take that would.

import { defineRule, type Rule } from '../rule.ts';

export const measuredUndecided: Rule = defineRule<{ readonly said: string }>({
  code: 'measured/undecided',
  severity: 'information',
  title: 'The takes cannot tell',
  reason: 'Several explanations fit these takes alike: to name one of them would be a guess.',
  advice: 'Make the take that is named, and look again.',
  source:
    'the plan worked out again with each explanation; less than 6 apart, Kass & Raftery, J. Am. Stat. Assoc. 90 (1995) 773',

  *find({ verification, measured }) {
    for (const { session, cannotTell } of verification?.sessions ?? []) {
      const path = measured?.sessions.find((one) => one.session === session)?.path ?? [];
      for (const said of cannotTell) yield { path, fact: { said } };
    }
  },

  message: ({ said }) => said,
});
