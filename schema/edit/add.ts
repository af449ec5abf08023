// New entries: in braces behind the last one, in block style in lines of their own under the last one.

import { exampleText } from '../exampleText.ts';
import { entryAt, nodeAt } from '../locate.ts';
import type { LocatedList, LocatedMap } from '../model/located.ts';
import type { ParsedFile } from '../model/parsedFile.ts';
import type { Path } from '../model/path.ts';
import type { TextEdit } from '../model/problem.ts';
import { lineBreak, lineStart, lineStop } from './lines.ts';
import type { Removal } from './remove.ts';

/** Keys with what they are to hold: a value's text, or keys again. */
export type Tree = Map<string, string | Tree>;

/** Everything that is to be added under one place that is there already. */
export interface Addition {
  readonly parent: Path;
  readonly tree: Tree;
}

/** `replaced`: removals that an addition at the same place took in. */
export function addEntries(
  file: ParsedFile,
  additions: readonly Addition[],
  removal: Removal,
): { edits: readonly TextEdit[]; replaced: ReadonlySet<TextEdit> } {
  const replaced = new Set<TextEdit>();
  const edits = additions.map(({ parent, tree }) => {
    const edit = before(file.text, addition(file, parent, tree, removal), removal);
    const meets = removal.edits.find(
      ({ range }) => range.start === edit.range.start && range.start < range.end,
    );
    if (meets === undefined) return edit;
    replaced.add(meets);
    return { range: meets.range, text: edit.text + meets.text };
  });
  return { edits, replaced };
}

/** An addition under lines that go stands above them. */
function before(text: string, edit: TextEdit, removal: Removal): TextEdit {
  const { start, end } = edit.range;
  if (start < end) return edit;
  const lines = removal.edits.find(({ range }) => range.start < start && start <= range.end);
  return lines === undefined
    ? edit
    : before(text, insert(lineStop(text, lines.range.start - 1), edit.text), removal);
}

function addition(file: ParsedFile, parent: Path, tree: Tree, removal: Removal): TextEdit {
  const { text, root } = file;
  const node = nodeAt(root, parent);
  if (node === null) return underEmpty(file, parent, tree);
  if (node.kind === 'scalar') return { range: node.range, text: flowTree(tree) };
  const last = lastKept(node, removal);
  if (last === null)
    return { range: node.range, text: node.kind === 'list' ? flowItems(tree) : flowTree(tree) };
  if (node.kind === 'list') return addItems(text, node, last, tree);
  if (node.flow)
    return insert(last.end, [...tree].map(([key, value]) => `, ${flowEntry(key, value)}`).join(''));
  const first = [...node.entries.values()][0];
  const indent =
    first === undefined ? 0 : first.keyRange.start - lineStart(text, first.keyRange.start);
  return insert(
    blockEnd(text, last),
    blockLines(tree, indent, parent.length === 0, lineBreak(text)),
  );
}

function insert(at: number, text: string): TextEdit {
  return { range: { start: at, end: at }, text };
}

/** `seats:` with nothing behind it, or an empty file. */
function underEmpty({ text, root }: ParsedFile, parent: Path, tree: Tree): TextEdit {
  const entry = entryAt(root, parent);
  if (entry === null) {
    const lines = blockLines(tree, 0, true, lineBreak(text));
    const isFresh = text === '' || text.endsWith('\n');
    return insert(text.length, isFresh ? `${lines.trimStart()}${lineBreak(text)}` : lines);
  }
  const indent = entry.keyRange.start - lineStart(text, entry.keyRange.start) + 2;
  return insert(lineStop(text, entry.range.end), blockLines(tree, indent, false, lineBreak(text)));
}

/** The last entry or item that stays. */
function lastKept(
  node: LocatedMap | LocatedList,
  { gone }: Removal,
): { readonly start: number; readonly end: number } | null {
  const places =
    node.kind === 'map'
      ? [...node.entries.values()].filter((entry) => !gone.has(entry)).map(({ range }) => range)
      : node.items.flatMap((item) => (item === null || gone.has(item) ? [] : [item.range]));
  return places.at(-1) ?? null;
}

/** The end of the last line that the entry takes, with its comment. */
function blockEnd(text: string, { end }: { readonly end: number }): number {
  const inside = /\n[ \t]*$/.test(text.slice(0, end)) ? text.slice(0, end).trimEnd().length : end; // a block scalar ends with its line
  return lineStop(text, inside);
}

function addItems(
  text: string,
  list: LocatedList,
  last: { readonly start: number; readonly end: number },
  tree: Tree,
): TextEdit {
  const values = [...tree.values()].map(flowValue);
  if (list.flow) return insert(last.end, values.map((value) => `, ${value}`).join(''));
  const dash = text.slice(lineStart(text, last.start), last.start);
  return insert(
    blockEnd(text, last),
    values.map((value) => `${lineBreak(text)}${dash}${value}`).join(''),
  );
}

/** At the file's own level a record of records gets a line for each; elsewhere records are written in braces. */
function blockLines(tree: Tree, indent: number, isRoot: boolean, newLine: string): string {
  const spaces = ' '.repeat(indent);
  return [...tree]
    .map(([key, value]) => {
      if (!isRoot || typeof value === 'string')
        return `${newLine}${spaces}${flowEntry(key, value)}`;
      return `${newLine}${spaces}${exampleText(key)}:${blockLines(value, indent + 2, false, newLine)}`;
    })
    .join('');
}

function flowEntry(key: string, value: string | Tree): string {
  return `${exampleText(key)}: ${flowValue(value)}`;
}

function flowValue(value: string | Tree): string {
  return typeof value === 'string' ? value : flowTree(value);
}

function flowTree(tree: Tree): string {
  return `{ ${[...tree].map(([key, value]) => flowEntry(key, value)).join(', ')} }`;
}

function flowItems(tree: Tree): string {
  return `[${[...tree.values()].map(flowValue).join(', ')}]`;
}
