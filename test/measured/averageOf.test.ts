// Averages over takes: of power, of decibels, of pressures with their phases, by hand.

import { expect, test } from 'vitest';
import { averageOf } from '../../core/measured/averageOf.ts';
import type { MeasuredResponse, MeasuredTake } from '../../core/measured/measuredFigures.ts';
import { NOTHING_READ } from '../../core/measured/takeReading.ts';
import { expectNear } from '../support/expectNear.ts';

function take(id: string, response: MeasuredResponse | null, more: Partial<MeasuredTake> = {}) {
  const place = { drive: null, sounding: [], seat: 'mix', at: null };
  return { ...NOTHING_READ, take: id, path: [], ...place, response, ...more };
}

function flat(level_db: number, phase_rad: number, frequency_hz = [20, 40, 80]): MeasuredResponse {
  return {
    frequency_hz,
    level_db: frequency_hz.map(() => level_db),
    phase_rad: frequency_hz.map(() => phase_rad),
    phaseFrom: 'playing',
    smoothing: 6,
  };
}

const average = (by: 'power' | 'level' | 'vector', ...takes: readonly MeasuredTake[]) =>
  averageOf({ id: 'a', path: [], takes: takes.map((one) => one.take), by }, takes);

/** 0 dB and 6.02 dB are amplitudes 1 and 2: powers 1 and 4, mean 2.5; decibels 3.01; opposite phases (2 − 1)/2. */
const DOUBLE_DB = 20 * Math.log10(2);
const TABLE = [
  { by: 'power', phase_rad: 0, want_db: 10 * Math.log10(2.5), why: '(1 + 4)/2' },
  { by: 'level', phase_rad: 0, want_db: DOUBLE_DB / 2, why: '(0 + 6.02)/2 dB' },
  { by: 'vector', phase_rad: 0, want_db: 20 * Math.log10(1.5), why: '(1 + 2)/2' },
  { by: 'vector', phase_rad: Math.PI, want_db: 20 * Math.log10(0.5), why: '(2 − 1)/2' },
  { by: 'vector', phase_rad: Math.PI / 2, want_db: 10 * Math.log10(1.25), why: '√(1 + 4)/2' },
] as const;

test.each(TABLE)('$by at $phase_rad rad: $why', ({ by, phase_rad, want_db }) => {
  const { response, refusals } = average(
    by,
    take('one', flat(0, 0)),
    take('two', flat(DOUBLE_DB, phase_rad)),
  );
  expect(refusals).toEqual([]);
  const levels = (response?.level_db ?? []).map((level) => level ?? Number.NaN);
  expectNear(levels, [want_db, want_db, want_db], 1e-9, 'dB');
});

test('takes on other grids are averaged over what they share', () => {
  const wide = { ...flat(0, 0, [10, 100, 1000]), phaseFrom: 'arrival' as const };
  const { response } = average('level', take('one', flat(0, 0)), take('two', wide));
  expect(response?.frequency_hz[0]).toBeCloseTo(20, 9);
  expect(response?.frequency_hz.at(-1)).toBeCloseTo(80, 9);
});

test('what one take does not support, the average does not', () => {
  const holed = { ...flat(0, 0), level_db: [0, null, 0] };
  const { response } = average('power', take('one', flat(0, 0)), take('two', holed));
  expect(response?.level_db).toEqual([0, null, 0]);
});

const LEVEL = { level_db: 0, from_hz: 20, to_hz: 80 };
test.each([
  {
    why: 'no response',
    takes: [take('one', flat(0, 0)), take('two', null)],
    say: /No response of `two`/,
  },
  {
    why: 'two kinds of decibel',
    takes: [
      take('one', flat(0, 0), { level: { ...LEVEL, basis: 'spl' } }),
      take('two', flat(0, 0), { level: { ...LEVEL, basis: 'relative' } }),
    ],
    say: /sound pressure levels/,
  },
  {
    why: 'nothing in common',
    takes: [take('one', flat(0, 0)), take('two', flat(0, 0, [200, 400, 800]))],
    say: /no frequency in common/,
  },
  {
    why: 'no phase',
    takes: [take('one', flat(0, 0)), take('two', { ...flat(0, 0), phaseFrom: 'arrival' })],
    say: /No phase from the moment of playing in `two`/,
  },
])('refused: $why', ({ takes, say }) => {
  const { response, refusals } = average('vector', ...takes);
  expect(response).toBeNull();
  expect(refusals?.[0]).toMatch(say);
});

test('while a take is being read nothing is refused yet', () => {
  const { response, refusals } = average(
    'power',
    take('one', flat(0, 0)),
    take('two', null, { isPending: true }),
  );
  expect(response).toBeNull();
  expect(refusals).toEqual([]);
});
