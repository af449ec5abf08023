// Rule record/sign-off-out-of-date: what was signed off is the set-up that the file describes.

import { changedText } from '../../record/partWords.ts';
import { renewFixes, tieFixes } from '../../record/recordFixes.ts';
import type { SetupPart } from '../../record/setupParts.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly date: string | null;
  readonly changed: readonly SetupPart[];
}

export const signOffOutOfDate: Rule = defineRule<Fact>({
  code: 'record/sign-off-out-of-date',
  severity: 'warning',
  title: 'Sign-off is out of date',
  reason: 'Whoever signed saw another set-up.',
  advice: 'Measure and listen again, then sign off anew; or undo the edit.',
  source: 'the room file',

  *find({ record }, { today }) {
    const signOff = record?.signOff ?? null;
    if (record === undefined || signOff?.tie !== 'out_of_date') return;
    const { path, date, changed } = signOff;
    yield {
      path: [...path, 'setup'],
      fact: { date, changed },
      fixes: [
        ...renewFixes(record.fingerprint, today),
        ...tieFixes(path, record.fingerprint, 'This set-up was signed off: write its fingerprint'),
      ],
    };
  },

  message: ({ date, changed }) =>
    `Signed off in another set-up: ${changedText(changed)} since${date === null ? '' : ` ${date}`}`,
});
