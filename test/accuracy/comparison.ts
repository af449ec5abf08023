// What a comparison with an outside reference is, and the one function that measures it, for the tests and for the report.

/** One number of ours beside the number it is held against. */
export interface Pair {
  /** the case, in a few words: `20 °C, 50 %` */
  readonly what: string;
  readonly actual: number;
  readonly expected: number;
}

/** One computation held against one reference. */
export interface Comparison {
  /** what is computed: `speed of sound` */
  readonly computation: string;
  /** where the expected numbers come from: standard and table, book and page, library and version, or how they were worked out */
  readonly source: string;
  /** unit of numbers and tolerance; `relative` compares ratios instead */
  readonly unit: string;
  readonly tolerance: number;
  /** why the tolerance is what it is: rounding of the print, precision of the data */
  readonly because: string;
  /** whether the tolerance is a share of the expected number */
  readonly relative?: boolean;
  /** how many numbers there must be, so that none is lost on the way */
  readonly count: number;
  /** works out all pairs */
  readonly pairs: () => readonly Pair[];
}

export interface Measured {
  readonly count: number;
  readonly worst: number;
  readonly worstAt: string;
  readonly mean: number;
  /** all there, all within the tolerance */
  readonly passes: boolean;
}

/** Deviations of a comparison; NaN on either side is an infinite one. */
export function measure(comparison: Comparison): Measured {
  const pairs = comparison.pairs();
  let worst = 0;
  let worstAt = pairs[0]?.what ?? 'nothing was compared';
  let sum = 0;
  for (const { what, actual, expected } of pairs) {
    const apart = deviation(actual, expected, comparison.relative ?? false);
    sum += apart;
    if (worst < apart) {
      worst = apart;
      worstAt = what;
    }
  }
  const passes = pairs.length === comparison.count && worst <= comparison.tolerance;
  return { count: pairs.length, worst, worstAt, mean: sum / Math.max(1, pairs.length), passes };
}

/** Pairs of two lists of the same length; a missing number becomes NaN and so fails. */
export function pairsOf(
  actual: ArrayLike<number>,
  expected: ArrayLike<number>,
  what: (index: number) => string,
): readonly Pair[] {
  const length = Math.max(actual.length, expected.length);
  return Array.from({ length }, (_, i) => ({
    what: what(i),
    actual: actual[i] ?? Number.NaN,
    expected: expected[i] ?? Number.NaN,
  }));
}

function deviation(actual: number, expected: number, relative: boolean): number {
  if (actual === expected) return 0;
  const apart = Math.abs(actual - expected) / (relative ? Math.abs(expected) : 1);
  return Number.isNaN(apart) ? Number.POSITIVE_INFINITY : apart;
}
