// Rule record/listening-open: a room that is signed off was listened to in the set-up that it has.

import { tieFixes } from '../../record/recordFixes.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly open: readonly string[];
  readonly isBefore: boolean;
}

export const listeningOpen: Rule = defineRule<Fact>({
  code: 'record/listening-open',
  severity: 'information',
  title: 'Listening check not done',
  reason: 'A change that measures well may still not sound well.',
  advice: 'Listen at a moderate level, and note result, day and name.',
  source: 'common practice, no source',

  *find({ record }) {
    if (record === undefined) return;
    const { listening, signOff, fingerprint } = record;
    for (const { check, path, state } of listening) {
      if (path === null || state !== 'before_change') continue;
      const title = `${check} was listened to in this set-up: write its fingerprint`;
      const fixes = tieFixes(path, fingerprint, title);
      yield { path, fact: { open: [check], isBefore: true }, fixes };
    }
    const open = listening.filter(({ state }) => state === 'open').map(({ check }) => check);
    if (signOff === null || open.length === 0) return;
    yield { path: signOff.path, fact: { open, isBefore: false } };
  },

  message: ({ open, isBefore }) =>
    isBefore
      ? `${open.join(', ')} was listened to before the set-up changed`
      : `Signed off without a result of ${open.join(', ')}`,
});
