// Selection ranges: from a number to its quantity, value, entry, map, and on to the file.

import type { SelectionRange } from 'vscode-languageserver';
import type { Located, Range } from '../../schema/model/located.ts';
import type { Analysis } from '../analysis.ts';
import { toRange } from '../lsp/convert.ts';

export function selectionRange(
  { source: { text, parsed } }: Analysis,
  offset: number,
): SelectionRange {
  const ranges = [{ start: 0, end: parsed.text.length }, ...around(parsed.root, offset)];
  const inner = ranges[ranges.length - 1];
  const number = inner ? numberAround(parsed.text, inner, offset) : null;
  if (number) ranges.push(number);
  return (
    ranges.reduce<SelectionRange | undefined>((parent, range) => {
      const own = toRange(text, range);
      return parent ? { range: own, parent } : { range: own };
    }, undefined) ?? { range: toRange(text, { start: offset, end: offset }) }
  );
}

/** Every range around the offset, the widest first. */
function around(value: Located | null, offset: number): Range[] {
  if (value === null || !holds(value.range, offset)) return [];
  if (value.kind === 'scalar') return [value.range];
  if (value.kind === 'list')
    return [value.range, ...value.items.flatMap((item) => around(item, offset))];
  for (const entry of value.entries.values()) {
    if (!holds(entry.range, offset)) continue;
    const inner = holds(entry.keyRange, offset) ? [entry.keyRange] : around(entry.value, offset);
    return [value.range, entry.range, ...inner];
  }
  return [value.range];
}

/** The number within a quantity: `4.62` of `4.62 m ± 20 mm`. */
function numberAround(text: string, { start, end }: Range, offset: number): Range | null {
  for (const match of text.slice(start, end).matchAll(/[-+]?\d+(?:\.\d+)?/g)) {
    const range = { start: start + match.index, end: start + match.index + match[0].length };
    if (holds(range, offset) && range.end - range.start < end - start) return range;
  }
  return null;
}

function holds({ start, end }: Range, offset: number): boolean {
  return start <= offset && offset <= end;
}
