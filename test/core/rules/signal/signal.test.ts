// Rules of the signal: each where it fires, and next to it where it does not.

import { describe, expect, test } from 'vitest';
import { told } from '../../../support/findingsOf.ts';
import { gear, point, roomWith, speaker, subwoofer } from '../../../support/rooms.ts';
import {
  BYPASS,
  device,
  drawn,
  MAIN,
  SOURCE,
  SUB,
  subRoom,
  subRoomWith,
  wires,
} from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

const AT = point(1, 1, 1);
const WIRES = [
  'desk.main_left -> sub.in_left',
  'desk.main_right -> sub.in_right',
  'sub.out_left -> left.in',
  'sub.out_right -> right.in',
];

test('a sound room has no findings of its signal', () => {
  expect(told(findingsWith(worked(subRoom()), 'signal/'))).toEqual([]);
});

test('a room without wiring is told so once, by a note', () => {
  const setup = worked(subRoom({ wiring: [] }));
  expect(findingsWith(setup, 'signal/')).toEqual([]);
  expect(setup.notes.filter(({ path }) => path[0] === 'wiring')).toHaveLength(1);
});

test('signal/driver-unreached', () => {
  const setup = worked(subRoom({ wiring: wires(...WIRES.slice(0, 3)) }));
  expect(told(findingsWith(setup, 'signal/driver-unreached'))).toEqual([
    'speakers.right: right gets no signal: no wiring leads from a source to it',
  ]);
});

test('signal/sub-gets-nothing', () => {
  const second = subwoofer('second', AT, { gear: SUB });
  const setup = worked(subRoom({ subwoofers: [...subRoom().subwoofers, second] }));
  expect(told(findingsWith(setup, 'signal/sub-gets-nothing'))).toEqual([
    'subwoofers.second: second gets neither the bass of a channel nor the LFE',
  ]);
});

describe('signal/port-used-twice', () => {
  test('two outputs into one input', () => {
    const setup = worked(subRoom({ wiring: wires(...WIRES, 'desk.lfe -> sub.in_left') }));
    const [finding, ...others] = findingsWith(setup, 'signal/port-used-twice');
    expect(others).toEqual([]);
    expect(told(finding ? [finding] : [])).toEqual([
      'wiring.4: desk.lfe goes into sub.in_left, where desk.main_left is already',
    ]);
    expect(finding?.related.map(({ path }) => path.join('.'))).toEqual(['wiring.0']);
    expect(finding?.fixes[0]?.edits).toEqual([{ do: 'remove', path: ['wiring', '4'] }]);
  });

  test('channels of a network port are not', () => {
    const room = roomWith({
      devices: [device('desk', gear('net_desk', 'interface', { outputs: ['net'] }))],
      subwoofers: [subwoofer('sub', AT, { gear: { ...SUB, paths: [drawn('net -> driver')] } })],
      wiring: wires('desk.net.1 -> sub.net', 'desk.net.2 -> sub.net'),
    });
    expect(findingsWith(worked(room), 'signal/port-used-twice')).toEqual([]);
  });
});

test('signal/loop names the way round', () => {
  const box = gear('box', 'processor', {
    inputs: ['in'],
    outputs: ['out'],
    paths: [drawn('in -> out')],
  });
  const room = roomWith({
    devices: [device('a', box), device('b', box)],
    wiring: wires('a.out -> b.in', 'b.out -> a.in'),
  });
  expect(told(findingsWith(worked(room), 'signal/loop'))).toEqual([
    'wiring.1: This closes a loop: a → b → a',
  ]);
});

