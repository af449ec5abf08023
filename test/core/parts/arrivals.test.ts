// Arrivals and delays, by hand calculation: t = d / c, latency and delay added along the wiring, rounded to the device's steps.

import { describe, expect, test } from 'vitest';
import type { Control, DelayTelling, Gear } from '../../../schema/model/gear.ts';
import type { Room } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import { point, seat, speaker, subwoofer } from '../../support/rooms.ts';
import {
  C_M_S,
  DELAY,
  device,
  drawn,
  MAIN,
  metres,
  ms,
  range,
  SOURCE,
  SUB,
  SUB_SETTINGS,
  samples,
  settings,
  subRoom,
  subRoomWith,
  wires,
} from '../../support/wiredRooms.ts';
import { adviceAt, arrivalOf, findingsWith, worked } from '../../support/worked.ts';

const NO_LATENCY = [{ port: '*', latency_s: 0 }];

/** The subwoofer's room without latencies, its delays told another way. */
function toldAs(toldAs: DelayTelling, step_s: number | null, max_s: number | null = 0.025): Room {
  const delay: Control = { ...DELAY, toldAs, delay_s: range(null, max_s, step_s) } as Control;
  const controls = SUB.controls.map((one) => (one.name === 'delay' ? delay : one));
  const room = subRoom();
  return {
    ...room,
    speakers: room.speakers.map((one) => ({ ...one, gear: { ...MAIN, latency_s: NO_LATENCY } })),
    subwoofers: room.subwoofers.map((one) => ({
      ...one,
      gear: { ...SUB, controls, latency_s: NO_LATENCY },
    })),
    settings: [settings('sub', { input_sensitivity: SUB_SETTINGS.input_sensitivity ?? ms(0) })],
  };
}

describe('mains at 2.15 m, subwoofer at 3.40 m, c = 343 m/s', () => {
  // (3.40 − 2.15) / 343 = 3.6443 ms, 174.93 samples at 48 kHz: by hand.
  test('the mains wait 3.6443 ms', () => {
    const setup = worked(toldAs({ as: 'time' }, 0.00005));
    const left = arrivalOf(setup, 'mix', 'left');
    expectNear(left.distance_m, 2.15, 1e-9, 'm');
    expectNear(left.flight_s, 2.15 / 343, 1e-12, 's');
    expectNear(left.neededDelay_s ?? NaN, 0.0036443, 1e-7, 's');
    expectNear(arrivalOf(setup, 'mix', 'sub').neededDelay_s ?? NaN, 0, 1e-12, 's');
  });

  const at = 'settings.sub.ports.out_left.delay';
  const TABLE: readonly {
    readonly telling: DelayTelling;
    readonly step_s: number | null;
    readonly exact: string;
    readonly dialIn: string;
    readonly residual_us: number;
    readonly by: string;
  }[] = [
    // 3.65 ms − 3.644315 ms
    {
      telling: { as: 'time' },
      step_s: 0.00005,
      exact: '3.644 ms',
      dialIn: '3.65 ms',
      residual_us: 5.685,
      by: '0.05 ms steps',
    },
    // 3.6 ms − 3.644315 ms
    {
      telling: { as: 'time' },
      step_s: 0.0001,
      exact: '3.644 ms',
      dialIn: '3.6 ms',
      residual_us: -44.315,
      by: '0.1 ms steps',
    },
    // 175 / 48 000 s − 3.644315 ms
    {
      telling: { as: 'samples', rate_hz: 48_000 },
      step_s: 1 / 48_000,
      exact: '174.9 samples',
      dialIn: '175 samples',
      residual_us: 1.519,
      by: '48 kHz',
    },
    // 350 / 96 000 s − 3.644315 ms: 349.85 samples
    {
      telling: { as: 'samples', rate_hz: 96_000 },
      step_s: 1 / 96_000,
      exact: '349.9 samples',
      dialIn: '350 samples',
      residual_us: 1.519,
      by: '96 kHz',
    },
    // 3.644315 ms × 344 m/s = 1.25364 m; 1.25 m / 344 m/s = 3.633721 ms
    {
      telling: { as: 'added_path', speedOfSound_m_s: 344 },
      step_s: 0.01 / 344,
      exact: '1.254 m',
      dialIn: '1.25 m',
      residual_us: -10.594,
      by: 'a path in cm at 344 m/s',
    },
    // 2.15 m × 344 / 343 = 2.156268 m: what the device must be told for its own speed of sound
    {
      telling: { as: 'own_distance', speedOfSound_m_s: 344 },
      step_s: 0.05 / 344,
      exact: '2.156 m',
      dialIn: '2.15 m',
      residual_us: 18.222,
      by: 'the own distance in 5 cm',
    },
  ];
  test.each(TABLE)('told in $by: $dialIn', ({ telling, step_s, exact, dialIn, residual_us }) => {
    const advice = adviceAt(worked(toldAs(telling, step_s)), at);
    expect([advice.exact, advice.dialIn]).toEqual([exact, dialIn]);
    expectNear((advice.residual_s ?? NaN) * 1e6, residual_us, 0.01, 'µs');
    expect(advice.agrees).toBeNull();
  });

  test('a sample rate of the room’s settings decides where the gear has several', () => {
    const room = toldAs({ as: 'samples', rate_hz: null }, null, null);
    const without = worked(room);
    expect(without.advice.some(({ control }) => control === 'delay')).toBe(false);
    const { values = [] } = room.settings[0] ?? {};
    const withRate = worked({
      ...room,
      settings: [{ device: 'sub', sampleRate_hz: 44_100, values }],
    });
    // 3.644315 ms × 44 100 Hz = 160.71
    expect(adviceAt(withRate, at).dialIn).toBe('161 samples');
  });

  test('a range that ends too soon: the nearest, how much is missing, and a finding', () => {
    const setup = worked(toldAs({ as: 'time' }, 0.00005, 0.002));
    const advice = adviceAt(setup, at);
    expect(advice.dialIn).toBe('2.00 ms');
    expectNear(advice.delay?.beyond_s ?? NaN, 0.0016443, 1e-7, 's');
    expect(findingsWith(setup, 'delay/out-of-range').map(({ path }) => path.join('.'))).toEqual([
      at,
      'settings.sub.ports.out_right.delay',
    ]);
  });
});

