// Rule measurement/cut-short: a measurement file is as long as its header or its sweep says.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementCutShort: Rule = faultRule('file', {
  code: 'measurement/cut-short',
  severity: 'warning',
  title: 'Measurement is cut short',
  reason:
    'What is missing at its end is missing in decay and in noise; a sweep without its end has no top.',
  advice:
    'Copy the file again, or take it again and let the recording run on for two seconds after the sweep.',
  source: 'the file itself',
});
