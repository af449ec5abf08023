// What `groundbass figures` says of takes: the same figures as everywhere, units in the keys, null where there is none.

import { expect, test } from 'vitest';
import { figures } from '../../server/figures/figures.ts';
import { measuredRoom } from './measuredRoom.ts';

test('takes, averages and the recipe, each figure with its unit', async () => {
  const { setup, remarks } = await measuredRoom();
  if (setup === null) throw new RangeError('no setup');
  const json = JSON.parse(JSON.stringify(figures(setup, remarks)));
  const { takes, averages } = json.measured.sessions.autumn;
  expect(Object.keys(takes)).toEqual(['left', 'sub_text', 'broken']);
  expect(takes.left).toMatchObject({ kind: 'impulse', seat: 'mix', polarity: 'upright' });
  expect(takes.left.arrival_ms).toBeCloseTo(7.5, 1);
  expect(takes.left.plan.arrival.planned_ms + takes.left.plan.arrival.off_ms).toBeCloseTo(
    takes.left.arrival_ms,
    9,
  );
  expect(takes.left.window).toEqual({ before_ms: 20, after_ms: 500 });
  expect(takes.left.octaves.map((one: { frequency_hz: number }) => one.frequency_hz)).toEqual([
    31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000,
  ]);
  expect(takes.sub_text).toMatchObject({ kind: 'text', arrival_ms: null, octaves: [] });
  expect(takes.broken).toMatchObject({
    kind: null,
    response: null,
    faults: [{ code: 'measurement/unreadable', severity: 'error' }],
  });
  expect(averages.alone.response.phase_from).toBe('playing');
  expect(averages.with_broken).toMatchObject({ response: null, by: 'power' });
  const [first, ...others] = json.measured.recipe;
  expect(first).toMatchObject({ take: { session: 'autumn', take: 'left' }, seat: 'mix' });
  expect(others.some(({ take }: { take: unknown }) => take === null)).toBe(true);
  expect(JSON.stringify(json.measured)).not.toMatch(/NaN|Infinity/);
});

test('the average of one timed take by vector is that take itself', async () => {
  const { setup } = await measuredRoom();
  const [session] = setup?.measured?.sessions ?? [];
  const left = session?.takes.find(({ take }) => take === 'left')?.response;
  const alone = session?.averages.find(({ average }) => average === 'alone')?.response;
  expect(alone?.frequency_hz).toEqual(left?.frequency_hz);
  left?.level_db.forEach((level, i) => {
    expect(alone?.level_db[i] ?? Number.NaN).toBeCloseTo(level ?? Number.NaN, 9);
  });
});

test('without takes there are no sessions, and the recipe is whole', async () => {
  const { setup, remarks } = await measuredRoom('');
  if (setup === null) throw new RangeError('no setup');
  const json = JSON.parse(JSON.stringify(figures(setup, remarks)));
  expect(json.measured.sessions).toEqual({});
  expect(json.measured.recipe.every(({ take }: { take: unknown }) => take === null)).toBe(true);
});
