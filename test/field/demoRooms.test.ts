// The field of the demo facility, end to end from its files: whole, plain, the same twice, and as physics wants it.
import { describe, expect, test } from 'vitest';
import type { Setup } from '../../core/setup.ts';
import { createWithField, pressureOverPlan, transfers, withField } from '../../core/withField.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { expectSame } from '../support/expectSame.ts';

const TODAY = { today: '2026-11-25' };
const rooms = demoRooms();

function setupOf(name: string): Setup {
  const room = rooms.find((one) => one.name === name);
  if (room === undefined) throw new RangeError(`no demo room ${name}`);
  return room.setup;
}

describe.each(rooms.filter(({ setup }) => setup.space?.volume_m3).map(({ name }) => name))(
  '%s',
  (name) => {
    const work = createWithField();
    const setup = setupOf(name);
    const whole = work(setup, TODAY);
    const { field } = whole;

    test('every seat has a curve of every source and channel, whole and within its envelope', () => {
      expect(field).toBeTruthy();
      expectSame(JSON.parse(JSON.stringify(field)), field); // no NaN, no infinity, nothing lost
      expect(field?.seats.length).toBe(setup.room.seats.length);
      for (const { sources, channels } of field?.seats ?? [])
        for (const { level_db, lower_db, upper_db } of [...sources, ...channels]) {
          expect(level_db.length).toBe(field?.frequency_hz.length);
          level_db.forEach((level, i) => {
            expect(Number.isFinite(level)).toBe(true);
            expect(lower_db?.[i]).toBeLessThanOrEqual(level);
            expect(upper_db?.[i]).toBeGreaterThanOrEqual(level);
          });
        }
    });

    test('the same room gives the same figures', () => {
      expectSame(createWithField()(setup, TODAY).field, field);
    });

    test('a channel is the sum of what it drives, no louder than all of it in phase', () => {
      for (const { sources, channels } of field?.seats ?? [])
        for (const channel of channels) {
          const own = sources.filter(
            (one) => one.channel === channel.channel && one.set === channel.set,
          );
          if (own.length !== channel.sources.length) continue; // told for another channel
          channel.level_db.forEach((level, i) => {
            const most = own.reduce((sum, one) => sum + 10 ** ((one.level_db[i] ?? 0) / 20), 0);
            expect(level).toBeLessThanOrEqual(20 * Math.log10(most) + 0.02);
          });
        }
    });
  },
);

test('stereo loudspeakers that mirror each other sound alike at a seat on the midline', () => {
  const { field } = withField(setupOf('heron'), TODAY);
  const mix = field?.seats.find(({ seat }) => seat === 'mix');
  const [left, right] = ['left', 'right'].map((id) =>
    mix?.sources.find(({ source }) => source === id),
  );
  left?.level_db.forEach((level, i) => {
    expect(level).toBeCloseTo(right?.level_db[i] ?? 0, 1);
  });
});

test('turned polarity in the file is turned polarity in the figures', () => {
  const setup = setupOf('heron');
  const turned = {
    ...setup,
    room: {
      ...setup.room,
      settings: setup.room.settings.map((of) => ({
        ...of,
        values: of.values.map((value) =>
          value.kind === 'choice' && value.control === 'polarity'
            ? { ...value, choice: value.choice === 'inverted' ? 'normal' : 'inverted' }
            : value,
        ),
      })),
    },
  };
  const [one] = withField(setup, { ...TODAY, envelope: false }).field?.polarity ?? [];
  const [other] = withField(turned, { ...TODAY, envelope: false }).field?.polarity ?? [];
  expect(other?.asSet_db).toBeCloseTo(one?.turned_db ?? 0, 9);
  expect(other?.turned_db).toBeCloseTo(one?.asSet_db ?? 0, 9);
  const [there, turnedThere] = [one?.elsewhere?.[0], other?.elsewhere?.[0]];
  expect(there?.seat).toBe('producer');
  expect(turnedThere?.asSet_db).toBeCloseTo(there?.turned_db ?? 0, 9);
  // Another seat, another answer: the same figures would be those of the reference seat told twice.
  expect(there?.asSet_db).not.toBeCloseTo(one?.asSet_db ?? 0, 1);
});

test('the pressure map agrees with the curve at the seat, out of dips', () => {
  const setup = setupOf('heron');
  const { field } = withField(setup, { ...TODAY, envelope: false });
  const seat = setup.room.seats[0];
  const sub = field?.seats[0]?.sources.find(({ source }) => source === 'sub');
  const index = (field?.frequency_hz ?? []).findIndex((f_hz) => 30 < f_hz);
  const map = pressureOverPlan(setup, {
    of: { source: 'sub' },
    frequency_hz: field?.frequency_hz[index] ?? 0,
    height_m: seat?.at?.z_m ?? 0,
    columns: 60,
    rows: 80,
  });
  const nearest = (places: readonly number[], at: number) =>
    places.reduce(
      (best, x, i) => (Math.abs(x - at) < Math.abs((places[best] ?? 0) - at) ? i : best),
      0,
    );
  const column = nearest(map?.x_m ?? [], seat?.at?.x_m ?? 0);
  const row = nearest(map?.y_m ?? [], seat?.at?.y_m ?? 0);
  const level = map?.level_db[row * 60 + column];
  expect(Math.abs((level ?? 0) - (sub?.level_db[index] ?? 99))).toBeLessThan(0.5); // 4 cm off
});

test('transfers: every seat and source, on the grid that was asked for', () => {
  const setup = setupOf('heron');
  const all = transfers(setup, [20, 40, 60]);
  expect(all.map(({ seat, source }) => `${seat} ${source}`)).toEqual([
    'mix left',
    'mix right',
    'mix sub',
    'producer left',
    'producer right',
    'producer sub',
  ]);
  for (const { frequency_hz, real_pa_s_m3, imag_pa_s_m3 } of all) {
    expect(frequency_hz).toEqual([20, 40, 60]);
    expect(real_pa_s_m3.length).toBe(3);
    expect(imag_pa_s_m3.every(Number.isFinite)).toBe(true);
  }
});

test('rooms of which too little is known have no field, and say nothing wrong', () => {
  const setup = setupOf('heron');
  const bare = {
    ...setup,
    room: { ...setup.room, space: { ...setup.room.space, shape: null } },
    space: null,
  };
  const { field, findings } = withField(bare, TODAY);
  expect(field).toBeNull();
  expect(findings.filter(({ code }) => code.startsWith('field/'))).toEqual([]);
  expect(transfers(bare, [20])).toEqual([]);
});
