// Turns the YAML library's nodes into the located tree, and notices what YAML would lose without a word.

import {
  type Document,
  isAlias,
  isMap,
  isPair,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  Scalar,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import type {
  Located,
  LocatedEntry,
  LocatedList,
  LocatedMap,
  LocatedScalar,
  Range,
} from '../model/located.ts';
import type { Path } from '../model/path.ts';
import { quoted } from '../quote.ts';
import { addOnce } from './doubles.ts';
import { fix, problem, type Reading } from './reading.ts';
import { unsafeKey } from './unsafeKey.ts';

interface Source {
  /** The text that the library read. */
  readonly text: string;
  /** Where it starts in the file. */
  readonly base: number;
  readonly reading: Reading;
}

/** The tree of a document's content; null where it has none that this format can use. */
export function treeOf(
  document: Document.Parsed,
  text: string,
  base: number,
  path: Path,
  reading: Reading,
): Located | null {
  const { contents } = document;
  if (contents === null) return null;
  return readNode(contents as Node, path, { text, base, reading }, []);
}

interface Token {
  readonly type: string;
  readonly offset: number;
  readonly source?: string;
}

/** @param props what stands before the node: anchors and tags among white space */
function readNode(node: Node, path: Path, source: Source, props: readonly Token[]): Located | null {
  if (isAlias(node)) {
    decorate('alias', node.source, rangeOf(node, source), path, null, source);
    return null;
  }
  const located = readPlainNode(node, path, source);
  for (const { type, offset, source: written = '' } of props) {
    if (type !== 'anchor' && type !== 'tag') continue;
    const start = offset + source.base;
    decorate(type, written.slice(1), { start, end: start + written.length }, path, located, source);
  }
  return located;
}

function readPlainNode(node: Node, path: Path, source: Source): Located | null {
  if (isMap(node)) return readMap(node, path, source);
  if (isSeq(node)) return readList(node, path, source);
  return isScalar(node) ? readScalar(node, source) : null;
}

function decorate(
  kind: 'anchor' | 'alias' | 'tag' | 'merge',
  name: string,
  range: Range,
  path: Path,
  node: Located | null,
  source: Source,
): void {
  source.reading.decorations.push({ kind, name, path, range, node });
}

function rangeOf(node: Node, { base }: Source): Range {
  const [start, end] = node.range ?? [0, 0];
  return { start: start + base, end: end + base };
}

const STYLES: Readonly<Record<string, LocatedScalar['style']>> = {
  [Scalar.QUOTE_SINGLE]: 'single',
  [Scalar.QUOTE_DOUBLE]: 'double',
  [Scalar.BLOCK_FOLDED]: 'block',
  [Scalar.BLOCK_LITERAL]: 'block',
};

function readScalar(node: Scalar, source: Source): LocatedScalar | null {
  const range = rangeOf(node, source);
  const style = STYLES[node.type ?? ''] ?? 'plain';
  if (style === 'plain' && range.start === range.end) return null;
  const scalar: LocatedScalar = { kind: 'scalar', text: String(node.value ?? ''), style, range };
  if (style === 'plain') noticeCut(scalar, source);
  return scalar;
}

/** A comment without a space behind its `#`, or with nothing but a number, is likely a part of the text. */
function noticeCut(scalar: LocatedScalar, { text, base, reading }: Source): void {
  const from = scalar.range.end - base;
  if (text[from] !== ' ' && text[from] !== '\t') return;
  const match = /^[ \t]+#(?:[^\s#][^\n\r]*|[ \t]+\d+[ \t]*(?=[\n\r]|$))/.exec(
    text.slice(from, from + 500),
  );
  if (match)
    reading.cuts.set(scalar, { scalar, end: scalar.range.end + match[0].trimEnd().length });
}

function readList(node: YAMLSeq, path: Path, source: Source): LocatedList {
  const tokens = itemTokens(node);
  const items = node.items.map((item, index) => {
    if (isPair(item)) return null;
    return readNode(item as Node, [...path, String(index)], source, tokens[index]?.start ?? []);
  });
  return {
    kind: 'list',
    items: node.flow ? joinDecimals(items, source) : items,
    flow: node.flow === true,
    range: rangeOf(node, source),
  };
}

