// Where the cursor stands, read from the text alone: in a key or a value, below which path, with which text to replace.
//
// The located tree is of little use here: while a line is half typed, the parser is right to leave it out. Our format knows block
// and flow maps, lists, quotes, comments and block scalars only, so a reader of lines finds the place even in broken text.

import type { Range } from '../../../schema/model/located.ts';
import type { Path } from '../../../schema/model/path.ts';
import {
  blockLine,
  flowEnd,
  isFlowOpen,
  keysAhead,
  newState,
  type ScanState,
  startFlowLine,
} from './lineScanner.ts';

export interface CursorContext {
  readonly wants: 'key' | 'value';
  /** Of the map that the key is in, or of the value. */
  readonly path: Path;
  /** The text that an item replaces: the whole key or value under the cursor. */
  readonly replace: Range;
  /** What of it stands before the cursor. */
  readonly typed: string;
  readonly inFlow: boolean;
  /** Column of a key in a block map. */
  readonly indent: number;
  /** The key has its colon already, so that only the key itself is replaced. */
  readonly hasColon: boolean;
  /** What must stand before and after the item so that its neighbours stay what they are. */
  readonly before: string;
  readonly after: string;
  /** The other keys of the same map, as far as its text shows them. */
  readonly seenKeys: readonly string[];
}

/** null inside comments, quotes and block scalars, behind a finished value, and at an indent where nothing may stand. */
export function cursorContext(text: string, offset: number): CursorContext | null {
  const state = newState();
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  let start = 0;
  while (start < lineStart) {
    const end = text.indexOf('\n', start);
    blockLine(state, text.slice(start, end));
    start = end + 1;
  }
  const lineBreak = text.indexOf('\n', offset);
  const line = {
    before: text.slice(lineStart, offset),
    after: text.slice(offset, lineBreak === -1 ? text.length : lineBreak),
    start: lineStart,
  };
  if (!isFlowOpen(state)) return inBlock(state, text, offset, line);
  startFlowLine(state);
  return inFlow(state, text, offset, line.before);
}

interface Line {
  readonly before: string;
  readonly after: string;
  readonly start: number;
}

