// Rule measurement/low-signal: in its own band, a source is 20 dB above the noise.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementLowSignal: Rule = faultRule('file', {
  code: 'measurement/low-signal',
  severity: 'information',
  title: 'Signal too near the noise',
  reason:
    'Within 20 dB of the noise a level errs by a decibel and more: the take says nothing there.',
  advice: 'Take it again with a longer sweep or more repeats, or when the room is quieter.',
  source: "20 dB is the project's own rule: noise 20 dB below errs by less than 1 dB",
});