describe('signal/no-high-pass', () => {
  test('a main beside the subwoofer’s filter', () => {
    const direct = ['desk.main_left -> left.in', 'desk.main_left -> sub.in_left'];
    const setup = worked(
      subRoom({ wiring: wires(...direct, ...WIRES.slice(1, 2), 'sub.out_right -> right.in') }),
    );
    expect(told(findingsWith(setup, 'signal/no-high-pass'))).toEqual([
      'speakers.left: sub takes the bass of left, and no high-pass is on its way',
    ]);
  });

  test('a crossover at bypass', () => {
    const setup = worked(subRoomWith({ crossover: BYPASS }));
    expect(told(findingsWith(setup, 'signal/no-high-pass'))[0]).toBe(
      'settings.sub.crossover: sub takes the bass of left, whose high-pass stands at bypass',
    );
  });

  test('nothing where nobody recorded the filter', () => {
    expect(findingsWith(worked(subRoom({ settings: [] })), 'signal/no-high-pass')).toEqual([]);
  });
});

test('signal/no-delay-stage: mains 1.25 m nearer than the subwoofer, and no delay on their way', () => {
  const direct = {
    ...SUB,
    paths: SUB.paths.map(({ stages, ...path }) => ({
      ...path,
      stages: stages.filter((stage) => stage !== 'delay'),
    })),
  };
  const room = subRoom();
  const setup = worked({
    ...room,
    subwoofers: room.subwoofers.map((one) => ({ ...one, gear: direct })),
  });
  // 2.54431 ms by hand, as in the test of arrivals.
  expect(told(findingsWith(setup, 'signal/no-delay-stage'))).toEqual([
    'speakers.left: left arrives 2.54 ms before the latest, and nothing on its way can delay it',
    'speakers.right: right arrives 2.54 ms before the latest, and nothing on its way can delay it',
  ]);
});

test('signal/sum-no-gain-stated', () => {
  const silent = { ...SUB, buses: [] };
  const room = subRoom();
  const setup = worked({
    ...room,
    subwoofers: room.subwoofers.map((one) => ({ ...one, gear: silent })),
  });
  expect(told(findingsWith(setup, 'signal/sum-no-gain-stated'))).toEqual([
    'subwoofers.sub.gear: sub adds 3 inputs in bass, and its gear file does not say at what gain',
  ]);
  expect(findingsWith(worked(subRoom()), 'signal/sum-no-gain-stated')).toEqual([]);
});

test('a broken file, parts of it without gear, yields what is sound', () => {
  const room = subRoom({
    devices: [device('desk', SOURCE), device('ghost', null)],
    speakers: [speaker('left', 'L', AT, { gear: MAIN }), speaker('right', 'R', null)],
  });
  const setup = worked(room);
  expect(setup.signalPaths.map(({ target }) => target)).toEqual(['left', 'sub', 'right', 'sub']);
});

describe('signal/bass-twice', () => {
  // A controller that takes the bass away, and sends the whole channel to the subwoofer as well: two ways to one driver.
  const controller = gear('latch', 'controller', {
    inputs: ['in_left'],
    outputs: ['main', 'sub'],
    paths: [drawn('in_left -> main'), drawn('in_left -> low_pass -> sub')],
    latency_s: [{ port: '*', latency_s: 0 }],
  });
  const roomWired = (...lines: readonly string[]) =>
    subRoom({
      devices: [...subRoom().devices, device('latch', controller)],
      wiring: wires('desk.main_left -> latch.in_left', ...lines),
    });

  test('the bass of one channel by two ways', () => {
    const setup = worked(
      roomWired(
        'latch.main -> sub.in_left',
        'latch.sub -> sub.in_right',
        'sub.out_left -> left.in',
      ),
    );
    expect(told(findingsWith(setup, 'signal/bass-twice'))).toEqual([
      'wiring.2: The bass of L comes to sub by 2 ways, and is added twice',
    ]);
  });

  test('one way each for two channels', () => {
    expect(findingsWith(worked(subRoom()), 'signal/bass-twice')).toEqual([]);
    expect(
      findingsWith(
        worked(roomWired('latch.main -> sub.in_left', 'sub.out_left -> left.in')),
        'signal/bass-twice',
      ),
    ).toEqual([]);
  });

  test('no wiring, nothing', () => {
    expect(findingsWith(worked(subRoom({ wiring: [] })), 'signal/bass-twice')).toEqual([]);
  });
});
