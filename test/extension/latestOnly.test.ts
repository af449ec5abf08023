// Work that runs once at a time: many calls while it runs lead to one more run, and a fault does not stop the next.

import { expect, test } from 'vitest';
import { latestOnly } from '../../extension/preview/latestOnly.ts';

function pending() {
  let finish = (): void => undefined;
  const promise = new Promise<void>((done) => {
    finish = done;
  });
  return { promise, finish };
}

const settled = () => new Promise((done) => setTimeout(done, 0));

test('calls during a run lead to one more run', async () => {
  const gates = [pending(), pending(), pending()];
  let runs = 0;
  const call = latestOnly(() => gates[runs++]?.promise ?? Promise.resolve());
  for (let count = 0; count < 5; count++) call();
  expect(runs).toBe(1);
  gates[0]?.finish();
  await settled();
  expect(runs).toBe(2);
  gates[1]?.finish();
  await settled();
  expect(runs).toBe(2);
  call();
  expect(runs).toBe(3);
});

test('a fault does not stop the next run', async () => {
  let runs = 0;
  const call = latestOnly(async () => {
    runs++;
    throw new Error('the server is gone');
  });
  call();
  await settled();
  call();
  await settled();
  expect(runs).toBe(2);
});
