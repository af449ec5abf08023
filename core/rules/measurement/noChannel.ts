// Rule measurement/no-channel: the channels that a take names are there.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementNoChannel: Rule = faultRule('file', {
  code: 'measurement/no-channel',
  severity: 'error',
  title: 'Measurement has no such channel',
  reason: 'The take names a channel that its file does not have.',
  advice: 'Correct `channel` or `loopback`; channels count from 1.',
  source: 'the file itself',
});
