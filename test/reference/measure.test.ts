// The measuring function itself: what is out of tolerance, lost on the way, or not a number must fail.
import { expect, test } from 'vitest';
import { type Comparison, measure, type Pair, pairsOf } from '../accuracy/comparison.ts';

function comparison(pairs: readonly Pair[], change: Partial<Comparison> = {}): Comparison {
  return {
    computation: 'lengths',
    source: 'by hand',
    unit: 'm',
    tolerance: 0.1,
    because: 'of the test',
    count: pairs.length,
    pairs: () => pairs,
    ...change,
  };
}

test('worst and mean deviation, and where the worst is', () => {
  const pairs = pairsOf([1, 2.05, 3], [1, 2, 3.01], (i) => `row ${i}`);
  const { worst, worstAt, mean, passes } = measure(comparison(pairs));
  expect(worst).toBeCloseTo(0.05, 12);
  expect(mean).toBeCloseTo(0.02, 12);
  expect([worstAt, passes]).toEqual(['row 1', true]);
});

test.each([
  { name: 'beyond the tolerance', actual: [1, 2.2], expected: [1, 2], count: 2 },
  { name: 'not a number', actual: [1, Number.NaN], expected: [1, 2], count: 2 },
  { name: 'a number of ours missing', actual: [1], expected: [1, 2], count: 2 },
  { name: 'an expected number missing', actual: [1, 2], expected: [1], count: 2 },
  { name: 'a row lost on the way', actual: [1], expected: [1], count: 2 },
])('$name fails', ({ actual, expected, count }) => {
  const pairs = pairsOf(actual, expected, (i) => `row ${i}`);
  expect(measure(comparison(pairs, { count })).passes).toBe(false);
});

test('a relative tolerance is a share of what is expected', () => {
  const pairs = pairsOf([1050], [1000], () => 'row');
  expect(measure(comparison(pairs, { relative: true })).worst).toBeCloseTo(0.05, 12);
  expect(measure(comparison(pairs, { relative: true })).passes).toBe(true);
});

test('two infinities of the same sign agree', () => {
  const pairs = pairsOf([-Infinity], [-Infinity], () => 'null');
  expect(measure(comparison(pairs)).worst).toBe(0);
});
