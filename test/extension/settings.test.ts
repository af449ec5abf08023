// The editor's settings as the server takes them: what is given counts, what is of a wrong type does not.

import { expect, test } from 'vitest';
import { toServerSettings } from '../../extension/settings.ts';
import { DEFAULT_SETTINGS } from '../../server/protocol/settings.ts';

test.each([undefined, null, 'x', {}, { hints: null, defaults: 3 }])(
  '%o leaves what stands',
  (given) => {
    expect(toServerSettings(given)).toEqual(DEFAULT_SETTINGS);
  },
);

test('what is given takes the place of what stands', () => {
  const given = {
    hints: { enabled: false, connection: true },
    defaults: { sampleRate: 96000, temperature: 23 },
  };
  expect(toServerSettings(given)).toEqual({
    hints: { ...DEFAULT_SETTINGS.hints, enabled: false, connection: true },
    sampleRate_hz: 96000,
    temperature_c: 23,
  });
});

test('a value of another type does not', () => {
  const given = { hints: { room: 'yes' }, defaults: { sampleRate: '48 kHz' } };
  expect(toServerSettings(given)).toEqual(DEFAULT_SETTINGS);
});
