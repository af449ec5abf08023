// Rules of the delays: figures by hand for mains at 2.15 m and a subwoofer at 3.40 m (2.54431 ms, see the test of arrivals).

import { describe, expect, test } from 'vitest';
import type { Control } from '../../../../schema/model/gear.ts';
import { told } from '../../../support/findingsOf.ts';
import { point } from '../../../support/rooms.ts';
import {
  DELAY,
  ms,
  range,
  SUB,
  samples,
  subRoom,
  subRoomWith,
} from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

const DIALLED = { 'out_left:delay': ms(2.55), 'out_right:delay': ms(2.55) };

test('what is dialled in as computed has no finding', () => {
  expect(told(findingsWith(worked(subRoomWith(DIALLED)), 'delay/'))).toEqual([]);
});

test('delay/differs says what is told and what is computed, and dials it in', () => {
  const setup = worked(subRoomWith({ ...DIALLED, 'out_left:delay': ms(2.6) }));
  const [finding] = findingsWith(setup, 'delay/differs');
  expect(finding?.message).toBe('2.6 ms for left, where 2.55 ms is computed');
  expect(finding?.measured).toEqual({ value: 0.0026, unit: 's' });
  expect(finding?.fixes[0]?.edits).toEqual([
    { do: 'set', path: ['settings', 'sub', 'ports', 'out_left', 'delay'], value: '2.55 ms' },
  ]);
});

test('delay/not-set: a needed delay that is not recorded', () => {
  const setup = worked(subRoom({ settings: [] }));
  expect(told(findingsWith(setup, 'delay/not-set'))).toEqual([
    'settings.sub.ports.out_left.delay: 2.55 ms is computed for left; nothing is recorded',
    'settings.sub.ports.out_right.delay: 2.55 ms is computed for right; nothing is recorded',
  ]);
});

describe('delay/off-step', () => {
  test('a value between two steps, with the step nearest', () => {
    const setup = worked(subRoomWith({ ...DIALLED, 'out_left:delay': ms(2.53) }));
    const [finding] = findingsWith(setup, 'delay/off-step');
    expect(finding?.message).toBe('sub has no 2.53 ms: its nearest is 2.55 ms');
    expect(finding?.fixes[0]).toMatchObject({ safe: true, title: 'Round to 2.55 ms' });
  });

  test('every step of 0.05 ms up to 25 ms is one', () => {
    for (let step = 0; step <= 500; step += 7) {
      const setup = worked(subRoomWith({ ...DIALLED, 'driver:delay': ms(step * 0.05) }));
      expect(findingsWith(setup, 'delay/off-step')).toEqual([]);
    }
  });
});

test('delay/rounding: 2 ms steps leave 0.54 ms, 14.7° at 75 Hz (by hand: 360 × 75 × 0.54431 ms)', () => {
  const coarse = { ...DELAY, delay_s: range(null, 0.024, 0.002) } as Control;
  const room = subRoomWith({ 'out_left:delay': ms(2), 'out_right:delay': ms(2) });
  const setup = worked({
    ...room,
    subwoofers: room.subwoofers.map((one) => ({
      ...one,
      gear: { ...SUB, controls: SUB.controls.map((one) => (one.name === 'delay' ? coarse : one)) },
    })),
  });
  expect(told(findingsWith(setup, 'delay/rounding'))[0]).toBe(
    'settings.sub.ports.out_left.delay: The nearest step leaves left 0.54 ms off, 14.7° at the crossover',
  );
});

describe('delay/pair', () => {
  // 34.3 mm at 343 m/s are 0.1 ms.
  const moved = (away_m: number) => {
    const room = subRoomWith(DIALLED);
    const seat = point(2.5, 4, 1.2);
    return worked({
      ...room,
      speakers: room.speakers.map((one) =>
        one.id === 'left' && one.at
          ? {
              ...one,
              at: point(
                seat.x_m + (one.at.x_m - seat.x_m) * (1 + away_m / 2.15),
                seat.y_m + (one.at.y_m - seat.y_m) * (1 + away_m / 2.15),
                1.2,
              ),
            }
          : one,
      ),
    });
  };

  test('more than 0.1 ms apart', () => {
    expect(told(findingsWith(moved(0.04), 'delay/pair'))).toEqual([
      'speakers.right: right arrives 0.12 ms before left',
    ]);
  });

  test('up to 0.1 ms it is quiet', () => {
    expect(findingsWith(moved(0.034), 'delay/pair')).toEqual([]);
  });
});

test('settings/told-otherwise: samples where a time is told are read, a length is refused', () => {
  const length = { kind: 'length', length_m: 0.5, told: '0.5 m' } as const;
  const setup = worked(subRoomWith({ ...DIALLED, 'out_left:delay': length }));
  expect(told(findingsWith(setup, 'settings/told-otherwise'))).toEqual([
    'settings.sub.ports.out_left.delay: 0.5 m: sub is told a time (ms)',
  ]);
  const counted = worked(subRoomWith({ ...DIALLED, 'out_left:delay': samples(120, 48_000) }));
  expect(findingsWith(counted, 'settings/told-otherwise')).toEqual([]);
});
