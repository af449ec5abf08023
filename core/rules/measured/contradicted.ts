// Rule measured/contradicted: what one session's takes name does not fit another session of the same set-up.

import { defineRule, type Rule } from '../rule.ts';

export const measuredContradicted: Rule = defineRule<{ readonly said: string }>({
  code: 'measured/contradicted',
  severity: 'information',
  title: 'Sessions contradict each other',
  reason:
    'The file says that both were measured in the same set-up; what explains the takes of one makes the other’s fit worse.',
  advice:
    'Look at what was changed between them; a session that was made before something was put right can be left out of the file, or its takes be made again.',
  source:
    'the plan of each session worked out with what explains the other; 2 ln of the evidence above 10, Kass & Raftery, J. Am. Stat. Assoc. 90 (1995) 773',

  *find({ verification, measured }) {
    for (const { session, contradicted = [] } of verification?.sessions ?? []) {
      const pathOf = (id: string) =>
        measured?.sessions.find((one) => one.session === id)?.path ?? [];
      for (const { by, message } of contradicted)
        yield {
          path: pathOf(session),
          fact: { said: message },
          related: [{ path: pathOf(by), message: `the other session, ${by}` }],
        };
    }
  },

  message: ({ said }) => said,
});