describe('latency and dialled delays', () => {
  // Left: 2.15/343 + 0.8 + 1.1 ms = 8.16822 ms; sub: 3.40/343 + 0.8 ms = 10.71254 ms; difference 2.54431 ms. By hand.
  test('count along the way', () => {
    const setup = worked(subRoom());
    expectNear(arrivalOf(setup, 'mix', 'left').arrival_s ?? NaN, 0.00816822, 1e-8, 's');
    expectNear(arrivalOf(setup, 'mix', 'sub').arrival_s ?? NaN, 0.01071254, 1e-8, 's');
    expectNear(arrivalOf(setup, 'mix', 'left').early_s ?? NaN, 0.00254431, 1e-8, 's');
    expect(adviceAt(setup, 'settings.sub.ports.out_left.delay').dialIn).toBe('2.55 ms');
  });

  test('the needed delay does not depend on what is dialled in', () => {
    const needed = (room: Room) =>
      ['left', 'right', 'sub'].map((id) => arrivalOf(worked(room), 'mix', id).neededDelay_s ?? NaN);
    const other = subRoomWith({ 'out_left:delay': ms(7), 'driver:delay': ms(3) });
    expectNear(needed(other), needed(subRoom()), 1e-12, 's');
  });

  test('a latency that is not recorded leaves the arrival open and says so', () => {
    const room = subRoom();
    const setup = worked({
      ...room,
      speakers: room.speakers.map((one) =>
        one.id === 'left' ? { ...one, gear: { ...MAIN, latency_s: [] } } : one,
      ),
    });
    expect(arrivalOf(setup, 'mix', 'left')).toMatchObject({
      pathLatency_s: null,
      arrival_s: null,
      neededDelay_s: null,
    });
    expect(arrivalOf(setup, 'mix', 'right').arrival_s).not.toBeNull();
    expect(setup.notes.map(({ message }) => message).join()).toMatch(/latency of left/);
  });

  test('advice agrees with what is as near as the device can be set', () => {
    const setup = worked(subRoomWith({ 'out_left:delay': ms(2.55), 'out_right:delay': ms(2.5) }));
    expect(adviceAt(setup, 'settings.sub.ports.out_left.delay').agrees).toBe(true);
    expect(adviceAt(setup, 'settings.sub.ports.out_right.delay').agrees).toBe(false);
    expect(findingsWith(setup, 'delay/differs').map(({ message }) => message)).toEqual([
      '2.5 ms for right, where 2.55 ms is computed',
    ]);
  });

  test('other seats have arrivals of their own; the reference seat decides what to dial', () => {
    const room = subRoom();
    const second = seat('back', point(2.5, 6, 1.2), { isReference: false });
    const setup = worked({ ...room, seats: [...room.seats, second] });
    // The subwoofer stands on the axis: 6 − 0.6 = 5.4 m.
    expectNear(arrivalOf(setup, 'back', 'sub').distance_m, 5.4, 1e-9, 'm');
    expect(arrivalOf(setup, 'back', 'sub').adviceIndex).toBeNull();
    expect(adviceAt(setup, 'settings.sub.ports.out_left.delay').dialIn).toBe('2.55 ms');
  });
});

