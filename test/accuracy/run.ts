// Prints every computation beside its outside references: how many numbers, worst and mean deviation, tolerance, source.
import { readdirSync } from 'node:fs';
import Table from 'cli-table3';
import { type Comparison, measure } from './comparison.ts';

const comparisons = await allComparisons();
const table = new Table({
  head: ['computation', 'n', 'worst', 'mean', 'allowed', '', 'held against'],
  style: { head: [], border: [] },
  colAligns: ['left', 'right', 'right', 'right', 'right', 'left', 'left'],
  colWidths: [34, 6, 12, 12, 12, 5, 60],
  wordWrap: true,
});
let checkCount = 0;
const failed: string[] = [];
for (const comparison of comparisons) {
  const { count, worst, worstAt, mean, passes } = measure(comparison);
  checkCount += count;
  const unit = comparison.relative ? '' : ` ${comparison.unit}`;
  const show = (value: number) => `${Number(value.toPrecision(2))}${unit}`.trim();
  const { computation, tolerance, source } = comparison;
  table.push([
    computation,
    count,
    show(worst),
    show(mean),
    show(tolerance),
    passes ? 'ok' : 'OUT',
    source,
  ]);
  if (!passes) {
    failed.push(
      `${computation}: ${show(worst)} at ${worstAt}; ${count} of ${comparison.count} numbers`,
    );
  }
}
console.log(table.toString());
console.log(
  `${comparisons.length} comparisons, ${checkCount} numbers, ${failed.length} out of tolerance`,
);
for (const line of failed) console.log(`OUT  ${line}`);
process.exitCode = failed.length === 0 ? 0 : 1;

/** Every list of comparisons that a file in `cases/` exports. */
async function allComparisons(): Promise<readonly Comparison[]> {
  const folder = new URL('./cases/', import.meta.url);
  const files = readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .sort();
  const modules = await Promise.all(
    files.map((name) => import(new URL(name, folder).href) as Promise<Record<string, unknown>>),
  );
  return modules.flatMap((module) => Object.values(module).flat().filter(isComparison));
}

/** Files of cases may also export helpers; only comparisons have pairs to measure. */
function isComparison(value: unknown): value is Comparison {
  return typeof value === 'object' && value !== null && 'pairs' in value && 'tolerance' in value;
}
