// Rule record/session-out-of-date: the newest measurements were taken in the set-up that the file describes.

import { changedText } from '../../record/partWords.ts';
import { tieFixes } from '../../record/recordFixes.ts';
import type { SetupPart } from '../../record/setupParts.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly session: string;
  readonly date: string | null;
  readonly changed: readonly SetupPart[];
}

export const sessionOutOfDate: Rule = defineRule<Fact>({
  code: 'record/session-out-of-date',
  severity: 'information',
  title: 'Measurements are out of date',
  reason:
    'What was measured holds for the set-up that it was measured in, and the file has been edited since.',
  advice: 'Measure again; if the edit only corrected the file, write the fingerprint anew.',
  source: 'the room file',

  *find({ record }) {
    for (const { session, path, date, changed, tie, isNewest } of record?.sessions ?? []) {
      if (record === undefined || tie !== 'out_of_date' || !isNewest) continue;
      yield {
        path: [...path, 'setup'],
        fact: { session, date, changed },
        fixes: tieFixes(
          path,
          record.fingerprint,
          `${session} was taken in this set-up: write its fingerprint`,
        ),
      };
    }
  },

  message: ({ session, date, changed }) =>
    `${session} was measured in another set-up: ${changedText(changed)} since${date === null ? '' : ` ${date}`}`,
});
