// Rule record/recheck-due: a signed-off room is checked again in time.

import { isOver, monthsLater } from '../day.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly date: string;
  readonly due: string;
}

export const recheckDue: Rule = defineRule<Fact>({
  code: 'record/recheck-due',
  severity: 'warning',
  title: 'Re-check is due',
  reason: 'Furniture, seasons and drivers change a room; a sign-off holds for the time it names.',
  advice: 'Measure and listen again, then sign off anew.',
  source: 'the room file, else the policy; yearly is common practice, no source',

  *find({ room: { signedOff, policy } }, { today }) {
    const months = signedOff?.recheck_months ?? policy.recheck_months;
    const date = signedOff?.date ?? null;
    if (today === null || date === null || months === null) return;
    const due = monthsLater(date, months);
    if (due === null || !isOver(due, today)) return;
    yield { path: ['signed_off', 'date'], fact: { date, due } };
  },

  message: ({ date, due }) => `Signed off on ${date}, to be checked again by ${due}`,
});
