// Rule measurement/no-timing: a take with `timing: loopback` has a timing reference.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementNoTiming: Rule = faultRule('timing', {
  code: 'measurement/no-timing',
  severity: 'warning',
  title: 'Take lacks the timing that it promises',
  reason:
    'Without the moment at which playing began there is no arrival, so no delay can be checked.',
  advice:
    'Record the output by a wire on a second input and name its channel as `loopback`, or write `timing: none`.',
  source: 'common practice, no source',
});
