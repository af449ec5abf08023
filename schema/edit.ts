// Edits by meaning as edits of the text: what is not meant keeps its comments, order and layout to the letter.

import { type Addition, addEntries } from './edit/add.ts';
import { removeEntries } from './edit/remove.ts';
import { valueText } from './edit/valueText.ts';
import { entryAt, nodeAt } from './locate.ts';
import type { LocatedEntry } from './model/located.ts';
import type { ParsedFile } from './model/parsedFile.ts';
import { isAtOrBelow, type Path } from './model/path.ts';
import type { TextEdit } from './model/problem.ts';

/** Let a value stand at a path (`75 Hz`, `{ frequency: 75 Hz }`), or let nothing stand there. */
export type MeaningEdit =
  | { readonly do: 'set'; readonly path: Path; readonly value: string }
  | { readonly do: 'remove'; readonly path: Path };

/**
 * All of the edits together, for the text as it was read.
 *
 * @returns edits that do not overlap, in the text's order; null where a path to be removed is gone, where two edits contradict each
 * other, or where the part of the text cannot be read, so that nothing half-right is written
 */
export function editText(
  file: ParsedFile,
  edits: readonly MeaningEdit[],
): readonly TextEdit[] | null {
  const removed = edits.filter((edit) => edit.do === 'remove').map(({ path }) => path);
  const sets = edits.filter((edit) => edit.do === 'set');
  if (edits.some(({ path }) => path.length === 0 || isBroken(file, path))) return null;
  if (
    sets.some(({ path }) =>
      removed.some((gone) => isAtOrBelow(path, gone) || isAtOrBelow(gone, path)),
    )
  )
    return null;

  const additions = new Map<string, Addition>();
  const texts: TextEdit[] = [];
  for (const { path, value } of sets) {
    const text = valueText(file.kind, path, value, file.root);
    const node = nodeAt(file.root, path);
    const entry = entryAt(file.root, path);
    if (node !== null) texts.push({ range: node.range, text });
    else if (entry !== null) texts.push(fillEmpty(entry, text));
    else if (!collect(file, path, text, additions)) return null;
  }
  const taken = removeEntries(file, removed);
  if (taken === null) return null;
  const added = addEntries(file, deepestFirst(additions), taken);
  return joined([
    ...texts,
    ...added.edits,
    ...taken.edits.filter((edit) => !added.replaced.has(edit)),
  ]);
}

function fillEmpty({ range: { end } }: LocatedEntry, text: string): TextEdit {
  return { range: { start: end, end }, text: ` ${text}` };
}

/** Puts a value that has no place yet under the nearest place that there is. False where that is a list that it does not fit. */
function collect(
  { root }: ParsedFile,
  path: Path,
  text: string,
  additions: Map<string, Addition>,
): boolean {
  let depth = path.length - 1;
  while (
    0 < depth &&
    nodeAt(root, path.slice(0, depth)) === null &&
    entryAt(root, path.slice(0, depth)) === null
  )
    depth--;
  const parent = path.slice(0, depth);
  const id = JSON.stringify(parent);
  const addition = additions.get(id) ?? { parent, tree: new Map() };
  additions.set(id, addition);
  const node = nodeAt(root, parent);
  if (
    node?.kind === 'list' &&
    (depth !== path.length - 1 || Number(path[depth]) !== node.items.length + addition.tree.size)
  ) {
    return false; // only the next item fits
  }
  let tree = addition.tree;
  for (const key of path.slice(depth, -1)) {
    const below = tree.get(key) ?? new Map();
    if (typeof below === 'string') return false;
    tree.set(key, below);
    tree = below;
  }
  tree.set(path.at(-1) ?? '', text);
  return true;
}

/** Whether the root's part that the path leads into could not be read whole. */
function isBroken({ problems }: ParsedFile, [key]: Path): boolean {
  return problems.some(
    ({ code, path }) => (code === 'yaml/syntax' || code === 'yaml/indentation') && path[0] === key,
  );
}

/** Where several end at one place, the inner one's lines come first. */
function deepestFirst(additions: ReadonlyMap<string, Addition>): readonly Addition[] {
  return [...additions.values()].sort((a, b) => b.parent.length - a.parent.length);
}

function joined(edits: readonly TextEdit[]): readonly TextEdit[] | null {
  const sorted = [...edits].sort(
    (a, b) => a.range.start - b.range.start || a.range.end - b.range.end,
  );
  const done: TextEdit[] = [];
  for (const edit of sorted) {
    const last = done.at(-1);
    if (last !== undefined && edit.range.start < last.range.end) return null;
    const isSamePlace = last?.range.start === edit.range.start && last.range.end === edit.range.end;
    if (last !== undefined && isSamePlace) {
      done[done.length - 1] = { range: edit.range, text: last.text + edit.text };
    } else done.push(edit);
  }
  return done;
}
