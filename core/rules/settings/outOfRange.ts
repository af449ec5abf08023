// Rule settings/out-of-range: a setting lies within what the device reaches.

import { beyondRange, nearestStep } from '../../signal/steps.ts';
import { defineRule, type Rule } from '../rule.ts';
import { settingNumbers } from './numbers.ts';

interface Fact {
  readonly device: string;
  readonly told: string;
  readonly end: string;
}

export const settingsOutOfRange: Rule = defineRule<Fact>({
  code: 'settings/out-of-range',
  severity: 'error',
  title: 'Setting beyond the range of the device',
  reason: 'The device cannot be set so: the value is a slip, or the gear file is of another model.',
  advice: 'Write the value that the device shows, or correct the range in the gear file.',
  source: 'the range in the gear file',

  *find({ room }) {
    for (const { device, path, told, value, steps, unit, text } of settingNumbers(room)) {
      if (steps.choices !== null || !(0 < beyondRange(value, steps))) continue;
      const end = nearestStep(value, steps);
      yield {
        path,
        fact: { device, told, end: text(end) },
        measured: { value, unit },
        limit: { value: end, unit },
        fixes: [
          {
            title: `Change to ${text(end)}`,
            edits: [{ do: 'set', path, value: text(end) }],
            safe: false,
          },
        ],
      };
    }
  },

  message: ({ device, told, end }) => `${told} is beyond ${device}, which ends at ${end}`,
});
