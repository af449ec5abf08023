// Between paths and places: what stands at a path, and which path a place in the text belongs to.

import type { Located, LocatedEntry, Range } from './model/located.ts';
import type { Path } from './model/path.ts';

/** The value at a path; null where nothing stands there. */
export function nodeAt(root: Located | null, path: Path): Located | null {
  let node = root;
  for (const key of path) node = childAt(node, key);
  return node;
}

/** The entry of a map at a path; null for the root, for items of a list, and where nothing stands there. */
export function entryAt(root: Located | null, path: Path): LocatedEntry | null {
  const key = path.at(-1);
  const map = key === undefined ? null : nodeAt(root, path.slice(0, -1));
  return map?.kind === 'map' && key !== undefined ? (map.entries.get(key) ?? null) : null;
}

/** The range of the value at a path, or of its key where it has no value; null where nothing stands there. */
export function rangeOf(root: Located | null, path: Path): Range | null {
  return nodeAt(root, path)?.range ?? entryAt(root, path)?.keyRange ?? null;
}

export interface Cursor {
  /** To the innermost key or item that the place belongs to. */
  readonly path: Path;
  /** `gap`: on the colon, between entries of a map or items of a list. */
  readonly on: 'key' | 'value' | 'gap';
  /** Of the key or the scalar that the cursor is on; of the innermost entry in a gap. */
  readonly range: Range;
}

/** What is at a place in the text; an end counts, since that is where a cursor stands behind a word. */
export function cursorAt(root: Located | null, offset: number): Cursor | null {
  if (root === null || !holds(root.range, offset)) return null;
  let at: Cursor = { path: [], on: 'gap', range: root.range };
  for (let node: Located | null = root; node !== null && node.kind !== 'scalar'; ) {
    const step: Step | null =
      node.kind === 'map' ? entryStep(node.entries.values(), offset) : itemStep(node.items, offset);
    if (step === null) return at;
    at = { path: [...at.path, step.key], on: step.on, range: step.range };
    if (step.on === 'key') return at;
    node = step.value;
  }
  return at;
}

interface Step {
  readonly key: string;
  readonly value: Located | null;
  readonly on: Cursor['on'];
  readonly range: Range;
}

function entryStep(entries: Iterable<LocatedEntry>, offset: number): Step | null {
  for (const { key, keyRange, value, range } of entries) {
    if (holds(keyRange, offset)) return { key, value, on: 'key', range: keyRange };
    if (!holds(range, offset)) continue;
    if (value === null || !holds(value.range, offset))
      return { key, value: null, on: 'gap', range };
    return valueStep(key, value);
  }
  return null;
}

function itemStep(items: readonly (Located | null)[], offset: number): Step | null {
  const index = items.findIndex((item) => item !== null && holds(item.range, offset));
  const item = items[index];
  return item ? valueStep(String(index), item) : null;
}

function valueStep(key: string, value: Located): Step {
  return { key, value, on: value.kind === 'scalar' ? 'value' : 'gap', range: value.range };
}

function childAt(node: Located | null, key: string): Located | null {
  if (node?.kind === 'map') return node.entries.get(key)?.value ?? null;
  return node?.kind === 'list' ? (node.items[Number(key)] ?? null) : null;
}

function holds({ start, end }: Range, offset: number): boolean {
  return start <= offset && offset <= end;
}
