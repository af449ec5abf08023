// Rule measurement/calibrator: the recording of a sound calibrator holds its tone, steady and alone.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementCalibrator: Rule = faultRule('file', {
  code: 'measurement/calibrator',
  severity: 'warning',
  title: 'Calibrator is not heard clearly',
  reason: 'Every sound pressure level of the session is as wrong as the level of this tone.',
  advice: 'Record a few seconds of it again, the microphone seated well and the room quiet.',
  source:
    'IEC 60942 (from memory): frequency within 2 %, fluctuation at most 0.2 dB, distortion at most 4 % (class 2)',
});
