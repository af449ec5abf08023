// The canonical form of a part of the set-up: sorted lines of `path=value`, numbers in whole steps of their unit.
//
// 2 m and 200 cm, 1.25 ms and 60 samples at 48 kHz, or the same lines in another order give the same form.

/** What is put into the form; what is null or missing was not recorded and has no line. */
export type Plain =
  | string
  | number
  | boolean
  | null
  | undefined
  | readonly Plain[]
  | { readonly [key: string]: Plain };

/** Steps by the unit that a key ends in, so small that nobody can set up or hear less: common practice, no source. */
const STEPS: readonly (readonly [ending: RegExp, step: number])[] = [
  [/_db_oct$/, 0.01],
  [/_(?:db|dbu|dbspl)$/, 0.01],
  [/_m$/, 1e-3],
  [/_s$/, 1e-6],
  [/_hz$/, 0.01],
  [/_rad$/, Math.PI / 1800],
  [/_v$/, 1e-3],
  [/_m_s$/, 0.1],
];

/** For numbers without a unit, such as shares and Q. */
const PLAIN_STEP = 1e-4;

/** Two spellings of one value may differ in the last bits; no file states more digits than these. */
const DIGITS = 9;

/** Sorted by code unit, one value a line. */
export function canonicalText(value: Plain): string {
  const lines: string[] = [];
  collect(value, '', PLAIN_STEP, lines);
  return lines.sort().join('\n');
}

function collect(value: Plain, path: string, step: number, lines: string[]): void {
  if (value === null || value === undefined) return;
  if (typeof value === 'number') lines.push(`${path}=${stepsOf(value, step)}`);
  else if (typeof value !== 'object') lines.push(`${path}=${value}`);
  else
    for (const [key, inner] of Object.entries(value))
      collect(inner, path === '' ? key : `${path}.${key}`, stepFor(key) ?? step, lines);
}

/** Never `-0`. */
function stepsOf(value: number, step: number): number {
  return Math.round(Number((value / step).toPrecision(DIGITS))) + 0;
}

function stepFor(key: string): number | null {
  return STEPS.find(([ending]) => ending.test(key))?.[1] ?? null;
}

/** A list as a record, since its order means nothing. */
export function byKey<One>(
  list: readonly One[],
  keyOf: (one: One) => string,
  toPlain: (one: One) => Plain,
): { readonly [key: string]: Plain } {
  return Object.fromEntries(list.map((one) => [keyOf(one), toPlain(one)]));
}
