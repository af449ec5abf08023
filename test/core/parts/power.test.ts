// Power-up order from the wiring (sources, processors, subwoofers, amplifiers, mains: common practice, no source), and circuits by hand.

import { describe, expect, test } from 'vitest';
import { powerPart } from '../../../core/parts/power.ts';
import type { Room } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import { gear, point, roomWith, speaker, subwoofer } from '../../support/rooms.ts';
import { device, MAIN, SOURCE, SUB, subRoom, wires } from '../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../support/worked.ts';

const AT = point(1, 1, 1);

function order(room: Room): string {
  return powerPart(room)
    .up.map(({ ids }) => ids.join(' '))
    .join(' | ');
}

describe('order', () => {
  test('source, subwoofer, mains; down in reverse', () => {
    const { up, down } = powerPart(subRoom());
    expect(up.map(({ ids }) => ids)).toEqual([['desk'], ['sub'], ['left', 'right']]);
    expect(down.map(({ ids }) => ids)).toEqual([['left', 'right'], ['sub'], ['desk']]);
    expect(up.every(({ reason }) => 0 < reason.length)).toBe(true);
  });

  test('follows the wiring, not the list: an amplifier’s passive loudspeakers have no switch', () => {
    const room = roomWith({
      speakers: [speaker('far', 'L', AT, { gear: { ...MAIN, power: null } })],
      subwoofers: [subwoofer('sub', AT, { gear: SUB })],
      devices: [
        device('amp', gear('amp', 'amplifier')),
        device('controller', gear('latch', 'controller')),
        device('desk', SOURCE),
      ],
      wiring: wires(
        'desk.main_left -> controller.in',
        'controller.sub -> sub.in_left',
        'controller.far -> amp.in_1',
        'amp.out_1 -> far.in',
      ),
    });
    expect(order(room)).toBe('desk | controller | sub | amp');
  });

  test('a main that feeds another is on before it, whatever its kind', () => {
    const room = roomWith({
      speakers: [speaker('left', 'L', AT, { gear: MAIN })],
      subwoofers: [subwoofer('sub', AT, { gear: SUB })],
      devices: [device('desk', SOURCE)],
      wiring: wires('desk.main_left -> left.in', 'left.link -> sub.in_left'),
    });
    expect(order(room)).toBe('desk | left | sub');
  });

  test('a loop does not hang it and everything is listed once', () => {
    const box = gear('box', 'processor');
    const room = roomWith({
      devices: [device('a', box), device('b', box)],
      speakers: [speaker('left', 'L', AT, { gear: MAIN })],
      wiring: wires('a.out -> b.in', 'b.out -> a.in', 'b.out -> left.in'),
    });
    expect(order(room)).toBe('a | b | left');
  });
});

describe('circuits', () => {
  // (30 + 350 + 2 × 80) W / 230 V = 2.34783 A; inrush 30 + 2 × 20 A = 70 A; idle 20 + 24 + 2 × 15 = 74 W. By hand.
  const circuits = [
    { id: 'tech', rating_a: 16, voltage_v: 230, feeds: ['desk', 'sub', 'left', 'right'] },
  ];

  test('load, inrush and share', () => {
    const [tech] = powerPart(subRoom({ circuits })).circuits;
    expectNear(tech?.load_a ?? NaN, 540 / 230, 1e-12, 'A');
    expectNear(tech?.share ?? NaN, 540 / 230 / 16, 1e-12, '');
    expectNear(tech?.inrush_a ?? NaN, 70, 1e-12, 'A');
    expectNear(tech?.idle_w ?? NaN, 74, 1e-12, 'W');
    expect(tech?.unknown).toEqual([]);
  });

  test('a share needs rating and voltage', () => {
    const open = circuits.map((one) => ({ ...one, voltage_v: null }));
    expect(powerPart(subRoom({ circuits: open })).circuits[0]?.share).toBeNull();
  });

  test.each([
    { rating_a: 3, severities: [] }, // 78 %
    { rating_a: 2.8, severities: ['warning'] }, // 84 %
    { rating_a: 2.3, severities: ['error'] }, // 102 %
  ])('$rating_a A: $severities', ({ rating_a, severities }) => {
    const setup = worked(subRoom({ circuits: circuits.map((one) => ({ ...one, rating_a })) }));
    expect(findingsWith(setup, 'power/circuit-load').map(({ severity }) => severity)).toEqual(
      severities,
    );
  });

  test('inrush beyond three times the rating (IEC 60898-1 type B, from memory) is told', () => {
    const with_a = (rating_a: number) =>
      findingsWith(
        worked(subRoom({ circuits: circuits.map((one) => ({ ...one, rating_a })) })),
        'power/inrush',
      ).length;
    expect([with_a(23), with_a(24)]).toEqual([1, 0]);
  });

  test('what hangs on no circuit, or on two, is told', () => {
    const some = [
      { id: 'a', rating_a: 16, voltage_v: 230, feeds: ['desk', 'sub', 'left'] },
      { id: 'b', rating_a: 16, voltage_v: 230, feeds: ['sub'] },
    ];
    const setup = worked(subRoom({ circuits: some }));
    expect(findingsWith(setup, 'power/circuit-of').map(({ message }) => message)).toEqual([
      'sub hangs on a and b',
      'right hangs on no recorded circuit',
    ]);
  });
});
