// Rule measurement/silent: a take holds a sound.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementSilent: Rule = faultRule('file', {
  code: 'measurement/silent',
  severity: 'error',
  title: 'Measurement is silent',
  reason: 'There is nothing in it to be measured.',
  advice:
    'See which channel the microphone is on, and whether it was switched on; name the channel as `channel`.',
  source: 'the file itself',
});
