// What parts remember: the same again only where every input is the same, and of several things only what changed.

import { expect, test, vi } from 'vitest';
import { memoEach, memoLast, memoMany, memoNamed } from '../../../core/parts/memo.ts';

test('one input more is another call', () => {
  const sum = memoLast((...numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0));
  expect([sum(1, 2), sum(1, 2, 3), sum(1, 2)]).toEqual([3, 6, 3]);
});

test('of several things only those that changed are worked out again', () => {
  const double = vi.fn(({ size }: { readonly size: number }, by: number) => size * by);
  const each = memoEach(double);
  const [one, two, three] = [{ size: 1 }, { size: 2 }, { size: 3 }];
  expect(each([one, two], 2)).toEqual([2, 4]);
  expect(each([three, two, one], 2)).toEqual([6, 4, 2]);
  expect(double).toHaveBeenCalledTimes(3);
  expect(each([one], 5)).toEqual([5]);
  expect(double).toHaveBeenCalledTimes(4);
});

test('things with a name keep their answers side by side', () => {
  const count = vi.fn((...things: object[]) => things.length);
  const named = memoNamed(count);
  const thing = {};
  for (const name of ['a', 'b', 'a', 'b']) expect(named(name, thing)).toBe(1);
  expect(count).toHaveBeenCalledTimes(2);
  expect(named('a', thing, {})).toBe(2);
});

test('plain inputs that read the same are the same; keys in another order are not', () => {
  const look = vi.fn((of: object) => JSON.stringify(of));
  const many = memoMany(look);
  expect(many({ a: [1, null], b: 'x' })).toBe('{"a":[1,null],"b":"x"}');
  expect(many({ a: [1, null], b: 'x' })).toBe('{"a":[1,null],"b":"x"}');
  expect(look).toHaveBeenCalledTimes(1);
  expect(many({ b: 'x', a: [1, null] })).toBe('{"b":"x","a":[1,null]}');
});
