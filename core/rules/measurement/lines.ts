// Rule measurement/lines: every line of a response is a frequency with its level.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementLines: Rule = faultRule('file', {
  code: 'measurement/lines',
  severity: 'warning',
  title: 'Lines of a measurement are left out',
  reason: 'A response that is read with lines left out may not be the one that was measured.',
  advice: 'Look at the line that is named; export the response again.',
  source: 'the file itself',
});
