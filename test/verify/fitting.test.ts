// Equalisers fitted to takes of a synthesised room whose truth is known.
//
// Source of the truth: test/synthesis, image sources that share no line with the project's field.

import { expect, test } from 'vitest';
import { measuredResponses } from '../../core/equaliser/measuredResponses.ts';
import { fitRoom } from '../../core/equaliser/roomFit.ts';
import type { MeasuredTake } from '../../core/measured/measuredFigures.ts';
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
