// Reads a part of a file that one key starts. Where it is not YAML, reads its own parts one by one, to lose as little as possible.

import { type Document, parseDocument, type YAMLParseError } from 'yaml';
import type { Located, LocatedEntry, LocatedMap, Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Reading } from './reading.ts';
import { problem } from './reading.ts';
import { firstIndent, leadingSpaces, lineEnd, splitAtKeys } from './segments.ts';
import { syntaxProblem } from './syntaxProblem.ts';
import { treeOf } from './tree.ts';

/** `key:` alone in its line, what it holds being indented below it. */
const HEADER = /^ *([^\s#'"{[&*!?|>%@`][^\n:]*?) *:[ \t]*(?:#[^\n]*)?\r?\n/;

/**
 * @param range the part, from its key's line on
 * @returns the entries that it holds (usually one); faults and losses are put into `reading`
 */
export function readBlock(
  text: string,
  range: Range,
  path: Path,
  reading: Reading,
): readonly LocatedEntry[] {
  const part = text.slice(range.start, range.end);
  const document = parse(part);
  const [error] = document.errors;
  if (error === undefined)
    return entriesOf(treeOf(document, part, range.start, path, reading), path, reading);
  return (
    readInParts(text, range, path, reading) ??
    readDamaged(document, error, part, range, path, reading)
  );
}

function parse(part: string): Document.Parsed {
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
  path: Path,
  { problems }: Reading,
): readonly LocatedEntry[] {
  if (tree === null) return [];
  if (tree.kind === 'map') return [...tree.entries.values()];
  const word =
    tree.kind === 'scalar' && !tree.text.includes('\n')
      ? ` after \`${tree.text.slice(0, 60)}\``
      : '';
  problems.push(
    problem(
      'yaml/colon-missing',
      path,
      tree.range,
      `a colon is missing${word}: a key and its value are expected here`,
    ),
  );
  return [];
}

function readInParts(
  text: string,
  range: Range,
  path: Path,
  reading: Reading,
): readonly LocatedEntry[] | null {
  const header = HEADER.exec(text.slice(range.start, lineEnd(text, range.start, range.end)));
  if (header === null) return null;
  const own = leadingSpaces(text, range.start, range.end);
  const inner = { start: range.start + header[0].length, end: range.end };
  const indent = firstIndent(text, inner);
  if (indent === null || indent <= own) return null;

  const key = header[1] ?? '';
  const before = reading.problems.length;
  const entries = readParts(text, inner, indent, [...path, key], reading);
  if (reading.problems.length === before) return null;
  const keyStart = range.start + own;
  const parts = [...entries.values()];
  const end = parts.at(-1)?.range.end ?? keyStart + key.length + 1;
  const value: LocatedMap = {
    kind: 'map',
    entries,
    flow: false,
    range: { start: parts[0]?.range.start ?? end, end },
  };
  reading.damaged.add(value);
  return [
    {
      key,
      keyRange: { start: keyStart, end: keyStart + key.length },
      value,
      range: { start: keyStart, end },
    },
  ];
}

function readParts(
  text: string,
  inner: Range,
  indent: number,
  path: Path,
  reading: Reading,
): Map<string, LocatedEntry> {
  const entries = new Map<string, LocatedEntry>();
  for (const part of splitAtKeys(text, inner, indent)) {
    const spaces = leadingSpaces(text, part.start, part.end);
    if (spaces < indent) {
      const end = Math.max(part.start + 1, part.start + spaces);
      reading.problems.push(
        problem(
          'yaml/indentation',
          path,
          { start: part.start, end },
          'this line is indented less than those that it belongs with',
        ),
      );
    }
    for (const entry of readBlock(text, part, path, reading)) {
      const first = entries.get(entry.key);
      if (first === undefined) entries.set(entry.key, entry);
      else {
        reading.problems.push(
          problem(
            'yaml/duplicate-key',
            [...path, entry.key],
            entry.keyRange,
            `\`${entry.key}\` stands here twice; the first one counts`,
          ),
        );
      }
    }
  }
  return entries;
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
  const limit = Math.min(told.range.start, error.pos[0] + range.start);
  const kept = tree === null ? null : soundPart(tree, limit, reading);
  return kept?.kind === 'map' ? [...kept.entries.values()] : [];
}

function soundPart(node: Located, limit: number, reading: Reading): Located | null {
  if (node.range.end < limit) return node;
  if (node.kind === 'scalar') return null;
  if (node.kind === 'list') {
    const list = {
      ...node,
      items: node.items.filter((item) => item !== null && item.range.end < limit),
    };
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
