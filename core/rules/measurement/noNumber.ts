// Rule measurement/no-number: every sample of a measurement is a number.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementNoNumber: Rule = faultRule('file', {
  code: 'measurement/no-number',
  severity: 'error',
  title: 'Measurement holds samples that are no numbers',
  reason: 'One such sample spoils every figure that is worked out from the file.',
  advice: 'Export or take it again.',
  source: 'the file itself',
});
