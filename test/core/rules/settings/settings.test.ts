// Rules of the settings: what the device cannot take is told with the nearest that it can.

import { expect, test } from 'vitest';
import { told } from '../../../support/findingsOf.ts';
import {
  BYPASS,
  choice,
  crossover,
  decibels,
  ms,
  subRoomWith,
  volts,
} from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

type Values = Parameters<typeof subRoomWith>[0];

const TABLE: readonly { readonly values: Values; readonly want: readonly string[] }[] = [
  { values: {}, want: [] },
  { values: { level: decibels(-3.25) }, want: [] },
  { values: { level: decibels(10) }, want: [] },
  {
    values: { level: decibels(-3.3) },
    want: ['settings.sub.level: sub has no -3.3 dB: its nearest is -3.25 dB'],
  },
  {
    values: { level: decibels(12) },
    want: ['settings.sub.level: 12 dB is beyond sub, which ends at 10.00 dB'],
  },
  {
    values: { crossover: crossover(77) },
    want: ['settings.sub.crossover.frequency: sub has no 77 Hz: its nearest is 75 Hz'],
  },
  {
    values: { crossover: crossover(75, 18) },
    want: ['settings.sub.crossover.slope: sub has no 18 dB/oct: it has 12 dB/oct, 24 dB/oct'],
  },
  { values: { crossover: BYPASS }, want: [] },
  {
    values: { 'driver:delay': ms(30) },
    want: ['settings.sub.ports.driver.delay: 30 ms is beyond sub, which ends at 25.00 ms'],
  },
  {
    values: { polarity: choice('reversed') },
    want: ['settings.sub.polarity: sub has no reversed: it has normal, inverted'],
  },
  {
    values: { input_sensitivity: volts(1, '0 dBV') },
    want: ['settings.sub.input_sensitivity: sub has no 0 dBV: it has 4 dBu, 10 dBu, 18 dBu'],
  },
  {
    values: { lfe_gain: decibels(6) },
    want: ['settings.sub.lfe_gain: sub has no 6 dB: it has 0 dB, 10 dB'],
  },
];

test.each(TABLE)('$values: $want', ({ values, want }) => {
  expect(told(findingsWith(worked(subRoomWith(values)), 'settings/'))).toEqual(want);
});

test.each([
  ['settings/out-of-range', { level: decibels(12) }, 'settings.sub.level'],
  ['settings/not-a-choice', { crossover: crossover(75, 18) }, 'settings.sub.crossover.slope'],
  ['settings/not-a-choice', { lfe_gain: decibels(6) }, 'settings.sub.lfe_gain'],
] as const)('%s is told at its value, and nothing else is', (code, values, path) => {
  const found = findingsWith(worked(subRoomWith(values)), 'settings/');
  expect(found.map((one) => [one.code, one.path.join('.')])).toEqual([[code, path]]);
});

test('fixes go to what the device has', () => {
  const setup = worked(subRoomWith({ level: decibels(-3.3), crossover: crossover(77) }));
  expect(findingsWith(setup, 'settings/off-step').map(({ fixes }) => fixes[0]?.edits)).toEqual([
    [{ do: 'set', path: ['settings', 'sub', 'crossover', 'frequency'], value: '75 Hz' }],
    [{ do: 'set', path: ['settings', 'sub', 'level'], value: '-3.25 dB' }],
  ]);
});
