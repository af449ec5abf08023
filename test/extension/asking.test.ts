// Questions to the server while a hand moves something: one at a time, the newest next, an unanswered one again.

import { expect, test } from 'vitest';
import { newestOnly, type Question } from '../../extension/preview/page/asking.ts';
import type { LowEndAnswer } from '../../server/protocol/lowEnd.ts';

const at = (x_m: number): Question => ({
  version: 1,
  ask: { kind: 'moved', thing: { list: 'subwoofers', id: 'sub' }, place: { x_m, y_m: 1 } },
});
const ANSWER: LowEndAnswer = { field: null, map: null };

function standing() {
  const asked: number[] = [];
  const heard: number[] = [];
  const waiting: ((answer: LowEndAnswer | null) => void)[] = [];
  const place = ({ ask }: Question) => (ask.kind === 'moved' ? ask.place.x_m : Number.NaN);
  const newest = newestOnly(
    (question) => {
      asked.push(place(question));
      return new Promise((done) => waiting.push(done));
    },
    (_, question) => heard.push(place(question)),
  );
  const answer = async (given: LowEndAnswer | null) => {
    waiting.shift()?.(given);
    await new Promise((done) => setTimeout(done, 0));
  };
  return { asked, heard, newest, answer };
}

test('while one is open, only the newest of those that follow is asked', async () => {
  const { asked, heard, newest, answer } = standing();
  for (const x_m of [1, 2, 3, 3]) newest.want(at(x_m));
  expect(asked).toEqual([1]);
  await answer(ANSWER);
  expect(asked).toEqual([1, 3]);
  await answer(ANSWER);
  expect(heard).toEqual([1, 3]);
  newest.want(at(3)); // answered already
  expect(asked).toEqual([1, 3]);
});

test('what got no answer may be asked again', async () => {
  const { asked, heard, newest, answer } = standing();
  newest.want(at(1));
  await answer(null);
  newest.want(at(1));
  expect(asked).toEqual([1, 1]);
  await answer(ANSWER);
  expect(heard).toEqual([1]);
});