function inBlock(
  state: ScanState,
  text: string,
  offset: number,
  { before, after, start }: Line,
): CursorContext | null {
  const indent = before.length - before.trimStart().length;
  if (isInBlockScalar(state, before, indent)) return null;
  // In the indent of a line that is written already there is nothing to write.
  if (before.trim() === '' && /^\s+\S/.test(after)) return null;
  const end = blockLine(state, before, true);
  if (end.kind === 'nothing') return null;
  if (end.kind === 'flow') return inFlow(state, text, offset, before.slice(end.column));
  const from = start + end.column;
  const typed = text.slice(from, offset);
  if (end.kind === 'key') {
    const key = keyBehind(after);
    const whole = { start: from, end: offset + key.length };
    if (
      !key.hasColon &&
      after.slice(key.length).trim() !== '' &&
      !isComment(after.slice(key.length))
    )
      return null;
    if (!key.hasColon && !fitsIndent(state, text, offset, end.column)) return null;
    return {
      wants: 'key',
      path: end.path,
      replace: whole,
      typed,
      inFlow: false,
      indent: end.column,
      hasColon: key.hasColon,
      before: '',
      after: '',
      seenKeys: [...end.seenKeys, ...keysBelow(text.slice(offset), end.column)],
    };
  }
  if (startsOther(typed + after) || after.startsWith('#')) return null;
  if (after.trim() === '' && isValueBelow(state, text.slice(offset))) return null;
  const rest = /^(?:[^\s#]|\s+(?![\s#]|$)|(?<=\S)#)*/.exec(after)?.[0] ?? '';
  return {
    wants: 'value',
    path: end.path,
    replace: { start: from, end: offset + rest.length },
    typed,
    inFlow: false,
    indent: end.column,
    hasColon: false,
    before: text[from - 1] === ' ' || from === start ? '' : ' ',
    after: '',
    seenKeys: [],
  };
}

function inFlow(
  state: ScanState,
  text: string,
  offset: number,
  scanned: string,
): CursorContext | null {
  const end = flowEnd(state, scanned);
  if (end === null) return null;
  const from = offset - end.typed.length;
  const lineBreak = text.indexOf('\n', offset);
  const after = text.slice(offset, lineBreak === -1 ? text.length : lineBreak);
  const base = { inFlow: true, indent: state.flowIndent, typed: end.typed } as const;
  if (end.kind === 'key') {
    const key = keyBehind(after);
    const next = nextSign(text, offset + key.length);
    const isAlone = next === null || ',}]'.includes(next.sign);
    // A half-typed map that is not closed yet ends where the next line of the block begins.
    const isUnclosed = next !== null && next.indent !== null && next.indent <= state.flowIndent;
    return {
      ...base,
      wants: 'key',
      path: end.path,
      replace: { start: from, end: offset + key.length },
      hasColon: key.hasColon,
      before: /[,{]/.test(text[from - 1] ?? '') ? ' ' : '',
      after: key.hasColon || isAlone || isUnclosed ? '' : ', ',
      seenKeys: [...end.seenKeys, ...keysAhead(state, text.slice(offset))],
    };
  }
  if (startsOther(end.typed + after)) return null;
  const rest = (/^[^,}\]]*/.exec(after)?.[0] ?? '').replace(/\s#.*$/, '').trimEnd();
  return {
    ...base,
    wants: 'value',
    path: end.path,
    replace: { start: from, end: offset + rest.length },
    hasColon: false,
    before: /[:,]/.test(text[from - 1] ?? '') ? ' ' : '',
    after: '',
    seenKeys: [],
  };
}

/** The rest of a key behind the cursor, and whether a colon follows it. */
function keyBehind(after: string): { readonly length: number; readonly hasColon: boolean } {
  const match = /^([\w.]*(?: [A-Za-z]+)?)(\s*:(?=\s|$))?/.exec(after);
  const hasColon = match?.[2] !== undefined;
  const length = hasColon ? (match?.[1]?.length ?? 0) : (/^\w*/.exec(after)?.[0].length ?? 0);
  return { length, hasColon };
}

/** The next sign that is no blank and no comment, and the indent of its line where that is another one. */
function nextSign(
  text: string,
  from: number,
): { readonly sign: string; readonly indent: number | null } | null {
  const rest = text.slice(from);
  const blank = /^(?:\s|#[^\n]*)*/.exec(rest)?.[0] ?? '';
  const sign = rest[blank.length];
  if (sign === undefined) return null;
  const lineBreak = blank.lastIndexOf('\n');
  return { sign, indent: lineBreak === -1 ? null : blank.length - lineBreak - 1 };
}

/** Whether the lines below are the value of the key that the cursor stands behind. */
function isValueBelow({ frames }: ScanState, rest: string): boolean {
  const next = rest
    .split('\n')
    .slice(1)
    .find((line) => /^\s*[^\s#]/.test(line));
  if (next === undefined) return false;
  const indent = next.length - next.trimStart().length;
  const own = frames[frames.length - 1]?.indent ?? 0;
  return own < indent || (own === indent && /^\s*- /.test(next) && !frames.at(-1)?.isItem);
}

/** Keys of a block map on the lines below, up to where the map ends. */
function keysBelow(rest: string, column: number): readonly string[] {
  const keys: string[] = [];
  for (const line of rest.split('\n').slice(1)) {
    const content = line.trimStart();
    if (content === '' || content.startsWith('#')) continue;
    const indent = line.length - content.length;
    if (indent < column) break;
    const key =
      indent === column ? /^([^\s"'{[#][^:#]*?)\s*:(?:\s|$)/.exec(content)?.[1] : undefined;
    if (key !== undefined) keys.push(key);
  }
  return keys;
}

/** Whether a key may be put here without taking the lines below it along, and in line with its neighbours. */
function fitsIndent(state: ScanState, text: string, offset: number, column: number): boolean {
  const below = text.slice(offset).split('\n').slice(1);
  const next = below.find((line) => line.trim() !== '' && !/^\s*#/.test(line));
  const nextIndent = next === undefined ? 0 : next.length - next.trimStart().length;
  if (column < nextIndent) return false;
  const parent = state.frames[state.frames.length - 1];
  const siblings = parent ? parent.childIndent : state.rootIndent;
  if (siblings !== null) return siblings === column;
  return (parent?.indent ?? -1) < nextIndent ? nextIndent === column || nextIndent === 0 : true;
}

function isInBlockScalar({ blockScalar }: ScanState, before: string, indent: number): boolean {
  return blockScalar !== null && (before.trim() === '' || blockScalar < indent);
}

/** Whether the value is a map, a list or a quoted text: nothing to be replaced by a word. */
function startsOther(value: string): boolean {
  return /^\s*[{["'|>]/.test(value);
}

function isComment(text: string): boolean {
  return /^\s+#/.test(text);
}
