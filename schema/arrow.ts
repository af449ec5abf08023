// Reads the arrows of wiring and of paths: `desk.main_left -> sub.in_left`, `in -> level -> driver`.

import type { Range } from './model/located.ts';

/** One end or stage of an arrow: its names, which dots separate, each with its place in the text. */
export interface ArrowEnd {
  readonly text: string;
  readonly names: readonly { readonly text: string; readonly range: Range }[];
  readonly range: Range;
}

const NAME = /^[a-z][a-z0-9_]*$/;

/**
 * @param text the arrow without quotes; places are counted from its start
 * @returns the ends in order, at least two; null where the text is no such arrow
 */
export function readArrow(text: string, kind: 'wire' | 'path'): readonly ArrowEnd[] | null {
  const ends: ArrowEnd[] = [];
  let start = 0;
  for (const part of text.split('->')) {
    const end = readEnd(part, start);
    if (end === null || !hasShape(end, kind)) return null;
    ends.push(end);
    start += part.length + 2;
  }
  if (ends.length < 2 || (kind === 'wire' && 2 < ends.length)) return null;
  return ends;
}

/** Of a wire: thing, port and perhaps a channel; of a path: one name. */
function hasShape({ names }: ArrowEnd, kind: 'wire' | 'path'): boolean {
  const [first, second, third] = names.map((name) => name.text);
  if (first === undefined || !NAME.test(first)) return false;
  if (kind === 'path') return names.length === 1;
  if (second === undefined || !NAME.test(second)) return false;
  return names.length === 2 || (names.length === 3 && third !== undefined && /^\d+$/.test(third));
}

function readEnd(part: string, base: number): ArrowEnd | null {
  const text = part.trim();
  if (text === '') return null;
  const start = base + part.indexOf(text);
  const names: { text: string; range: Range }[] = [];
  let at = start;
  for (const name of text.split('.')) {
    names.push({ text: name, range: { start: at, end: at + name.length } });
    at += name.length + 1;
  }
  return { text, names, range: { start, end: start + text.length } };
}

/** Whether a text is such an arrow: what the compiled validators ask. */
export function isArrow(text: string, kind: 'wire' | 'path'): boolean {
  return text === 'unknown' || readArrow(text, kind) !== null;
}
