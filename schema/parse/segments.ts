// Cuts a block of YAML into the parts that its keys start, so that a fault in one part leaves the others whole.
//
// In a block map a line that is indented as deep as the map, and is neither blank, a comment, a list item nor a closing bracket,
// can only be the next key. So each part may be read for itself, and read again only when its own text has changed.

import type { Range } from '../model/located.ts';

/** Line starts that go on with the key above: a list under it, the end of brackets, a value behind an explicit key. */
const CONTINUES = /^(?:-(?=\s|$)|[}\],]+(?=[\s#]|$)|:(?=\s|$))/;

/**
 * @param indent how many spaces stand before each key of the map
 * @returns the parts in order, from key to key; what stands before the first key is in none of them
 */
export function splitAtKeys(text: string, { start, end }: Range, indent: number): readonly Range[] {
  const starts: number[] = [];
  for (let at = start; at < end; ) {
    const next = lineEnd(text, at, end);
    if (startsKey(text, at, next, indent)) starts.push(at);
    at = next;
  }
  return starts.map((from, index) => ({ start: from, end: starts[index + 1] ?? end }));
}

/** Where the first line with content begins, and how many spaces stand before it; null where there is none. */
export function firstIndent(
  text: string,
  { start, end }: Range,
): { readonly at: number; readonly indent: number } | null {
  for (let at = start; at < end; ) {
    const next = lineEnd(text, at, end);
    const indent = leadingSpaces(text, at, next);
    if (hasContent(text, at + indent, next)) return { at: at + indent, indent };
    at = next;
  }
  return null;
}

/** Behind the line's end. */
export function lineEnd(text: string, at: number, end: number): number {
  const found = text.indexOf('\n', at);
  return found < 0 || end <= found ? end : found + 1;
}

function startsKey(text: string, at: number, next: number, indent: number): boolean {
  const spaces = leadingSpaces(text, at, next);
  if (indent < spaces || !hasContent(text, at + spaces, next)) return false;
  if (text.charCodeAt(at + spaces) === 9) return false; // a tab: the line above's fault, or its own
  return !CONTINUES.test(text.slice(at + spaces, Math.min(next, at + spaces + 20)));
}

export function leadingSpaces(text: string, at: number, next: number): number {
  let spaces = 0;
  while (at + spaces < next && text.charCodeAt(at + spaces) === 32) spaces++;
  return spaces;
}

function hasContent(text: string, at: number, next: number): boolean {
  const first = text[at];
  return at < next && first !== '\n' && first !== '\r' && first !== '#';
}
