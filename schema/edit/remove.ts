// Entries taken away: with their line in block style, with their comma in braces, with the record that they leave empty.

import { entryAt, nodeAt } from '../locate.ts';
import type { LocatedList, LocatedMap, Range } from '../model/located.ts';
import type { ParsedFile } from '../model/parsedFile.ts';
import type { Path } from '../model/path.ts';
import type { TextEdit } from '../model/problem.ts';
import { lineStart, lineStop } from './lines.ts';

export interface Removal {
  readonly edits: readonly TextEdit[];
  /** The entries and items that go. */
  readonly gone: ReadonlySet<object>;
}

/** null where a path is gone already. */
export function removeEntries(file: ParsedFile, paths: readonly Path[]): Removal | null {
  const gone = new Set<object>();
  for (const path of paths) {
    const thing = thingAt(file, path);
    if (thing === null) return null;
    gone.add(thing);
  }
  const homes = new Map<string, Path>();
  for (const path of paths.map((one) => emptied(file, one, gone))) {
    const thing = thingAt(file, path);
    if (thing !== null) gone.add(thing);
    homes.set(JSON.stringify(path.slice(0, -1)), path.slice(0, -1));
  }
  const edits = [...homes.values()].flatMap((home) => {
    const node = nodeAt(file.root, home);
    return node === null || node.kind === 'scalar' ? [] : removals(file.text, node, gone);
  });
  return { edits: outermost(edits), gone };
}

function thingAt({ root }: ParsedFile, path: Path): object | null {
  return (
    entryAt(root, path) ??
    (nodeAt(root, path.slice(0, -1))?.kind === 'list' ? nodeAt(root, path) : null)
  );
}

/** The path, or that of the record which would be left with nothing in it. */
function emptied(file: ParsedFile, path: Path, gone: Set<object>): Path {
  const home = path.slice(0, -1);
  const node = nodeAt(file.root, home);
  if (home.length === 0 || node === null || node.kind === 'scalar') return path;
  if (thingsOf(node).some(({ thing }) => !gone.has(thing))) return path;
  const thing = thingAt(file, home);
  if (thing !== null) gone.add(thing);
  return emptied(file, home, gone);
}

interface Thing {
  readonly thing: object;
  readonly range: Range;
}

function thingsOf(node: LocatedMap | LocatedList): readonly Thing[] {
  if (node.kind === 'map')
    return [...node.entries.values()].map((entry) => ({ thing: entry, range: entry.range }));
  return node.items.flatMap((item) => (item === null ? [] : [{ thing: item, range: item.range }]));
}

function removals(
  text: string,
  node: LocatedMap | LocatedList,
  gone: ReadonlySet<object>,
): readonly TextEdit[] {
  const things = thingsOf(node);
  if (!node.flow)
    return things
      .filter(({ thing }) => gone.has(thing))
      .map(({ range }) => ({ range: wholeLines(text, range), text: '' }));
  const edits: TextEdit[] = [];
  for (let index = 0; index < things.length; index++) {
    const first = things[index];
    if (first === undefined || !gone.has(first.thing)) continue;
    let last = first;
    for (
      let next = things[index + 1];
      next !== undefined && gone.has(next.thing);
      next = things[index + 1]
    ) {
      last = next;
      index++;
    }
    const before = things[things.indexOf(first) - 1];
    const after = things[index + 1];
    const range =
      after !== undefined
        ? { start: first.range.start, end: after.range.start }
        : { start: before?.range.end ?? first.range.start, end: last.range.end };
    edits.push({ range, text: '' });
  }
  return edits;
}

/** From the line's start to the next line's; the file's last line takes the line break before it. */
function wholeLines(text: string, { start, end }: Range): Range {
  const inside = text.slice(start, end).trimEnd().length + start;
  const stop = lineStop(text, inside);
  const from = lineStart(text, start);
  const next = text.indexOf('\n', stop);
  if (0 <= next) return { start: from, end: next + 1 };
  return { start: Math.max(0, from - 1), end: text.length };
}

function outermost(edits: readonly TextEdit[]): readonly TextEdit[] {
  return edits.filter(
    (edit, index) =>
      !edits.some(
        (other, at) =>
          at !== index &&
          holds(other.range, edit.range) &&
          (!holds(edit.range, other.range) || at < index),
      ),
  );
}

function holds(outer: Range, inner: Range): boolean {
  return outer.start <= inner.start && inner.end <= outer.end;
}
