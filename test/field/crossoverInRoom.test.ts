// The crossover's sum in the room: what is told of a setting is what dialling it in comes to, and the search is never worse.

import { describe, expect, test } from 'vitest';
import type { Setup } from '../../core/setup.ts';
import { withField } from '../../core/withField.ts';
import type { Room } from '../../schema/model/room.ts';
import { expectNear } from '../support/expectNear.ts';
import { EMPTY_ROOM, spaceWith } from '../support/rooms.ts';
import { choice, crossover, ms, subRoom, subRoomWith } from '../support/wiredRooms.ts';
import { worked } from '../support/worked.ts';

const SPACE = {
  space: spaceWith({
    shape: { kind: 'box', width_m: 5, depth_m: 8, height_m: 2.8 },
    decayTime_s: { frequency_hz: [125], value: [0.4] },
  }),
};
/** All three delays stand at 10 ms, so that either side can wait more or less. */
const BASE = { 'driver:delay': ms(10), 'out_left:delay': ms(10), 'out_right:delay': ms(10) };

function inRoom(room: Room): Setup {
  return withField(worked(room), { today: null });
}

const before = inRoom(subRoomWith({ ...BASE, crossover: crossover(100) }, SPACE));
const [figures] = before.field?.crossovers ?? [];

test('the room is in it: less even than the anechoic sum', () => {
  expect(figures?.path).toEqual(['settings', 'sub', 'crossover']);
  expect(figures?.anechoicRipple_db).toBe(before.crossovers[0]?.current?.ripple_db);
  expect(figures?.current.ripple_db).toBeGreaterThan(figures?.anechoicRipple_db ?? Infinity);
});

// By another way: the channels' own curves of the field, in third-octave means of power.
test('what is dialled in agrees with the responses at the seat', () => {
  const { field } = before;
  const here = field?.seats.find(({ seat }) => seat === 'mix');
  const grid = field?.frequency_hz ?? [];
  const ripples = (here?.channels ?? []).map(({ level_db }) => {
    const means = grid.map((f) => {
      const inside = level_db.filter((_, i) => Math.abs(Math.log2((grid[i] ?? 1) / f)) <= 1 / 6);
      const power = inside.reduce((sum, level) => sum + 10 ** (level / 10), 0) / inside.length;
      return 10 * Math.log10(power);
    });
    const near = means.filter((_, i) => Math.abs(Math.log2((grid[i] ?? 1) / 100)) <= 1);
    return Math.max(...near) - Math.min(...near);
  });
  expect(ripples).toHaveLength(2);
  const mean_db = ripples.reduce((sum, one) => sum + one, 0) / ripples.length;
  expectNear(figures?.current.ripple_db ?? NaN, mean_db, 0.02, 'dB');
});

describe('settings told are settings dialled in', () => {
  test.each(['practice', 'suggested', 'best'] as const)('%s', (name) => {
    const told = figures?.[name];
    if (!told) throw new Error('nothing was told');
    const { filter, polarity, subDelay_s } = told;
    const moved_ms = (subDelay_s - (figures?.current.subDelay_s ?? 0)) * 1000;
    const after = inRoom(
      subRoomWith(
        {
          ...BASE,
          crossover: crossover(filter.frequency_hz, filter.slope_db_oct),
          polarity: choice(polarity),
          'driver:delay': ms(10 + moved_ms),
        },
        SPACE,
      ),
    );
    const [own] = after.field?.crossovers ?? [];
    expectNear(own?.current.ripple_db ?? NaN, told.ripple_db, 0.05, 'dB');
    expectNear(own?.current.deviation_db ?? NaN, told.deviation_db, 0.02, 'dB');
  });
});

test('the best is no less even than what is dialled in, unless practice holds much against that', () => {
  const { current, best } = figures ?? {};
  expect(best?.deviation_db).toBeLessThanOrEqual((current?.deviation_db ?? 0) + 1e-9);
});

test('nothing dialled in, no room, no envelope: nothing told', () => {
  expect(inRoom(subRoom({ ...SPACE, settings: [] })).field?.crossovers).toEqual([]);
  expect(inRoom({ ...subRoom(), space: EMPTY_ROOM.space }).field?.crossovers).toBeUndefined();
  const quick = withField(worked(subRoomWith(BASE, SPACE)), { today: null, envelope: false });
  expect(quick.field?.crossovers).toBeUndefined();
});
