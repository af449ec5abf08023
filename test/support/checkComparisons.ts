// Makes one test of each comparison with an outside reference.
import { expect, test } from 'vitest';
import { type Comparison, measure } from '../accuracy/comparison.ts';

/** @param comparisons from `test/accuracy/cases/`, where each names its source and tolerance */
export function checkComparisons(comparisons: readonly Comparison[]): void {
  test.each(comparisons)('$computation ($source)', (comparison) => {
    const { count, worst, worstAt, passes } = measure(comparison);
    expect(count, 'numbers compared').toBe(comparison.count);
    const { tolerance, unit, relative } = comparison;
    const scale = relative ? 'relative' : unit;
    expect(passes, `${worst} ${scale} at ${worstAt}, allowed ${tolerance}`).toBe(true);
  });
}
