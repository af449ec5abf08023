// Rule space/whole-number-ratio: no side of the room is nearly a whole multiple of another.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly sides: string;
  readonly ratio: number;
}

export const spaceWholeNumberRatio: Rule = defineRule<Fact>({
  code: 'space/whole-number-ratio',
  severity: 'information',
  title: 'Sides in a whole-number ratio',
  reason: 'Axial modes of both dimensions fall on the same frequencies and add up.',
  advice: 'Look where those modes lie and keep seat and subwoofers away from their maxima.',
  source: 'EBU Tech 3276 App. 2 (from memory): ratios within ±5 % of a whole number are avoided',

  *find({ space }) {
    for (const { sides, ratio } of space?.proportions?.nearIntegers ?? []) {
      yield {
        path: ['space', 'size'],
        fact: { sides, ratio },
        measured: { value: ratio, unit: '1' },
        limit: { value: Math.max(1, Math.round(ratio)), unit: '1' },
      };
    }
  },

  message({ sides, ratio }) {
    const [one = '', other = ''] = sides.split('/');
    const whole = Math.max(1, Math.round(ratio));
    const name = one.charAt(0).toUpperCase() + one.slice(1);
    return whole === 1
      ? `${name} and ${other} are nearly equal (${ratio.toFixed(2)} : 1)`
      : `${name} is nearly ${whole} times the ${other} (${ratio.toFixed(2)})`;
  },
});
