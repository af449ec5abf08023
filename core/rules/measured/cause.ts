// Rule measured/cause: where takes differ from the plan, what would explain all of it.

import type { LikelyCause } from '../../measured/verification.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly cause: LikelyCause;
  readonly session: string;
}

export const measuredCause: Rule = defineRule<Fact>({
  code: 'measured/cause',
  severity: 'warning',
  title: 'Likely cause of a difference',
  reason:
    'With this one thing otherwise than the file says, the plan worked out again fits the takes; nothing else does nearly as well.',
  advice: 'Look at it in the room; then put the room right, or the file.',
  source:
    'the plan worked out again with each cause; weighed by Laplace’s approximation of the evidence, MacKay, Information Theory, Inference, and Learning Algorithms (2003), chapter 28; named above 10, Kass & Raftery, J. Am. Stat. Assoc. 90 (1995) 773',

  *find({ verification, measured }) {
    for (const { session, verdict, causes } of verification?.sessions ?? []) {
      const [cause] = causes;
      if (verdict !== 'explained' || cause === undefined) continue;
      const path = measured?.sessions.find((one) => one.session === session)?.path ?? [];
      yield {
        path: cause.path,
        fact: { cause, session },
        measured: { value: cause.before, unit: 'misfit' },
        limit: { value: cause.after, unit: 'misfit' },
        related: [{ path, message: `measured in ${session}` }],
        fixes: cause.fix ? [cause.fix] : [],
      };
    }
  },

  message: ({ cause, session }) =>
    [
      `${cause.message} (${session}: misfit ${cause.before.toFixed(0)}, with it ${cause.after.toFixed(0)})`,
      ...cause.evidence,
    ].join('; '),
});
