// Rule measurement/clipped: no sample of a take is at full scale for several samples.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementClipped: Rule = faultRule('file', {
  code: 'measurement/clipped',
  severity: 'warning',
  title: 'Measurement is clipped',
  reason:
    'Where the input was full, the recording is no longer what the microphone heard: response and distortion are wrong.',
  advice: 'Take it again with less gain at the input.',
  source: 'common practice, no source',
});
