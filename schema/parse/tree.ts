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
import { addOnce } from './doubles.ts';
import { joinDecimals, noticeCut, type Source, withoutColon } from './losses.ts';
import { problem, type Reading } from './reading.ts';
import { unsafeKey } from './unsafeKey.ts';

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
      last = withoutColon(entry, last, path, source);
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
    if (node?.range) reading.holds.push({ range: rangeOf(node, source), whole: false });
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
