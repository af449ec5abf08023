// The wiring graph: which ways lead from a source to each driver, what lies on them, and what damaged wiring does.

import { describe, expect, test } from 'vitest';
import { findLoops } from '../../../core/signal/loops.ts';
import { trace } from '../../../core/signal/traced.ts';
import { expectNear } from '../../support/expectNear.ts';
import { gear, point, roomWith, speaker, subwoofer } from '../../support/rooms.ts';
import {
  choice,
  crossover,
  decibels,
  device,
  drawn,
  MAIN,
  ms,
  POLARITY,
  SOURCE,
  SUB,
  settings,
  subRoom,
  subRoomWith,
  wires,
} from '../../support/wiredRooms.ts';

const AT = point(1, 1, 1);

/** `desk.main_left L > sub` for each path. */
function told(room: Parameters<typeof trace>[0]): readonly string[] {
  return trace(room).paths.map(
    ({ source, channel, target, set }) =>
      `${source.device}.${source.port} ${channel ?? '?'} > ${target}${set ? ` (${set})` : ''}`,
  );
}

describe('a stereo room whose subwoofer filters', () => {
  test('each source output reaches its main and the subwoofer, with the main’s channel', () => {
    expect(told(subRoom())).toEqual([
      'desk.main_left L > left',
      'desk.main_left L > sub',
      'desk.main_right R > right',
      'desk.main_right R > sub',
    ]);
  });

  test('latency is counted at each exit: 0 + 0.8 + 1.1 ms and 0 + 0.8 ms, by hand', () => {
    const [left, sub] = trace(subRoom()).paths;
    expectNear(left?.latency_s ?? NaN, 0.0019, 1e-12, 's');
    expectNear(sub?.latency_s ?? NaN, 0.0008, 1e-12, 's');
  });

  test('delay, gain and polarity are those dialled in on the way: 1.25 ms, -6 dB bus and -3.25 dB', () => {
    const room = subRoomWith({
      'driver:delay': ms(1.25),
      level: decibels(-3.25),
      polarity: choice('inverted'),
    });
    const sub = trace(room).paths.find(({ target }) => target === 'sub');
    expectNear(sub?.delay_s ?? NaN, 0.00125, 1e-12, 's');
    expectNear(sub?.gain_db ?? NaN, -9.25, 1e-12, 'dB');
    expect(sub?.inverted).toBe(true);
    expect(trace(room).paths.find(({ target }) => target === 'left')?.inverted).toBe(false);
  });

  test('each stage knows where its setting stands, or would stand', () => {
    const room = subRoom({ settings: [] });
    const stages = trace(room).paths.find(({ target }) => target === 'left')?.stages ?? [];
    expect(stages.map(({ stage, settingPath }) => [stage, settingPath?.join('.')])).toEqual([
      ['input_sensitivity', 'settings.sub.input_sensitivity'],
      ['high_pass', 'settings.sub.crossover'],
      ['delay', 'settings.sub.ports.out_left.delay'],
      ['level', 'settings.left.level'],
    ]);
  });
});

test('LFE is known by the stages that it passes', () => {
  const room = subRoom({ wiring: wires('desk.lfe -> sub.in_lfe') });
  expect(told(room)).toEqual(['desk.lfe LFE > sub']);
});

test('a network port carries a channel for each connection; devices.channels names them', () => {
  const desk = device('desk', gear('net_desk', 'interface', { outputs: ['net'] }), [
    { port: 'net.12', channel: 'Ls' },
    { port: 'net.3', channel: 'C' },
  ]);
  const room = roomWith({
    devices: [desk],
    speakers: [
      speaker('surround', null, AT, { gear: { ...MAIN, paths: [drawn('net -> driver')] } }),
      speaker('centre', null, AT, { gear: { ...MAIN, paths: [drawn('net.3 -> driver')] } }),
    ],
    wiring: wires('desk.net.12 -> surround.net', 'desk.net.3 -> centre.net.3'),
  });
  expect(told(room)).toEqual(['desk.net.12 Ls > surround', 'desk.net.3 C > centre']);
});

