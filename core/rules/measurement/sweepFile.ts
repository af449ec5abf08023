// Rule measurement/sweep: the sweep of a recording can be read.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementSweepFile: Rule = faultRule('sweep', {
  code: 'measurement/sweep',
  severity: 'error',
  title: 'Sweep cannot be read',
  reason: 'A recording says nothing without the signal that was played.',
  advice: 'Name the WAV file that was played, as `groundbass sweep` made it.',
  source: 'the file itself',
});
