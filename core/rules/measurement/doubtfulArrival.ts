// Rule measurement/doubtful-arrival: the direct sound of a take is the strongest, and its phase a straight line.

import type { Rule } from '../rule.ts';
import { faultRule } from './takeFaults.ts';

export const measurementDoubtfulArrival: Rule = faultRule('file', {
  code: 'measurement/doubtful-arrival',
  severity: 'information',
  title: 'Arrival is doubtful',
  reason:
    'The first sound of the take is not plainly the direct sound, so its arrival may be that of a reflection or a guess.',
  advice: 'See that nothing stands between loudspeaker and microphone, and take it again.',
  source: 'common practice, no source',
});
