// Rule record/recheck-due: a signed-off room is checked again in time.

import { renewFixes } from '../../record/recordFixes.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly date: string;
  readonly due: string;
  readonly from: 'room' | 'policy' | null;
}

export const recheckDue: Rule = defineRule<Fact>({
  code: 'record/recheck-due',
  severity: 'warning',
  title: 'Re-check is due',
  reason: 'Furniture, seasons and drivers change a room; a sign-off holds for the time it names.',
  advice: 'Measure and listen again, then sign off anew.',
  source: 'the room file, else the policy; yearly is common practice, no source',

  *find({ record }, { today }) {
    const signOff = record?.signOff ?? null;
    if (record === undefined || signOff === null || signOff.isDue !== true) return;
    const { date, due, dueFrom: from } = signOff;
    if (date === null || due === null) return;
    yield {
      path: ['signed_off', 'date'],
      fact: { date, due, from },
      fixes: renewFixes(record.fingerprint, today),
    };
  },

  message: ({ date, due, from }) =>
    `Signed off on ${date}, to be checked again by ${due}${from === 'policy' ? ', as the policy asks' : ''}`,
});
