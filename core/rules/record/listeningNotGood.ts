// Rule record/listening-not-good: what was listened to came out well.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly check: string;
  readonly result: 'bad' | 'doubtful';
  readonly listenFor: string | null;
}

export const listeningNotGood: Rule = defineRule<Fact>({
  code: 'record/listening-not-good',
  severity: 'information',
  title: 'Listening check not good',
  reason: 'Ears find what no take was made of: a rattle, a resonance of furniture, a swapped pair.',
  advice: 'Find its cause, mend it, and listen again at a moderate level.',
  source: 'common practice, no source',

  *find({ record }) {
    for (const { check, path, result, listenFor, state } of record?.listening ?? []) {
      if (path === null || state !== 'done') continue;
      if (result !== 'bad' && result !== 'doubtful') continue;
      yield {
        path: [...path, 'result'],
        fact: { check, result, listenFor },
        severity: result === 'bad' ? 'warning' : 'information',
      };
    }
  },

  message: ({ check, result, listenFor }) =>
    `${check} came out ${result}${listenFor === null ? '' : `; listened for: ${listenFor}`}`,
});
