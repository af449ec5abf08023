// What a benchmark hands over, and the lines that are printed of it: medians, 95th percentiles, bounds, peers with the ratio.

export interface Distribution {
  readonly median_ms: number;
  readonly p95_ms: number;
  readonly count: number;
}

/** One line: its times and what they should keep to. */
export interface Row {
  readonly name: string;
  /** Empty, or NaN, where the peer is not on this machine. */
  readonly times_ms: readonly number[];
  /** What the processor was busy with it, which other work on the machine changes less; left out where nobody looked. */
  readonly cpu_ms?: readonly number[];
  readonly bound: string;
  readonly isKept: (of: Distribution) => boolean;
  /** Said below the line. */
  readonly note?: string;
  /** Somebody else's work on the same task in the same run: it is held against the last row that is ours. */
  readonly isPeer?: boolean;
}

/** What each file of this folder that has benchmarks exports as `tables`. */
export interface Table {
  readonly title: string;
  readonly rows: readonly Row[];
  readonly notes?: readonly string[];
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
  cpu_ms?: readonly number[],
): string {
  const of = distributionOf(times_ms);
  return `${figures(name, of, cpu_ms)}   ${bound.padEnd(34)} ${isKept(of) ? 'kept' : 'MISSED'}`;
}

export const HEADING: string = `${''.padEnd(52)} ${'median'.padStart(12)}  ${'p95'.padStart(12)}  ${'n'.padStart(5)}  ${'CPU'.padStart(12)}   bound, or ratio to the peer`;

/** The table's lines, the heading first; peers with how much of their time our row before them took. */
export function tableLines({ title, rows, notes = [] }: Table): readonly string[] {
  let ours_ms = Number.NaN;
  const lines = rows.flatMap((row) => {
    const { name, times_ms, bound, isKept, note, isPeer } = row;
    const below = note === undefined ? [] : [note];
    if (isPeer !== true) {
      ours_ms = distributionOf(times_ms).median_ms;
      return [line(name, times_ms, bound, isKept, row.cpu_ms), ...below];
    }
    return [peerLine(row, ours_ms), ...below];
  });
  return [title, ...(0 < rows.length ? [HEADING] : []), ...lines, ...notes, ''];
}

function peerLine({ name, times_ms, cpu_ms, bound, isKept }: Row, ours_ms: number): string {
  const of = distributionOf(times_ms);
  if (!Number.isFinite(of.median_ms)) return `${name.padEnd(52)} ${'absent'.padStart(12)}`;
  const ratio = `ours takes ${(ours_ms / of.median_ms).toPrecision(2)} of it`;
  return `${figures(name, of, cpu_ms)}   ${ratio}; ${bound}${isKept(of) ? '' : ': MISSED'}`;
}

function figures(
  name: string,
  { median_ms, p95_ms, count }: Distribution,
  cpu_ms: readonly number[] = [],
): string {
  const { median_ms: busy_ms } = distributionOf(cpu_ms);
  const cpu = Number.isNaN(busy_ms) ? '' : `${busy_ms.toFixed(2)} ms`;
  return `${name.padEnd(52)} ${median_ms.toFixed(2).padStart(9)} ms  ${p95_ms.toFixed(2).padStart(9)} ms  ${String(count).padStart(5)}  ${cpu.padStart(12)}`;
}