/** `[0,95 m, 2 m]`: a comma between digits without a space was meant as a decimal sign. */
function joinDecimals(
  items: readonly (Located | null)[],
  { text, base }: Source,
): readonly (Located | null)[] {
  const joined: (Located | null)[] = [];
  for (const item of items) {
    const before = joined.at(-1);
    if (
      item?.kind === 'scalar' &&
      before?.kind === 'scalar' &&
      /^[-+]?\d+$/.test(before.text) &&
      /^\d+\s*[^\d\s.,]/.test(item.text) &&
      text.slice(before.range.end - base, item.range.start - base) === ','
    ) {
      joined[joined.length - 1] = joinedScalar(before, item.range.end, { text, base });
    } else joined.push(item);
  }
  return joined;
}

interface ItemTokens {
  readonly start: readonly Token[];
  readonly sep?: readonly Token[];
}

function itemTokens(node: YAMLMap | YAMLSeq): readonly ItemTokens[] {
  const token = node.srcToken;
  return token !== undefined && 'items' in token ? (token.items as readonly ItemTokens[]) : [];
}

function readMap(node: YAMLMap, path: Path, source: Source): LocatedMap {
  const entries = new Map<string, LocatedEntry>();
  let last: LocatedEntry | null = null;
  for (const pair of node.items) {
    const entry = readPair(pair, path, source);
    if (entry === null) continue;
    if (node.flow && !entry.colon) {
      const changed: LocatedEntry | null = withoutColon(entry, last, path, source);
      if (changed === null) continue;
      last = changed;
      entries.set(last.key, last);
      continue;
    }
    const { colon, isAliased, ...located } = entry;
    if (isAliased) source.reading.damaged.add(located);
    last = addOnce(located, entries, path, source.reading.problems) ? located : null;
    if (last === null) continue;
    if (located.value === null && colon && !isAliased)
      source.reading.emptyAt.set(located, colon.end);
  }
  return { kind: 'map', entries, flow: node.flow === true, range: rangeOf(node, source) };
}

type PairEntry = LocatedEntry & { readonly colon: Range | null; readonly isAliased: boolean };

function readPair(pair: Pair, path: Path, source: Source): PairEntry | null {
  const { reading, base } = source;
  const { key: keyNode, value: valueNode } = pair;
  const token = pair.srcToken as { start?: readonly Token[]; sep?: readonly Token[] } | undefined;
  if (!isScalar(keyNode) || keyNode.value === null || keyNode.range?.[0] === keyNode.range?.[1]) {
    const node = (keyNode ?? valueNode) as Node | null;
    if (isAlias(node)) decorate('alias', node.source, rangeOf(node, source), path, null, source);
    else if (node?.range)
      reading.problems.push(
        problem(
          'yaml/odd-key',
          path,
          rangeOf(node, source),
          'a key is one word, or one quantity, before a colon',
        ),
      );
    return null;
  }
  const key = String(keyNode.value);
  const keyRange = rangeOf(keyNode, source);
  if (key === '<<') {
    decorate(
      'merge',
      isAlias(valueNode) ? valueNode.source : '',
      rangeWith(keyRange, valueNode, source),
      path,
      null,
      source,
    );
    return null;
  }
  for (const { type, offset, source: written = '' } of token?.start ?? []) {
    if (type !== 'anchor' && type !== 'tag') continue;
    decorate(
      type,
      written.slice(1),
      { start: offset + base, end: offset + base + written.length },
      path,
      null,
      source,
    );
  }
  const sep = token?.sep ?? [];
  const colon = sep.find(({ type }) => type === 'map-value-ind');
  const value =
    valueNode === null ? null : readNode(valueNode as Node, [...path, key], source, sep);
  const entry: PairEntry = {
    key,
    keyRange,
    value,
    range: {
      start: keyRange.start,
      end: value?.range.end ?? (colon ? colon.offset + base + 1 : keyRange.end),
    },
    colon: colon ? { start: colon.offset + base, end: colon.offset + base + 1 } : null,
    isAliased: isAlias(valueNode),
  };
  const isWord = colon === undefined; // of a value that a comma cut, perhaps
  return isWord || isSafeKey(entry, [...path, key], reading) ? entry : null;
}

function rangeWith(range: Range, node: unknown, source: Source): Range {
  const end = (node as Node | null)?.range?.[1];
  return end === undefined ? range : { start: range.start, end: end + source.base };
}

