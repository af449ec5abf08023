// The room and its equalisers fitted to takes of a synthesised room whose truth is known.
//
// Source of the truth: test/synthesis, image sources that share no line with the project's field.

import { expect, test } from 'vitest';
import { measuredResponses } from '../../core/equaliser/measuredResponses.ts';
import { fitRoom } from '../../core/equaliser/roomFit.ts';
import type { MeasuredTake } from '../../core/measured/measuredFigures.ts';
import { roomFromTakes } from '../../core/measured/roomFromTakes.ts';
import type { Setup } from '../../core/setup.ts';
import { withField } from '../../core/withField.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { HERON } from '../synthesis/heronTruth.ts';
import type { RoomTruth } from '../synthesis/roomTruth.ts';
import { measuredTake, type PlannedTake, sessionOf } from '../synthesis/takes.ts';

const TAKES: readonly PlannedTake[] = [
  { id: 'left_mix', drive: 'L', sounding: ['left'], seat: 'mix' },
  { id: 'sub_mix', drive: 'L', sounding: ['sub'], seat: 'mix' },
  { id: 'left_beside', drive: 'L', sounding: ['left'], seat: 'mix', off_m: [0.25, 0, 0] },
  { id: 'sub_producer', drive: 'L', sounding: ['sub'], seat: 'producer' },
];

const heron = demoRooms().find(({ name }) => name === 'heron')?.setup;
const planned = ((): Setup => {
  if (heron === undefined) throw new Error('no such room');
  const sessions = [sessionOf(HERON, TAKES, HERON.temperature_k)];
  const { record, ...setup } = heron;
  return withField(
    { ...setup, room: { ...heron.room, sessions } },
    { today: null, envelope: false },
  );
})();

function measuredIn(truth: RoomTruth, gain_db: number): Setup {
  const takes: readonly MeasuredTake[] = TAKES.map((take, i) =>
    measuredTake(truth, take, 71 + i, gain_db, 0.003),
  );
  const session = { session: 'seeded', path: ['sessions', 'seeded'], date: null, averages: [] };
  return { ...planned, measured: { sessions: [{ ...session, takes }], notes: [] } };
}

test('a room that is 25 cm deeper than its file, which leaves 30 cm open, is found deeper', () => {
  const [x, y, z] = HERON.size_m;
  const deeper = measuredIn({ ...HERON, size_m: [x, y + 0.25, z] }, -9);
  const plusMinus = { ...deeper.room.plusMinus, 'space.size.depth': 0.3 };
  const found = roomFromTakes({ ...deeper, room: { ...deeper.room, plusMinus } }, null);
  if (typeof found === 'string') throw new Error(found);
  expect(found.after_db).toBeLessThan(found.before_db);
  expect(Math.abs(found.size_m[1] - 0.25)).toBeLessThan(0.08);
  // Nothing is stated for the others: 10 mm.
  expect(Math.abs(found.size_m[0])).toBeLessThanOrEqual(0.01 + 1e-12);
  expect(Math.abs(found.size_m[2])).toBeLessThanOrEqual(0.01 + 1e-12);
  const edit = found.fix?.edits.find(({ path }) => path.at(-1) === 'depth');
  expect(edit).toMatchObject({ do: 'set', path: ['space', 'size', 'depth'] });
  expect(edit?.do === 'set' ? edit.value : '').toMatch(/^6\.\d+ m ± 300 mm$/);
});

test('a room that rings less is found to absorb more, and its decay times are suggested shorter', () => {
  // What a wall throws back goes through a second one like it.
  const absorption = HERON.absorption.map((wall) => wall.map((share) => 1 - (1 - share) ** 2));
  const dry = roomFromTakes(measuredIn({ ...HERON, absorption }, -9), null);
  if (typeof dry === 'string') throw new Error(dry);
  expect(dry.absorption_ratio).toBeGreaterThan(1.3);
  expect(dry.after_db).toBeLessThan(dry.before_db);
  const edit = dry.fix?.edits.find(({ path }) => path.join('.') === 'space.decay_time');
  const bass_s = Number(/63 Hz: ([\d.]+) s/.exec(edit?.do === 'set' ? edit.value : '')?.[1]);
  // As the file has it: 0.35 s.
  expect(bass_s).toBeLessThan(0.35 / 1.3);
});

test('without takes, field or box there is a reason', () => {
  expect(roomFromTakes({ ...planned, measured: null }, null)).toBe('no takes');
  expect(roomFromTakes({ ...planned, field: null }, null)).toBe('no field');
});

test('equalisers are fitted to takes: levels laid on the plan, points joined, every measured seat checked', () => {
  const setup = measuredIn(HERON, -23);
  const found = measuredResponses(setup, {});
  expect(found?.session).toBe('seeded');
  expect(found?.takes).toEqual(TAKES.map(({ id }) => id));
  const places = found?.given.map(({ source, seat }) => `${source} ${seat}`);
  expect(places).toEqual(['left mix', 'sub mix', 'sub producer']);
  // The microphone's gain of -23 dB is gone: what is left is within a few dB of the plan.
  const curve = setup.field?.seats[0]?.sources.find(({ source }) => source === 'sub');
  const at = setup.field?.frequency_hz.findIndex((f_hz) => 50 <= f_hz) ?? 0;
  const given = found?.given.find(({ source, seat }) => source === 'sub' && seat === 'mix');
  expect(Math.abs((given?.level_db[at] ?? 99) - (curve?.level_db[at] ?? -99))).toBeLessThan(5);
  const fits = fitRoom(setup, {
    given: found?.given ?? [],
    seats: ['mix', 'producer'],
    devices: ['sub'],
  });
  const [fit] = fits;
  expect(fit?.heard.map(({ seat, from }) => `${seat} ${from}`)).toEqual([
    'mix measurement',
    'producer measurement',
  ]);
  expect(fit?.fit.after_db).toBeLessThan(fit?.fit.before_db ?? 0);
  expect(fit?.fit.seats).toHaveLength(2);
});

test('only the takes that are asked for; none that fits is null', () => {
  const setup = measuredIn(HERON, 0);
  expect(measuredResponses(setup, { takes: ['sub_producer'] })?.given).toHaveLength(1);
  expect(measuredResponses(setup, { takes: ['none'] })).toBeNull();
  expect(measuredResponses(setup, { session: 'other' })).toBeNull();
});
