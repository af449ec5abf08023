// Rule settings/told-otherwise: a delay is written the way the device is told it.

import type { DelayTelling } from '../../../schema/model/gear.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly device: string;
  readonly told: string;
  readonly as: DelayTelling['as'];
}

const WORDS: Readonly<Record<DelayTelling['as'], string>> = {
  time: 'a time (ms)',
  samples: 'samples',
  added_path: 'an added length of path',
  own_distance: "each loudspeaker's own distance",
};

export const settingsToldOtherwise: Rule = defineRule<Fact>({
  code: 'settings/told-otherwise',
  severity: 'warning',
  title: 'Delay in another unit than the device takes',
  reason: 'Nobody can dial it in without converting it, and converting is where slips happen.',
  advice: 'Write what the device shows.',
  source: 'how the gear file says that the delay is told',

  *find({ room, advice }) {
    const gear = new Map(
      [...room.devices, ...room.subwoofers, ...room.speakers].map((thing) => [
        thing.id,
        thing.gear,
      ]),
    );
    for (const { device, values } of room.settings) {
      for (const value of values) {
        const control = gear.get(device)?.controls.find(({ name }) => name === value.control);
        if (control?.kind !== 'delay') continue;
        const { as } = control.toldAs;
        const isLength = as === 'added_path' || as === 'own_distance';
        const isWrong =
          (value.kind === 'length' && !isLength) || (value.kind === 'delay' && isLength);
        if (!isWrong) continue;
        const text = value.path.join('\n');
        const fix = advice.find(({ path }) => path.join('\n') === text)?.fix;
        yield { path: value.path, fact: { device, told: value.told, as }, fixes: fix ? [fix] : [] };
      }
    }
  },

  message: ({ device, told, as }) => `${told}: ${device} is told ${WORDS[as]}`,
});
