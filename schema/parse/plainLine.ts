// Reads the usual line (`left: { channel: L, at: { x: 1.95 m, y: 1.36 m } }`) without the YAML library: most of a file is such
// lines, and reading a room for the first time is what somebody waits for when an editor starts.
//
// Whatever is less than usual (quotes, a comment in the line, a comma without a space, a key twice) is left to the library.

import type { Located, LocatedEntry, LocatedScalar, Range } from '../model/located.ts';
import { unsafeKey } from './unsafeKey.ts';

/** Letters, digits and what may stand between them without meaning anything in YAML. */
const WORDS = /(?:[\p{L}\p{N}]|[-+]\p{N})[\p{L}\p{N} _.°%+\-/()'’]*/uy;

/** Behind the line nothing but empty lines and comments. */
const NOTHING = /^ *(?:\n *(?:#[^\n]*)?)*$/;

/** As long as YAML lets a key be from the start of its line. */
const LONGEST = 1000;

/**
 * @param part one key with all that belongs to it
 * @param base where it starts in the file
 * @returns exactly what the library would read; null where the line is left to it
 */
export function plainLine(part: string, base: number): LocatedEntry | null {
  const cursor: Cursor = { part, base, at: 0 };
  skipSpaces(cursor);
  const entry = readEntry(cursor);
  if (entry === null || LONGEST < cursor.at) return null;
  return NOTHING.test(part.slice(cursor.at)) ? entry : null;
}

interface Cursor {
  readonly part: string;
  readonly base: number;
  at: number;
}

function readEntry(cursor: Cursor): LocatedEntry | null {
  const key = readWords(cursor);
  if (key === null || unsafeKey(key.text) !== null) return null;
  if (cursor.at !== key.range.end - cursor.base || !takes(cursor, ': ')) return null;
  skipSpaces(cursor);
  const value = readValue(cursor);
  if (value === null) return null;
  const range = { start: key.range.start, end: value.range.end };
  return { key: key.text, keyRange: key.range, value, range };
}

function readValue(cursor: Cursor): Located | null {
  const { part, at } = cursor;
  if (part[at] === '{') return readBraces(cursor);
  if (part[at] === '[') return readBrackets(cursor);
  return readWords(cursor);
}

function readWords(cursor: Cursor): LocatedScalar | null {
  WORDS.lastIndex = cursor.at;
  const found = WORDS.exec(cursor.part)?.[0];
  if (found === undefined) return null;
  const text = found.trimEnd();
  const range = rangeFrom(cursor, cursor.at, cursor.at + text.length);
  cursor.at += found.length;
  // A key has its colon behind it at once; behind a value no space matters.
  if (cursor.part[cursor.at] === ':') cursor.at = range.end - cursor.base;
  return { kind: 'scalar', text, style: 'plain', range };
}

function readBraces(cursor: Cursor): Located | null {
  const start = cursor.at;
  const entries = new Map<string, LocatedEntry>();
  const isWhole = readItems(cursor, '}', () => {
    const entry = readEntry(cursor);
    if (entry === null || entries.has(entry.key)) return false;
    entries.set(entry.key, entry);
    return true;
  });
  const range = rangeFrom(cursor, start, cursor.at);
  return isWhole ? { kind: 'map', entries, flow: true, range } : null;
}

function readBrackets(cursor: Cursor): Located | null {
  const start = cursor.at;
  const items: Located[] = [];
  const isWhole = readItems(cursor, ']', () => {
    const item = readValue(cursor);
    if (item !== null) items.push(item);
    return item !== null;
  });
  const range = rangeFrom(cursor, start, cursor.at);
  return isWhole ? { kind: 'list', items, flow: true, range } : null;
}

/** One item at least, with `, ` between them. */
function readItems(cursor: Cursor, close: '}' | ']', readItem: () => boolean): boolean {
  cursor.at += 1;
  for (;;) {
    skipSpaces(cursor);
    if (!readItem()) return false;
    skipSpaces(cursor);
    if (takes(cursor, close)) return true;
    if (!takes(cursor, ', ')) return false;
  }
}

function skipSpaces(cursor: Cursor): void {
  while (cursor.part.charCodeAt(cursor.at) === 32) cursor.at += 1;
}

function takes(cursor: Cursor, text: string): boolean {
  if (!cursor.part.startsWith(text, cursor.at)) return false;
  cursor.at += text.length;
  return true;
}

function rangeFrom({ base }: Cursor, start: number, end: number): Range {
  return { start: start + base, end: end + base };
}
