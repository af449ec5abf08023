// Which takes of the recipe are there: by what sounded, where the microphone stood, and what was turned over.

import { expect, test } from 'vitest';
import { recipeState } from '../../core/measured/recipeState.ts';
import type { Analysis } from '../../server/analysis.ts';
import { analysisOf, ROOM_TEXT } from '../server/support/facility.ts';
import { measuredRoom } from './measuredRoom.ts';

function madeIn({ setup }: Analysis): readonly string[] {
  if (setup === null) throw new RangeError('no setup');
  return recipeState(setup)
    .filter(({ made }) => made !== null)
    .map(({ wanted }) => wanted.id);
}

/** As the file says it: what is in the recording is not looked at. */
async function madeBy(take: string): Promise<readonly string[]> {
  const takes = `{ one: { file: takes/left.wav, ${take} } }`;
  return madeIn(
    await analysisOf(`${ROOM_TEXT}sessions: { a: { date: 2026-11-03, takes: ${takes} } }\n`),
  );
}

const TABLE = [
  { take: 'drive: L, sounding: [left], seat: mix', want: ['left_mix'], why: 'as asked for' },
  { take: 'sounding: [left], seat: mix', want: ['left_mix'], why: 'driven on nobody knows what' },
  {
    take: 'drive: desk.main_left, sounding: [left], seat: mix',
    want: ['left_mix'],
    why: 'by its port',
  },
  { take: 'drive: R, sounding: [left], seat: mix', want: [], why: 'driven on the other channel' },
  {
    take: 'drive: L, sounding: [sub, left], seat: mix',
    want: ['left_with_sub_mix'],
    why: 'in any order',
  },
  {
    take: 'drive: L, sounding: [left, sub], seat: mix, changed: { sub: { polarity: inverted } }',
    want: ['left_sub_inverted_mix'],
    why: 'turned over',
  },
  {
    take: 'drive: L, sounding: [left], at: { x: 2.15 m, y: 2.10 m, z: 1.20 m }',
    want: ['left_mix'],
    why: '5 cm from the seat',
  },
  {
    take: 'drive: L, sounding: [left], at: { x: 2.35 m, y: 2.10 m, z: 1.20 m }',
    want: [],
    why: '25 cm from the seat, by itself',
  },
  {
    take: 'drive: L, sounding: [left, sub], at: { x: 2.35 m, y: 2.10 m, z: 1.20 m }',
    want: ['left_mix_point_2'],
    why: 'a point about the seat',
  },
] as const;

test.each(TABLE)('$why: $take', async ({ take, want }) => {
  expect(await madeBy(take)).toEqual(want);
});

test('a file that was read counts, one that cannot be read does not', async () => {
  expect(madeIn(await measuredRoom())).toEqual(expect.arrayContaining(['left_mix']));
  expect(madeIn(await measuredRoom())).not.toContain('right_mix');
});
