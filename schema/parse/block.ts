// Reads a part of a file that one key starts.
//
// What a key holds is read key by key again, as deep as block style goes. So a fault costs the line it is in and leaves its
// neighbours whole, and of an edited file only the edited lines are read again. Lines in flow style are left to the YAML library.

import { type Document, parseDocument, type YAMLParseError } from 'yaml';
import type { Located, LocatedEntry, LocatedMap, Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import { addOnce } from './doubles.ts';
import { tightEntry } from './losses.ts';
import { plainLine } from './plainLine.ts';
import { problem, type Reading } from './reading.ts';
import { firstIndent, leadingSpaces, lineEnd, splitAtKeys } from './segments.ts';
import { shiftEntry } from './shift.ts';
import { syntaxProblem } from './syntaxProblem.ts';
import { treeOf } from './tree.ts';
import { unsafeKey } from './unsafeKey.ts';

/** Entries as they were read at a place. */
export interface Placed {
  readonly base: number;
  readonly entries: readonly LocatedEntry[];
}

/** Parts that were read without anything to tell, by their text. */
export interface Memory {
  readonly get: (part: string) => Placed | undefined;
  readonly set: (part: string, placed: Placed) => unknown;
}

export interface Source {
  readonly text: string;
  readonly reading: Reading;
  readonly memory: Memory;
}

/**
 * @param range the part, from its key's line on
 * @param path of the map that it belongs to
 * @returns the entries that it holds (usually one); faults and losses are put into the reading
 */
export function readBlock(source: Source, range: Range, path: Path): readonly LocatedEntry[] {
  const { text, reading, memory } = source;
  const part = text.slice(range.start, range.end);
  const known = memory.get(part);
  if (known !== undefined) {
    const entries = movedEntries(known, range.start);
    memory.set(part, { base: range.start, entries });
    return entries;
  }
  const before = noted(reading);
  const entries = readUnknown(source, part, range, path);
  if (noted(reading) === before) memory.set(part, { base: range.start, entries });
  return entries;
}

function movedEntries({ base, entries }: Placed, start: number): readonly LocatedEntry[] {
  return base === start ? entries : entries.map((entry) => shiftEntry(entry, start - base));
}

function noted({ problems, decorations, cuts, emptyAt, damaged }: Reading): number {
  return problems.length + decorations.length + cuts.size + emptyAt.size + damaged.size;
}

function readUnknown(
  source: Source,
  part: string,
  range: Range,
  path: Path,
): readonly LocatedEntry[] {
  const { reading } = source;
  const plain = plainLine(part, range.start);
  if (plain !== null) return [plain];
  const parts = partsOf(source.text, range);
  if (parts?.startsWithKey) return readParts(source, range, parts, path);
  const document = parse(part);
  const [error] = document.errors;
  if (error === undefined) {
    const tree = treeOf(document, part, range.start, path, reading);
    return entriesOf(tree, part, range.start, path, reading);
  }
  if (parts !== null) {
    const before = reading.problems.length;
    const entries = readParts(source, range, parts, path);
    if (before < reading.problems.length) return entries;
  }
  return readDamaged(document, error, part, range, path, reading);
}

/** Exactly what this library reads, `plainLine` reads too, where it reads at all. */
export function parse(part: string): Document.Parsed {
  return parseDocument(part, {
    schema: 'failsafe',
    uniqueKeys: false,
    keepSourceTokens: true,
    prettyErrors: false,
    logLevel: 'silent',
    strict: true,
  });
}

function entriesOf(
  tree: Located | null,
  part: string,
  base: number,
  path: Path,
  reading: Reading,
): readonly LocatedEntry[] {
  if (tree === null) return [];
  if (tree.kind === 'map') return [...tree.entries.values()];
  const tight =
    tree.kind === 'scalar' ? tightEntry(tree, path, { text: part, base, reading }) : null;
  if (tight !== null) return [tight];
  const isWord = tree.kind === 'scalar' && !tree.text.includes('\n');
  const word = isWord ? ` after \`${tree.text.slice(0, 60)}\`` : '';
  const message = `a colon is missing${word}: a key and its value are expected here`;
  reading.problems.push(problem('yaml/colon-missing', path, tree.range, message));
  reading.holds.push({ range: tree.range, whole: false });
  return [];
}

/** `key:` alone in its line, what it holds being indented below it. */
const HEADER = /^ *([^\s#'"{[&*!?|>%@`<,\]}-][^\n:]*?) *:[ \t]*(?:#[^\n]*)?\r?\n/;

/** A line that can only be a key: a plain or quoted word before a colon, and no comment between. */
const KEY_LINE =
  /^(?:[^\s#'"{[&*!?|>%@`,\]}-](?:(?!\s#)[^\n])*?|"(?:[^"\\\n]|\\.)*"|'(?:[^'\n]|'')*')[ \t]*:(?=\s|$)/;

interface Parts {
  readonly key: string;
  readonly keyStart: number;
  /** What stands below the key's line. */
  readonly inner: Range;
  readonly indent: number;
  readonly startsWithKey: boolean;
}

/** null where the part is not a key with indented lines below it. */
function partsOf(text: string, range: Range): Parts | null {
  const header = HEADER.exec(text.slice(range.start, lineEnd(text, range.start, range.end)));
  const key = header?.[1];
  if (header === null || key === undefined || unsafeKey(key) !== null || /\s#/.test(key))
    return null;
  const own = leadingSpaces(text, range.start, range.end);
  const inner = { start: range.start + header[0].length, end: range.end };
  const first = firstIndent(text, inner);
  if (first === null || first.indent <= own) return null;
  const line = text.slice(first.at, lineEnd(text, first.at, range.end));
  if (/^-(?:\s|$)/.test(line)) return null; // a list
  return {
    key,
    keyStart: range.start + own,
    inner,
    indent: first.indent,
    startsWithKey: KEY_LINE.test(line),
  };
}

function readParts(
  source: Source,
  range: Range,
  { key, keyStart, inner, indent }: Parts,
  path: Path,
): readonly LocatedEntry[] {
  const { text, reading } = source;
  const innerPath = [...path, key];
  const entries = new Map<string, LocatedEntry>();
  let whole = true;
  for (const part of splitAtKeys(text, inner, indent)) {
    const spaces = leadingSpaces(text, part.start, part.end);
    if (spaces < indent && whole) tellIndent(text, part.start + spaces, innerPath, reading);
    const found = readBlock(source, part, innerPath);
    if (found.length === 0 || spaces < indent) whole = false;
    for (const entry of found) addOnce(entry, entries, innerPath, reading.problems);
  }
  const all = [...entries.values()];
  const end = all.at(-1)?.range.end ?? keyStart + key.length + 1;
  const start = all[0]?.range.start ?? end;
  const value: LocatedMap = { kind: 'map', entries, flow: false, range: { start, end } };
  if (!whole) reading.damaged.add(value);
  const keyRange = { start: keyStart, end: keyStart + key.length };
  return [{ key, keyRange, value, range: { start: keyStart, end: Math.min(end, range.end) } }];
}

function tellIndent(text: string, at: number, path: Path, { problems, holds }: Reading): void {
  const word = /^[^\s:]+/.exec(text.slice(at, at + 100))?.[0] ?? ' ';
  const message = 'this line is indented less than those that it belongs with';
  const range = { start: at, end: at + word.length };
  problems.push(problem('yaml/indentation', path, range, message));
  holds.push({ range, whole: true });
}

/** Keeps what was read before the fault. */
function readDamaged(
  document: Document.Parsed,
  error: YAMLParseError,
  part: string,
  range: Range,
  path: Path,
  reading: Reading,
): readonly LocatedEntry[] {
  const before = reading.problems.length;
  const tree = treeOf(document, part, range.start, path, reading);
  reading.problems.length = before; // what was noticed may come of the fault
  const told = syntaxProblem(error, part, range.start, path);
  reading.problems.push(told);
  reading.holds.push({ range, whole: !isLocal(error, part) });
  const limit = Math.min(told.range.start, error.pos[0] + range.start);
  const kept = tree === null ? null : soundPart(tree, limit, reading);
  return kept?.kind === 'map' ? [...kept.entries.values()] : [];
}

/** Within one line, and about brackets or quotes: what the other lines belong to is certain all the same. */
function isLocal({ message }: YAMLParseError, part: string): boolean {
  const lines = part.split('\n').filter((line) => /^\s*[^\s#]/.test(line));
  return lines.length === 1 && /flow|quote/i.test(message);
}

function soundPart(node: Located, limit: number, reading: Reading): Located | null {
  if (node.range.end < limit) return node;
  if (node.kind === 'scalar') return null;
  if (node.kind === 'list') {
    const items = node.items.filter((item) => item !== null && item.range.end < limit);
    const list = { ...node, items };
    reading.damaged.add(list);
    return list;
  }
  const entries = new Map<string, LocatedEntry>();
  for (const entry of node.entries.values()) {
    if (limit <= entry.keyRange.end) continue;
    const value = entry.value && soundPart(entry.value, limit, reading);
    const kept = { ...entry, value };
    if (value === null) reading.damaged.add(kept);
    entries.set(entry.key, kept);
  }
  const map: LocatedMap = { ...node, entries };
  reading.damaged.add(map);
  return map;
}
