// An alternative's changes, held against the schema as they lie over the room.

import { rootSchema, stepInto } from '../describe.ts';
import type { Located, LocatedEntry, LocatedMap } from '../model/located.ts';
import type { Problem } from '../model/problem.ts';
import { overlay } from '../overlay.ts';
import { validators } from '../validators.generated.js';
import { newReading } from './reading.ts';
import { checkShape } from './shape.ts';

/** The problems of what alternatives change; what is wrong with the room itself is told there. */
export function alternativesProblems(
  root: LocatedMap,
  uncertain: ReadonlySet<string>,
): readonly Problem[] {
  if (uncertain.has('alternatives')) return [];
  const alternatives = root.entries.get('alternatives')?.value;
  if (alternatives?.kind !== 'map') return [];
  return [...alternatives.entries.values()].flatMap(({ key, value }) => {
    const change = value?.kind === 'map' ? value.entries.get('change')?.value : null;
    if (change?.kind !== 'map') return [];
    const certain = [...change.entries.values()].filter((entry) => !uncertain.has(entry.key));
    return changeProblems(root, certain, ['alternatives', key, 'change']);
  });
}

function changeProblems(
  root: LocatedMap,
  changed: readonly LocatedEntry[],
  path: readonly string[],
): readonly Problem[] {
  const schema = rootSchema('room');
  return changed.flatMap((entry) => {
    const below = stepInto(schema, entry.key);
    const validator = Object.hasOwn(validators.room.keys, entry.key)
      ? validators.room.keys[entry.key]
      : undefined;
    if (below === null || validator === undefined || entry.value === null) return [];
    const merged: Located | null = overlay(
      root.entries.get(entry.key)?.value ?? null,
      entry.value,
      below,
    );
    if (merged === null) return [];
    const reading = newReading();
    checkShape(merged, entry, below, [entry.key], validator, reading);
    return reading.problems
      .filter(({ range }) => isInside(entry, range.start))
      .filter((one) => !isNothingToChange(root, one))
      .map((one) => ({ ...one, path: [...path, ...one.path] }));
  });
}

/**
 * A thing that the room does not have and that is not written out: its name is what is wrong, and resolve tells that with the
 * names that the room has.
 */
function isNothingToChange(root: LocatedMap, { code, path }: Problem): boolean {
  if (code !== 'format/one-of' && code !== 'format/missing-key') return false;
  const named = path.length === 2 || (path.length === 3 && path[1] === 'fixtures');
  return named && locate(root, path) === null;
}

function locate(root: LocatedMap, path: readonly string[]): LocatedEntry | null {
  let map: LocatedMap | null = root;
  let entry: LocatedEntry | null = null;
  for (const key of path) {
    entry = map?.entries.get(key) ?? null;
    map = entry?.value?.kind === 'map' ? entry.value : null;
  }
  return entry;
}

function isInside({ range }: LocatedEntry, offset: number): boolean {
  return range.start <= offset && offset <= range.end;
}
