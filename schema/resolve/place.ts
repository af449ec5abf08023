// A place: one spot of the located tree together with its path, whether or not anything is written there.

import type { Located, LocatedMap, LocatedScalar, Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';

export interface Place {
  readonly path: Path;
  /** null where nothing is written, or nothing that could be read. */
  readonly value: Located | null;
  /** The key's place in the text; null for list items, the root, and where the key is not there. */
  readonly key: Range | null;
}

/** The whole file as a place. */
export function rootPlace(root: Located | null): Place {
  return { path: [], value: root, key: null };
}

/** The place of `key` under a map; an empty place where there is no map or no such key. */
export function below(place: Place, key: string): Place {
  const entry = place.value?.kind === 'map' ? place.value.entries.get(key) : undefined;
  return {
    path: [...place.path, key],
    value: entry?.value ?? null,
    key: entry?.keyRange ?? null,
  };
}

/** The place at the end of several keys. */
export function belowAll(place: Place, keys: readonly string[]): Place {
  return keys.reduce(below, place);
}

export interface NamedPlace extends Place {
  readonly name: string;
  readonly key: Range;
}

/** The entries of a map in the file's order, without notes and keys of the user's own (`x_…`). */
export function entriesOf(place: Place): readonly NamedPlace[] {
  const map = mapOf(place);
  if (map === null) return [];
  const entries: NamedPlace[] = [];
  for (const [name, entry] of map.entries) {
    if (name === 'note' || name.startsWith('x_')) continue;
    entries.push({ name, path: [...place.path, name], value: entry.value, key: entry.keyRange });
  }
  return entries;
}

/** The items of a list, each under its position. Items that could not be read are left out; the positions stay. */
export function itemsOf(place: Place): readonly Place[] {
  if (place.value?.kind !== 'list') return [];
  const items: Place[] = [];
  place.value.items.forEach((value, index) => {
    if (value !== null) items.push({ path: [...place.path, String(index)], value, key: null });
  });
  return items;
}

export function mapOf(place: Place): LocatedMap | null {
  return place.value?.kind === 'map' ? place.value : null;
}

export function scalarOf(place: Place): LocatedScalar | null {
  return place.value?.kind === 'scalar' ? place.value : null;
}

/** Looked at and not settled. */
export function isUnknown(place: Place): boolean {
  const scalar = scalarOf(place);
  return scalar !== null && scalar.style === 'plain' && scalar.text === 'unknown';
}

/** A scalar's text; null where there is none, or `unknown`. */
export function textOf(place: Place): string | null {
  const scalar = scalarOf(place);
  return scalar === null || isUnknown(place) ? null : scalar.text;
}

/** Where to point at: the value, or else the key; null where neither is written. */
export function rangeOf(place: Place): Range | null {
  return place.value?.range ?? place.key;
}