describe('what is damaged or missing', () => {
  test('a room without wiring has no paths and says so', () => {
    const { paths, notes } = trace(subRoom({ wiring: [] }));
    expect(paths).toEqual([]);
    expect(notes.map(({ message }) => message)).toEqual([
      'no wiring is recorded: signal paths, latencies and delays cannot be worked out',
    ]);
  });

  test('ends that lead nowhere are left out, the rest is traced', () => {
    const room = subRoom({
      wiring: wires(
        'desk.main_left -> nothing.in',
        'ghost.out -> left.in',
        'desk.main_right -> sub.in_wrong',
        'desk.main_right -> right.in',
      ),
    });
    expect(told(room)).toEqual(['desk.main_right R > right']);
  });

  test('a loudspeaker without a gear model is still reached, at an unknown latency', () => {
    const room = roomWith({
      devices: [device('desk', SOURCE)],
      speakers: [speaker('left', 'L', AT)],
      wiring: wires('desk.main_left -> left.in'),
    });
    const [path] = trace(room).paths;
    expect(path?.target).toBe('left');
    expect(path?.latency_s).toBeNull();
    expect(path?.latencyGaps).toEqual(['left']);
  });

  test('a passive loudspeaker behind an amplifier has no latency of its own', () => {
    const amplifier = gear('amp', 'amplifier', {
      inputs: ['in_1'],
      outputs: ['out_1'],
      paths: [drawn('in_1 -> out_1')],
      latency_s: [{ port: '*', latency_s: 0.0002 }],
    });
    const room = roomWith({
      devices: [device('desk', SOURCE), device('amp', amplifier)],
      speakers: [speaker('left', 'L', AT, { gear: { ...MAIN, latency_s: [], power: null } })],
      wiring: wires('desk.main_left -> amp.in_1', 'amp.out_1 -> left.in'),
    });
    expectNear(trace(room).paths[0]?.latency_s ?? NaN, 0.0002, 1e-12, 's');
  });

  test('a loop ends, and is found whether or not a source feeds it', () => {
    const through = gear('box', 'processor', {
      inputs: ['in_1', 'in_2'],
      outputs: ['out'],
      paths: [drawn('in_1 -> out'), drawn('in_2 -> out')],
    });
    const room = roomWith({
      devices: [device('desk', SOURCE), device('a', through), device('b', through)],
      speakers: [speaker('left', 'L', AT, { gear: MAIN })],
      wiring: wires(
        'desk.main_left -> a.in_1',
        'a.out -> b.in_1',
        'b.out -> a.in_2',
        'b.out -> left.in',
      ),
    });
    expect(new Set(told(room))).toEqual(new Set(['desk.main_left L > left']));
    expect(findLoops(room)).toEqual([[1, 2]]);
    const unfed = { ...room, wiring: wires('a.out -> b.in_1', 'b.out -> a.in_2') };
    expect(told(unfed)).toEqual([]);
    expect(findLoops(unfed)).toEqual([[0, 1]]);
  });

  test('a hostile web of devices comes to an end', () => {
    const ports = ['p1', 'p2', 'p3', 'p4', 'p5', 'p6'];
    const web = gear('web', 'processor', {
      inputs: ports,
      outputs: ports,
      paths: ports.flatMap((from) => ports.map((to) => drawn(`${from} -> ${to}`))),
    });
    const ids = Array.from({ length: 12 }, (_, index) => `d${index}`);
    const lines = ids.flatMap((id, index) =>
      ports.map((port) => `${id}.${port} -> ${ids[index + 1] ?? 'left'}.${port}`),
    );
    const room = roomWith({
      devices: ids.map((id) => device(id, web)),
      speakers: [speaker('left', 'L', AT)],
      wiring: wires(...lines),
    });
    const { paths, notes } = trace(room);
    expect(paths.length).toBeLessThanOrEqual(1000);
    expect(notes.at(-1)?.message).toMatch(/more signal paths/);
  });
});

test('a subwoofer shared by two sets has a path for each, with the settings of that set', () => {
  const controller = gear('latch', 'controller', {
    inputs: ['in'],
    outputs: ['far', 'near', 'sub'],
    buses: [{ name: 'bass', sum_db: 0 }],
    latency_s: [{ port: '*', latency_s: 0 }],
    paths: [
      drawn('in -> high_pass -> far'),
      drawn('in -> high_pass -> near'),
      drawn('in -> low_pass -> bass'),
      drawn('bass -> polarity -> sub'),
    ],
    controls: [
      { ...POLARITY },
      {
        name: 'crossover',
        stages: ['high_pass', 'low_pass'],
        eachPort: false,
        kind: 'filter',
        family: 'linkwitz_riley',
        frequency_hz: { min: 40, max: 120, step: 10, choices: null },
        slope_db_oct: { min: null, max: null, step: null, choices: [24] },
        bypass: true,
      },
    ],
  });
  const room = roomWith({
    devices: [device('desk', SOURCE), device('controller', controller)],
    speakers: [speaker('far', 'L', AT, { gear: MAIN }), speaker('near', 'L', AT, { gear: MAIN })],
    subwoofers: [subwoofer('sub', AT, { gear: SUB })],
    sets: [
      { id: 'distant', speakers: ['far'], subwoofers: ['sub'], layout: null },
      { id: 'close', speakers: ['near'], subwoofers: ['sub'], layout: null },
    ],
    wiring: wires(
      'desk.main_left -> controller.in',
      'controller.far -> far.in',
      'controller.near -> near.in',
      'controller.sub -> sub.in_left',
    ),
    settings: [
      settings('controller', {
        crossover: crossover(80),
        polarity: choice('normal'),
        'distant/crossover': crossover(60),
        'distant/polarity': choice('inverted'),
      }),
    ],
  });
  expect(told(room)).toEqual([
    'desk.main_left L > far (distant)',
    'desk.main_left L > near (close)',
    'desk.main_left L > sub (distant)',
    'desk.main_left L > sub (close)',
  ]);
  const subs = trace(room).paths.filter(({ target }) => target === 'sub');
  expect(subs.map(({ inverted }) => inverted)).toEqual([true, false]);
  expect(
    subs.map(({ stages }) =>
      stages.find(({ kind }) => kind === 'low_pass')?.settingPath?.join('.'),
    ),
  ).toEqual(['settings.controller.sets.distant.crossover', 'settings.controller.crossover']);
});
