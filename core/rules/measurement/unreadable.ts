// Rule measurement/unreadable: a measurement file is one that can be read.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementUnreadable: Rule = faultRule('file', {
  code: 'measurement/unreadable',
  severity: 'error',
  title: 'Measurement cannot be read',
  reason: 'A take without its file says nothing: nothing of it is compared with the plan.',
  advice:
    'Export it again as WAV (16, 24, 32-bit integer, 32 or 64-bit float) or as a text of frequency and level.',
  source: 'the file itself',
});
