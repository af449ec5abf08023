// Rule measurement/no-level: what full scale means is known where a recording of noise is to be judged.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementNoLevel: Rule = faultRule('file', {
  code: 'measurement/no-level',
  severity: 'information',
  title: 'Noise without a level',
  reason: 'A recording alone tells no sound pressure: noise cannot be held against a curve.',
  advice:
    'Record a sound calibrator with the same gain and name it as `calibrator`, or tell `full_scale`.',
  source: 'the file itself',
});
