// The one way numbers are compared in tests: within a tolerance that has a unit, with a message that shows the difference.
import { expect } from 'vitest';

/**
 * Fails unless every number is within the tolerance of what is expected.
 *
 * @param actual a number or a list of them
 * @param expected of the same shape and length
 * @param tolerance greatest difference allowed, in the unit; 0 asks for equality
 * @param unit for the message, e.g. 'Hz'
 */
export function expectNear(
  actual: number | ArrayLike<number>,
  expected: number | ArrayLike<number>,
  tolerance: number,
  unit: string,
): void {
  const got = listOf(actual);
  const want = listOf(expected);
  expect(got.length, 'how many numbers there are').toBe(want.length);
  for (const [i, wanted] of want.entries()) {
    const value = got[i] ?? Number.NaN;
    const apart = value === wanted ? 0 : Math.abs(value - wanted);
    const place = want.length === 1 ? '' : ` at ${i}`;
    const message = `${value} ${unit}${place} is not within ${tolerance} ${unit} of ${wanted} ${unit}`;
    expect(apart <= tolerance, message).toBe(true);
  }
}

function listOf(numbers: number | ArrayLike<number>): readonly number[] {
  return typeof numbers === 'number' ? [numbers] : Array.from(numbers);
}
