// Anchors, aliases, merge keys and tags: refused, with a fix that writes the values out.

import { exampleText } from '../exampleText.ts';
import type { Located, LocatedMap, Range } from '../model/located.ts';
import type { Problem, TextEdit, TextFix } from '../model/problem.ts';
import { quoted } from '../quote.ts';
import { type Decoration, fix, problem } from './reading.ts';

/** A text that would grow beyond this is not offered: aliases of aliases can be made to grow without end. */
const MOST_EXPANDED = 20_000;

/** One problem for each of them, in the file's order. */
export function decorationProblems(
  text: string,
  decorations: readonly Decoration[],
): readonly Problem[] {
  if (decorations.length === 0) return [];
  const anchors = new Map(
    decorations.filter(({ kind }) => kind === 'anchor').map((one) => [one.name, one]),
  );
  const expandAll = expandFix(text, decorations, anchors);
  return decorations.map((one) => {
    if (one.kind === 'tag') {
      const range = withSpace(text, one.range);
      return problem(
        'yaml/tag',
        one.path,
        one.range,
        'tags are not used here: the format says what each value is',
        [fix('Remove the tag', range, '', true)],
      );
    }
    return problem(
      'yaml/anchor',
      one.path,
      one.range,
      WORDS[one.kind],
      expandAll === null ? [] : [expandAll],
    );
  });
}

const WORDS: Readonly<Record<'anchor' | 'alias' | 'merge', string>> = {
  anchor: 'anchors are not used here: a change at one place would be one at another',
  alias: 'aliases are not used here: write the values out',
  merge: 'merge keys are not used here: write the values out',
};

function expandFix(
  text: string,
  decorations: readonly Decoration[],
  anchors: ReadonlyMap<string, Decoration>,
): TextFix | null {
  const edits: TextEdit[] = [];
  for (const one of decorations) {
    if (one.kind === 'anchor') edits.push({ range: withSpace(text, one.range), text: '' });
    if (one.kind !== 'alias' && one.kind !== 'merge') continue;
    const target = anchors.get(one.name)?.node;
    const written = target == null ? null : writeOut(text, target, one.kind);
    if (written === null) return null;
    edits.push({ range: one.range, text: written });
  }
  // What is written out must not hold another of them, or the fix would not be done in one go.
  const inside = [...anchors.values()].some(({ node }) =>
    decorations.some(
      ({ kind, range }) =>
        kind !== 'tag' &&
        node !== null &&
        node.range.start <= range.start &&
        range.end <= node.range.end,
    ),
  );
  if (inside) return null;
  return { title: 'Write all aliased values out', edits, safe: false };
}

function writeOut(text: string, node: Located, kind: 'alias' | 'merge'): string | null {
  const written =
    kind === 'merge' ? (node.kind === 'map' ? entriesText(node) : null) : flowText(node);
  return written === null || MOST_EXPANDED < written.length || text.length < written.length
    ? null
    : written;
}

/** Merged entries take the merge key's place in braces; in block style they would need lines of their own. */
function entriesText(map: LocatedMap): string | null {
  if (!map.flow) return null;
  return [...map.entries.values()]
    .map(({ key, value }) => `${exampleText(key)}: ${value === null ? '' : flowText(value)}`)
    .join(', ');
}

/** A node as a flow value in one line. */
export function flowText(node: Located): string {
  if (node.kind === 'scalar')
    return node.style === 'plain' && !node.text.includes('\n') ? node.text : quoted(node.text);
  if (node.kind === 'list')
    return `[${node.items.map((item) => (item === null ? '' : flowText(item))).join(', ')}]`;
  const entries = [...node.entries.values()].map(
    ({ key, value }) => `${exampleText(key)}:${value === null ? '' : ` ${flowText(value)}`}`,
  );
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

function withSpace(text: string, { start, end }: Range): Range {
  return { start, end: text[end] === ' ' ? end + 1 : end };
}
