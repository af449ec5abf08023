// Rule delay/off-step: a delay is one that the device can take.

import { defineRule, type Rule } from '../rule.ts';
import { offSteps } from '../settings/offSteps.ts';

export const delayOffStep: Rule = defineRule({
  code: 'delay/off-step',
  severity: 'warning',
  title: 'Delay between two steps',
  reason:
    'The device has no such value: whoever dials it in has to guess, and the record is wrong.',
  advice: 'Write the value that the device shows.',
  source: 'the steps in the gear file',
  find: ({ room }) => offSteps(room, (kind) => kind === 'delay'),
  message: ({ told, device, nearest }) => `${device} has no ${told}: its nearest is ${nearest}`,
});