/** A processor with one delay that serves both mains, or one for each. */
function processorRoom(paths: readonly string[], lines: readonly string[]): Room {
  const proc: Gear = {
    ...SUB,
    id: 'proc',
    kind: 'processor',
    inputs: ['in_1', 'in_2'],
    outputs: ['out_1', 'out_2', 'out_3'],
    buses: [],
    paths: paths.map(drawn),
    latency_s: NO_LATENCY,
    controls: [DELAY],
  };
  const plain = { ...MAIN, latency_s: NO_LATENCY };
  return {
    ...subRoom(),
    seats: [seat('mix', point(0, 0, 1))],
    speakers: [
      speaker('left', 'L', point(0, 2, 1), { gear: plain }),
      speaker('right', 'R', point(0, 2.2, 1), { gear: plain }),
    ],
    subwoofers: [],
    devices: [device('desk', SOURCE), device('proc', proc)],
    settings: [],
    wiring: wires(...lines),
  };
}

test('one delay for a group is a compromise: the middle of what its drivers need', () => {
  const room = processorRoom(
    ['in_1 -> delay -> out_1', 'in_2 -> out_3'],
    ['desk.main_left -> proc.in_1', 'proc.out_1 -> left.in', 'proc.out_1 -> right.in'],
  );
  const far = subwoofer('far', point(0, 3, 1), { gear: { ...SUB, latency_s: NO_LATENCY } });
  const wiring = [
    ...room.wiring,
    ...wires('desk.main_right -> far.in_left').map((one) => ({ ...one, index: 3 })),
  ];
  const setup = worked({ ...room, subwoofers: [far], wiring });
  const advice = adviceAt(setup, 'settings.proc.ports.out_1.delay');
  // Far one at 3 m; needs 1.0 m and 0.8 m of path; the middle is 0.9 m / 343 m/s = 2.62391 ms.
  expectNear(advice.delay?.needed_s ?? NaN, 0.9 / C_M_S, 1e-9, 's');
  expect(advice.reason).toMatch(/one delay for left, right: a compromise, 0\.58 ms apart/);
});

test('the delay nearest to the driver that serves it alone is its own', () => {
  const room = processorRoom(
    ['in_1 -> delay -> out_1', 'in_2 -> delay -> out_2'],
    [
      'desk.main_left -> proc.in_1',
      'desk.main_right -> proc.in_2',
      'proc.out_1 -> left.in',
      'proc.out_2 -> right.in',
    ],
  );
  const setup = worked(room);
  // 0.2 m / 343 m/s = 0.58309 ms.
  expect(adviceAt(setup, 'settings.proc.ports.out_1.delay').dialIn).toBe('0.60 ms');
  expect(adviceAt(setup, 'settings.proc.ports.out_2.delay').dialIn).toBe('0 ms');
});

test('own distances: what lies beyond the loudspeaker counts as distance, for the device makes up differences', () => {
  const room = toldAs({ as: 'own_distance', speedOfSound_m_s: 344 }, 0.05 / 344);
  const withLatency = {
    ...room,
    speakers: room.speakers.map((one) => ({
      ...one,
      gear: { ...MAIN, latency_s: [{ port: '*', latency_s: 0.0024 }] },
    })),
  };
  // 2.156268 m + 2.4 ms × 344 m/s = 2.981868 m.
  const at = 'settings.sub.ports.out_left.delay';
  expect(adviceAt(worked(withLatency), at)).toMatchObject({ exact: '2.982 m', dialIn: '3.00 m' });
  const dialled = {
    ...withLatency,
    settings: [
      settings('sub', {
        'out_left:delay': metres(3),
        'out_right:delay': metres(3),
        'driver:delay': metres(3.4),
      }),
    ],
  };
  const setup = worked(dialled);
  // The device delays by (3.40 − 3.00) / 344 = 1.16279 ms.
  expectNear(arrivalOf(setup, 'mix', 'left').pathDelay_s ?? NaN, 0.4 / 344, 1e-9, 's');
  expectNear(arrivalOf(setup, 'mix', 'sub').pathDelay_s ?? NaN, 0, 1e-12, 's');
  expect(adviceAt(setup, at).agrees).toBe(true);
});

test('what is told in samples is read at their rate: 60 at 48 kHz are 1.25 ms', () => {
  const setup = worked(subRoomWith({ 'out_left:delay': samples(60, 48_000) }));
  expectNear(arrivalOf(setup, 'mix', 'left').pathDelay_s ?? NaN, 0.00125, 1e-12, 's');
});