function isSafeKey({ key, keyRange }: LocatedEntry, path: Path, { problems }: Reading): boolean {
  const message = unsafeKey(key);
  if (message !== null) problems.push(problem('yaml/unsafe-key', path, keyRange, message));
  return message === null;
}

/**
 * A word in braces without a colon: the rest of a value that a comma cut (`fixed, until lease ends`; `1,38 m`), a key and value
 * without a space (`63 Hz:0.42 s`), or a key that has no value yet.
 */
function withoutColon(
  entry: PairEntry,
  last: LocatedEntry | null,
  path: Path,
  source: Source,
): LocatedEntry | null {
  const { reading } = source;
  const tight = TIGHT.exec(entry.key);
  const written = source.text.slice(
    entry.keyRange.start - source.base,
    entry.keyRange.end - source.base,
  );
  if (tight !== null && written === entry.key)
    return spaceMissing(entry.keyRange, tight[1] ?? '', path, source);
  if (last?.value?.kind === 'scalar' && last.value.style === 'plain') {
    return joinCut(last, last.value, entry, [...path, last.key], source);
  }
  const at = entry.keyRange.end;
  reading.problems.push(
    problem(
      'yaml/colon-missing',
      [...path, entry.key],
      entry.keyRange,
      `a colon and a value are missing after \`${entry.key}\``,
      [fix(`Add \`: unknown\``, { start: at, end: at }, ': unknown')],
    ),
  );
  const { colon: _, isAliased: __, ...located } = entry;
  reading.damaged.add(located);
  return located;
}

/** A key and a value with no space behind the colon between them. */
const TIGHT = /^([^:\n]*[^:\s]):(?=\S)/;

/** A line without a space behind its colon, which YAML takes for one word; null where that is not what it is. */
export function tightEntry(
  { text: word, range, style }: LocatedScalar,
  path: Path,
  text: string,
  base: number,
  reading: Reading,
): LocatedEntry | null {
  const key = /^[a-z][a-z0-9_]*(?=:[^\s:/])/.exec(word)?.[0];
  if (key === undefined || style !== 'plain' || word.includes('\n')) return null;
  return spaceMissing(range, key, path, { text, base, reading });
}

function spaceMissing(
  whole: Range,
  key: string,
  path: Path,
  { text, base, reading }: Source,
): LocatedEntry {
  const { start, end } = whole;
  const valueStart = start + key.length + 1;
  const message = `a space is missing after the colon of \`${key}\``;
  reading.problems.push(
    problem('yaml/space-after-colon', [...path, key], whole, message, [
      fix('Put a space after the colon', { start: valueStart, end: valueStart }, ' ', true),
    ]),
  );
  const value: LocatedScalar = {
    kind: 'scalar',
    text: text.slice(valueStart - base, end - base),
    style: 'plain',
    range: { start: valueStart, end },
  };
  const located = { key, keyRange: { start, end: start + key.length }, value, range: whole };
  reading.damaged.add(value);
  return located;
}

function joinCut(
  last: LocatedEntry,
  before: LocatedScalar,
  entry: PairEntry,
  path: Path,
  source: Source,
): LocatedEntry {
  const value = joinedScalar(before, entry.keyRange.end, source);
  const joined = { ...last, value, range: { start: last.range.start, end: value.range.end } };
  const { reading } = source;
  if (/^[-+]?\d+$/.test(before.text) && /^\d/.test(entry.key)) return joined; // 1,38 m: told as a decimal comma
  const told = `the comma ends the value of \`${last.key}\` here: put \`${value.text}\` in quotes`;
  const repeated = reading.problems.findLastIndex(
    ({ code, range }) => code === 'yaml/comma-in-value' && range.start === value.range.start,
  );
  if (0 <= repeated) reading.problems.splice(repeated, 1);
  reading.problems.push(
    problem('yaml/comma-in-value', path, value.range, told, [
      fix('Put the value in quotes', value.range, quoted(value.text), true),
    ]),
  );
  reading.damaged.add(value);
  return joined;
}

function joinedScalar(
  before: LocatedScalar,
  end: number,
  { text, base }: Pick<Source, 'text' | 'base'>,
): LocatedScalar {
  const range = { start: before.range.start, end };
  return { ...before, text: text.slice(range.start - base, end - base), range };
}
