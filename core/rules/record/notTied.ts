// Rule record/not-tied: measurements and a sign-off say which set-up they are of.

import type { Tie } from '../../record/recordFigures.ts';
import { tieFixes } from '../../record/recordFixes.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly what: string;
}

export const recordNotTied: Rule = defineRule<Fact>({
  code: 'record/not-tied',
  severity: 'hint',
  title: 'No fingerprint of the set-up',
  reason: 'Without it nobody can tell whether an edit came later.',
  advice: 'Write the fingerprint, if the file describes the set-up of that day.',
  source: 'the room file',

  *find({ record }) {
    if (record === undefined) return;
    const { sessions, signOff, fingerprint } = record;
    const isOpen = ({ tie }: Tie): boolean => tie === 'untied';
    for (const one of sessions) {
      const { session, path, takeCount } = one;
      if (!isOpen(one) || takeCount === 0) continue;
      const title = `${session} was taken in this set-up: write its fingerprint`;
      yield { path, fact: { what: session }, fixes: tieFixes(path, fingerprint, title) };
    }
    if (signOff === null || !isOpen(signOff)) return;
    const title = 'This set-up was signed off: write its fingerprint';
    const { path } = signOff;
    yield { path, fact: { what: 'the sign-off' }, fixes: tieFixes(path, fingerprint, title) };
  },

  message: ({ what }) => `Nothing says of which set-up ${what} is`,
});
