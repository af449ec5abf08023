// Rule settings/not-a-choice: a setting is one of those that the device offers.

import type { Control } from '../../../schema/model/gear.ts';
import type { Path } from '../../../schema/model/path.ts';
import type { Room } from '../../../schema/model/room.ts';
import { nearestStep } from '../../signal/steps.ts';
import { defineRule, type Found, type Rule } from '../rule.ts';
import { settingNumbers } from './numbers.ts';

interface Fact {
  readonly device: string;
  readonly told: string;
  readonly choices: readonly string[];
}

export const settingsNotOffered: Rule = defineRule<Fact>({
  code: 'settings/not-a-choice',
  severity: 'error',
  title: 'Setting that the device does not offer',
  reason: 'The device cannot be set so: the value is a slip, or the gear file is of another model.',
  advice: 'Write what the device shows, or add the choice to the gear file.',
  source: 'the choices in the gear file',

  *find({ room }) {
    for (const { device, path, told, value, steps, text } of settingNumbers(room)) {
      if (steps.choices === null || steps.choices.length === 0) continue;
      const nearest = nearestStep(value, steps);
      // A millionth is what unit conversions leave.
      if (Math.abs(nearest - value) <= 1e-6 * Math.max(1e-3, Math.abs(value))) continue;
      const choices = steps.choices.map(text);
      yield finding(path, { device, told, choices }, text(nearest));
    }
    yield* wrongWords(room);
  },

  message: ({ device, told, choices }) => `${device} has no ${told}: it has ${choices.join(', ')}`,
});

/** Words: polarities and switches; `bypass` where a filter has none. */
function* wrongWords(room: Room): Generator<Found<Fact>> {
  const gear = new Map(
    [...room.devices, ...room.subwoofers, ...room.speakers].map((thing) => [thing.id, thing.gear]),
  );
  for (const { device, values } of room.settings) {
    for (const { control: name, path, told, ...value } of values) {
      const control = gear.get(device)?.controls.find((one) => one.name === name);
      if (control === undefined) continue;
      const word =
        value.kind === 'bypass' ? 'bypass' : value.kind === 'choice' ? value.choice : null;
      const choices = wordsOf(control);
      if (word === null || choices === null || choices.includes(word)) continue;
      const only = choices.length === 1 ? (choices[0] ?? null) : null;
      yield finding(path, { device, told, choices }, only);
    }
  }
}

/** null where the control takes numbers only, and words are another fault. */
function wordsOf(control: Control): readonly string[] | null {
  if (control.kind === 'polarity' || control.kind === 'switch') return control.choices;
  if (control.kind !== 'filter') return null;
  return control.bypass ? ['bypass'] : ['a frequency and a slope'];
}

function finding(path: Path, fact: Fact, nearest: string | null): Found<Fact> {
  const isText = nearest !== null && fact.choices.includes(nearest) && !nearest.startsWith('a ');
  return {
    path,
    fact,
    fixes: isText
      ? [
          {
            title: `Change to ${nearest}`,
            edits: [{ do: 'set', path, value: nearest }],
            safe: false,
          },
        ]
      : [],
  };
}
