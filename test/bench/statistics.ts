// Medians and 95th percentiles, and the line that a benchmark prints.

export interface Distribution {
  readonly median_ms: number;
  readonly p95_ms: number;
  readonly count: number;
}

export function distributionOf(times_ms: readonly number[]): Distribution {
  const sorted = [...times_ms].sort((one, other) => one - other);
  const at = (share: number): number =>
    sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN;
  return { median_ms: at(0.5), p95_ms: at(0.95), count: sorted.length };
}

/** Name, median, 95th percentile, count, and the bound with whether it was kept. */
export function line(
  name: string,
  times_ms: readonly number[],
  bound: string,
  isKept: (of: Distribution) => boolean,
): string {
  const of = distributionOf(times_ms);
  const figures = `${of.median_ms.toFixed(2).padStart(9)} ms  ${of.p95_ms.toFixed(2).padStart(9)} ms  ${String(of.count).padStart(5)}`;
  return `${name.padEnd(46)} ${figures}   ${bound.padEnd(34)} ${isKept(of) ? 'kept' : 'MISSED'}`;
}

export const HEADING: string = `${''.padEnd(46)} ${'median'.padStart(12)}  ${'p95'.padStart(12)}  ${'n'.padStart(5)}   bound`;
