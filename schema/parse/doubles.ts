// Keys that stand twice in a map: the first one counts, and the second one is told.

import type { LocatedEntry } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Problem } from '../model/problem.ts';
import { problem } from './reading.ts';

/** @param path of the map */
export function addOnce(
  entry: LocatedEntry,
  entries: Map<string, LocatedEntry>,
  path: Path,
  problems: Problem[],
): boolean {
  const { key, keyRange } = entry;
  if (!entries.has(key)) {
    entries.set(key, entry);
    return true;
  }
  const inner = [...path, key];
  problems.push({
    ...problem(
      'yaml/duplicate-key',
      inner,
      keyRange,
      `\`${key}\` stands here twice; the first one counts`,
    ),
    related: [{ path: inner, message: `the first \`${key}\`` }],
  });
  return false;
}
