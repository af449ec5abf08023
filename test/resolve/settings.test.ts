// Settings: read as the gear's controls take them, and told where they cannot have been dialled in.

import { expect, test } from 'vitest';
import { expectNear } from '../support/expectNear.ts';
import { check, resolveText } from './small.ts';

const THINGS = `
speakers: { left: { gear: heath_6, channel: L, at: unknown } }
subwoofers: { sub: { gear: moor_12, at: unknown } }
devices: { proc: { gear: sluice } }
sets: { far: { speakers: [left] } }
`;

const valuesOf = (settings: string) =>
  resolveText(`${THINGS}${settings}`).room.settings.flatMap(({ values }) => values);

test('every kind of control in SI, with what was written', () => {
  const values = valuesOf(`
settings:
  sub:
    input_sensitivity: 10 dBu
    crossover: { frequency: 75 Hz, slope: 24 dB/oct }
    phase: 90°
    polarity: inverted
    level: -3.25 dB
    standby: 0.5 h
    eq: { band_1: { frequency: 41 Hz, gain: -4.5 dB, q: 4.2 } }
    ports: { driver: { delay: 0.15 ms } }
    sets: { far: { level: -4 dB } }
`);
  const of = (control: string) => values.find((value) => value.control === control);
  // 0 dBu is the voltage of 1 mW in 600 Ω: V = sqrt(0.6) (IEC 60268-17 and usage); 10 dB more is 10^(1/2) times that.
  const sensitivity = of('input_sensitivity');
  expect(sensitivity?.kind).toBe('voltage');
  if (sensitivity?.kind === 'voltage')
    expectNear(sensitivity.input_v, Math.sqrt(0.6) * Math.sqrt(10), 1e-9, 'V');
  expect(of('crossover')).toMatchObject({
    kind: 'filter',
    frequency_hz: 75,
    slope_db_oct: 24,
    told: '75 Hz, 24 dB/oct',
  });
  expect(of('phase')).toMatchObject({ kind: 'phase', phase_rad: Math.PI / 2 });
  expect(of('polarity')).toMatchObject({ kind: 'choice', choice: 'inverted' });
  // The device says `30 min`; what is dialled in is that position, however it was written.
  expect(of('standby')).toMatchObject({ kind: 'choice', choice: '30 min', told: '0.5 h' });
  expect(of('eq')).toMatchObject({
    kind: 'eq',
    bands: [{ name: 'band_1', frequency_hz: 41, gain_db: -4.5, q: 4.2 }],
  });
  expect(of('delay')).toMatchObject({ kind: 'delay', port: 'driver', told: '0.15 ms' });
  expect(values.filter(({ control }) => control === 'level')).toMatchObject([
    { level_db: -3.25, set: null, path: ['settings', 'sub', 'level'] },
    { level_db: -4, set: 'far', path: ['settings', 'sub', 'sets', 'far', 'level'] },
  ]);
});

test('samples are time where a rate is known: 60 samples at 48 kHz are 1.25 ms', () => {
  const [atRate] = valuesOf('settings: { proc: { sample_rate: 48 kHz, delay: 60 samples } }\n');
  expect(atRate?.kind).toBe('delay');
  if (atRate?.kind === 'delay') expectNear(atRate.delay_s, 0.00125, 1e-12, 's');
  // This model runs at two rates, so that without one the count says nothing.
  const [noRate] = valuesOf('settings: { proc: { delay: 60 samples } }\n');
  expect(noRate).toMatchObject({ kind: 'samples', count: 60 });
});

test('controls that the gear does not have', () => {
  check(`${THINGS}
settings:
  lefft: { level: 0 dB }
# ^^^^^ error: No speaker, subwoofer or device is called \`lefft\`; did you mean \`left\`?
  left: { levl: 0 dB, level: 0 dB }
  #       ^^^^ error: \`left\` (heath_6) has no control called \`levl\`; did you mean \`level\`?
  sub:
    delay: 1 ms
#   ^^^^^ error: \`moor_12\` has its \`delay\` port by port: it stands under \`ports\`
    ports:
      driver: { polarity: normal }
      #         ^^^^^^^^ error: \`moor_12\` has one \`polarity\` for all ports: it stands beside \`ports\`
      out_lft: { delay: 1 ms }
#     ^^^^^^^ error: \`sub\` (moor_12) has no port called \`out_lft\`; did you mean \`out_left\`?
    sets:
      farr: { level: 0 dB }
#     ^^^^ error: No set is called \`farr\`; did you mean \`far\`?
`);
});

test('values that the control cannot have', () => {
  check(`${THINGS}
settings:
  left: { tilt: dessk }
  #             ^^^^^ error: \`dessk\` is not a position of \`tilt\`; it has \`flat\`, \`desk\` and \`wall\`
  sub:
    crossover: bypass
    #          ^^^^^^ error: \`crossover\` of this device cannot be bypassed
    eq: { a: { frequency: 40 Hz }, b: { frequency: 50 Hz } }
    #                              ^ error: This device has 1 EQ band; there are 2 here
    ports: { driver: { delay: 0.42 m } }
    #                         ^^^^^^ error: This device takes its delay as a time, such as \`1.25 ms\`
  proc:
    sample_rate: 44.1 kHz
    #            ^^^^^^^^ error: \`sluice\` runs at \`48 kHz\` or \`96 kHz\`
    delay: 1 ms
    #      ^^^^ error: This device takes its delay as a number of samples, such as \`60 samples\`
`);
});

test('unknown is a value of its own, and a gap', () => {
  const { room, problems } = resolveText(`${THINGS}settings: { sub: { polarity: unknown } }\n`);
  expect(problems).toEqual([]);
  expect(room.settings[0]?.values).toMatchObject([{ control: 'polarity', kind: 'unknown' }]);
  expect(room.gaps).toContainEqual({ path: ['settings', 'sub', 'polarity'], reason: 'unknown' });
});
