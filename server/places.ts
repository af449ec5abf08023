// Places: from a path to what stands there in a file, and the range that a remark or a jump points at.

import type { Located, LocatedEntry, Range } from '../schema/model/located.ts';
import type { ParsedFile } from '../schema/model/parsedFile.ts';
import type { Path } from '../schema/model/path.ts';

/** What stands at a path: an entry of a map (with its key) or an item of a list (without). */
export interface Place {
  readonly key: Range | null;
  readonly value: Located | null;
  readonly range: Range;
}

/** Exactly this path, or null where nothing stands there. */
export function placeOf({ root }: ParsedFile, path: Path): Place | null {
  if (root === null) return null;
  let place: Place = { key: null, value: root, range: root.range };
  for (const key of path) {
    const next = child(place.value, key);
    if (next === null) return null;
    place = next;
  }
  return place;
}

/** The longest start of the path that stands in the file; the empty path (the whole file) where nothing does. */
export function nearestPath(parsed: ParsedFile, path: Path): Path {
  for (let length = path.length; 0 < length; length -= 1) {
    const start = path.slice(0, length);
    if (placeOf(parsed, start)) return start;
  }
  return [];
}

/**
 * The range to underline or jump to: a value's own range on one line, a key where the value goes over several, and the first key
 * of the file for the empty path.
 */
export function rangeToShow(parsed: ParsedFile, path: Path): Range {
  const place = placeOf(parsed, nearestPath(parsed, path));
  if (place === null) return { start: 0, end: 0 };
  if (place.key === null) return firstLine(parsed, place.range);
  if (place.value === null) return place.key;
  return oneLine(parsed, place.value.range) ? place.value.range : place.key;
}

/** The range of the name at a path: its key, or the item of a list. */
export function nameRange(parsed: ParsedFile, path: Path): Range | null {
  const place = placeOf(parsed, path);
  return place === null ? null : (place.key ?? place.range);
}

export function entriesOf(value: Located | null | undefined): readonly LocatedEntry[] {
  return value?.kind === 'map' ? [...value.entries.values()] : [];
}

function child(value: Located | null, key: string): Place | null {
  if (value?.kind === 'map') {
    const entry = value.entries.get(key);
    return entry ? { key: entry.keyRange, value: entry.value, range: entry.range } : null;
  }
  if (value?.kind === 'list') {
    const item = value.items[Number(key)];
    return item ? { key: null, value: item, range: item.range } : null;
  }
  return null;
}

function oneLine({ text }: ParsedFile, { start, end }: Range): boolean {
  return !text.slice(start, end).trimEnd().includes('\n');
}

function firstLine({ text }: ParsedFile, { start, end }: Range): Range {
  const lineBreak = text.indexOf('\n', start);
  return { start, end: lineBreak === -1 ? end : Math.min(end, lineBreak) };
}
