// Rule measurement/sample-rate: a recording has the sample rate of its sweep, and one that can be.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementSampleRate: Rule = faultRule('file', {
  code: 'measurement/sample-rate',
  severity: 'error',
  title: 'Sample rate does not fit',
  reason:
    'A recording in another sample rate than its sweep cannot be told apart from a room that plays slower.',
  advice: 'Record in the rate of the sweep, or make a sweep in the rate of the recording.',
  source: 'the file itself',
});
