// Measuring sessions and listening checks as the computations take them.

import { expect, test } from 'vitest';
import { check, resolveText } from './small.ts';

const THINGS = `
seats: { mix: { at: { x: 2 m, y: 3 m, z: 1.2 m } } }
speakers: { left: { gear: heath_6, channel: L, at: unknown } }
subwoofers: { sub: { gear: moor_12, at: unknown } }
devices: { desk: { gear: quay_8 } }
`;

test('a session with everything that can be told of its takes', () => {
  const { room, problems } = resolveText(`${THINGS}
sessions:
  autumn:
    date: 2026-11-03
    by: R. Ames
    setup: s-7f3a9c21
    air: { temperature: 22 °C }
    microphone: { correction: mics/m1.txt }
    interface: { correction: mics/i1.txt }
    sweep: sweep.wav
    loopback: 2
    takes:
      sub_mix:
        file: sub.wav
        drive: L
        sounding: [sub]
        seat: mix
        bypassed: [eq]
        changed: { sub: { polarity: inverted, ports: { driver: { delay: 1.5 ms } } } }
        timing: loopback
      spot: { file: spot.wav, drive: desk.main_left, at: { x: 1 m, y: 2 m, z: 1.2 m }, sweep: other.wav, channel: 3 }
    averages:
      area: { takes: [sub_mix, spot], by: power }
`);
  expect(problems).toEqual([]);
  const [session] = room.sessions ?? [];
  const [subMix, spot] = session?.takes ?? [];
  expect(session).toMatchObject({
    id: 'autumn',
    path: ['sessions', 'autumn'],
    date: '2026-11-03',
    by: 'R. Ames',
    setup: 's-7f3a9c21',
    microphone: 'mics/m1.txt',
    interface: 'mics/i1.txt',
    averages: [{ id: 'area', takes: ['sub_mix', 'spot'], by: 'power' }],
  });
  expect(session?.temperature_k).toBeCloseTo(295.15, 9);
  expect(subMix).toMatchObject({
    id: 'sub_mix',
    path: ['sessions', 'autumn', 'takes', 'sub_mix'],
    file: 'sub.wav',
    drive: 'L',
    sounding: ['sub'],
    seat: 'mix',
    at: null,
    bypassed: ['eq'],
    changed: [
      { device: 'sub', control: 'polarity', told: 'inverted' },
      { device: 'sub', control: 'delay', told: '1.5 ms' },
    ],
    timing: 'loopback',
    sweep: 'sweep.wav',
    channel: null,
    loopback: 2,
  });
  expect(subMix?.changedSettings?.[0]?.values[1]).toMatchObject({ port: 'driver' });
  expect(spot).toMatchObject({
    drive: 'desk.main_left',
    at: { x_m: 1, y_m: 2, z_m: 1.2 },
    timing: null,
    sweep: 'other.wav',
    channel: 3,
    loopback: 2,
  });
});

test('what is unknown or not written is null; a room without sessions has none', () => {
  const { room } = resolveText(`${THINGS}
sessions: { autumn: { date: 2026-11-03, takes: { a: { file: a.txt, drive: unknown, seat: mix, timing: unknown } } } }
`);
  expect(room.sessions?.[0]?.takes[0]).toMatchObject({ drive: null, sounding: [], timing: null });
  expect(resolveText(THINGS).room.sessions).toEqual([]);
  expect(resolveText(THINGS).room.listening).toEqual([]);
});

test('listening checks, their levels in decibels with the weighting', () => {
  const { room } = resolveText(`${THINGS}
listening:
  kick: { play: own loop, listen_for: even notes, level: 79 dBC, result: good, date: 2026-11-04, by: R. Ames }
  quiet: { play: a voice }
`);
  expect(room.listening).toEqual([
    {
      id: 'kick',
      path: ['listening', 'kick'],
      play: 'own loop',
      listenFor: 'even notes',
      level: { level_db: 79, weighting: 'C' },
      result: 'good',
      date: '2026-11-04',
      by: 'R. Ames',
      setup: null,
    },
    {
      id: 'quiet',
      path: ['listening', 'quiet'],
      play: 'a voice',
      listenFor: null,
      level: null,
      result: null,
      date: null,
      by: null,
      setup: null,
    },
  ]);
});

test('a setting changed for one take is held against the gear as any other', () => {
  check(`${THINGS}
sessions:
  autumn:
    date: 2026-11-03
    takes:
      a: { file: a.txt, seat: mix, changed: { sub: { tilt: desk } } }
      #                                              ^^^^ error: \`sub\` (moor_12) has no control called \`tilt\`; controls here: \`input_sensitivity\`, \`crossover\`, \`phase\`, \`polarity\`, \`level\`, \`eq\`, \`standby\` and \`delay\`
`);
});
