// Rule space/whole-number-ratio: no side of the room is nearly a whole multiple of another.

import { defineRule, type Rule } from '../rule.ts';

interface Near {
  readonly sides: string;
  readonly ratio: number;
}

export const spaceWholeNumberRatio: Rule = defineRule<readonly Near[]>({
  code: 'space/whole-number-ratio',
  severity: 'information',
  title: 'Sides in a whole-number ratio',
  reason: 'Axial modes of both dimensions fall on the same frequencies and add up.',
  advice: 'Look where those modes lie and keep seat and subwoofers away from their maxima.',
  source: 'EBU Tech 3276 App. 2 (from memory): ratios within ±5 % of a whole number are avoided',

  *find({ space }) {
    const near = space?.proportions?.nearIntegers ?? [];
    const [first] = near;
    if (first === undefined) return;
    yield {
      path: ['space', 'size'],
      fact: near,
      measured: { value: first.ratio, unit: '1' },
      limit: { value: Math.max(1, Math.round(first.ratio)), unit: '1' },
    };
  },

  message(near) {
    const text = near.map(words).join(', ');
    return text.charAt(0).toUpperCase() + text.slice(1);
  },
});

function words({ sides, ratio }: Near): string {
  const [one = '', other = ''] = sides.split('/');
  const whole = Math.max(1, Math.round(ratio));
  return whole === 1
    ? `${one} and ${other} are nearly equal (${ratio.toFixed(2)} : 1)`
    : `${one} is nearly ${whole} times the ${other} (${ratio.toFixed(2)})`;
}
