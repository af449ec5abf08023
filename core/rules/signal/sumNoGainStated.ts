// Rule signal/sum-no-gain-stated: where inputs are added, the gear file says what they are turned down by.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly id: string;
  readonly bus: string;
  readonly inputCount: number;
}

export const sumNoGainStated: Rule = defineRule<Fact>({
  code: 'signal/sum-no-gain-stated',
  severity: 'hint',
  title: 'Sum without a stated gain',
  reason:
    'Two equal channels added are 6 dB louder than one; whether the device turns them down decides level and headroom.',
  advice: 'State the sum of the bus in the gear file (`buses`).',
  source: 'coherent sum of n equal signals, 20 lg n',

  *find({ room }) {
    const things = [
      ...room.devices.map(({ id, gear }) => ({ id, gear, kind: 'devices' })),
      ...room.subwoofers.map(({ id, gear }) => ({ id, gear, kind: 'subwoofers' })),
      ...room.speakers.map(({ id, gear }) => ({ id, gear, kind: 'speakers' })),
    ];
    for (const { id, gear, kind } of things) {
      if (gear === null) continue;
      const stated = new Set([...gear.buses.map(({ name }) => name), ...gear.outputs, 'driver']);
      const starts = new Set(gear.paths.map(({ from }) => from));
      for (const bus of new Set(gear.paths.map(({ to }) => to))) {
        const inputCount = gear.paths.filter(({ to }) => to === bus).length;
        if (stated.has(bus) || !starts.has(bus) || inputCount < 2) continue;
        yield { path: [kind, id, 'gear'], fact: { id, bus, inputCount } };
      }
    }
  },

  message: ({ id, bus, inputCount }) =>
    `${id} adds ${inputCount} inputs in ${bus}, and its gear file does not say at what gain`,
});
