// The file that a room would be if one of its alternatives were built.

import { rootSchema } from '../describe.ts';
import type { ParsedFile } from '../model/parsedFile.ts';
import { isAtOrBelow } from '../model/path.ts';
import { overlay } from '../overlay.ts';
import { below, mapOf, type NamedPlace, type Place } from './place.ts';

/**
 * The overlay laid over the room, without any alternatives. Ranges are those of the same text; paths are those of a room.
 *
 * @returns null where the alternative changes nothing that can be read
 */
export function alternativeFile(room: ParsedFile, alternative: Place): ParsedFile | null {
  const change = below(alternative, 'change');
  if (room.root?.kind !== 'map' || mapOf(change) === null || change.value === null) return null;
  const root = overlay(room.root, change.value, rootSchema('room'));
  if (root?.kind !== 'map') return null;
  const entries = new Map([...root.entries].filter(([key]) => key !== 'alternatives'));
  // A fault inside the overlay is one of the place that it is laid over.
  const problems = room.problems.map((problem) =>
    isAtOrBelow(problem.path, change.path)
      ? { ...problem, path: problem.path.slice(change.path.length) }
      : problem,
  );
  return { ...room, root: { ...root, entries }, problems };
}

/** Whether something stands inside the overlay itself. */
export function isInside(
  alternative: NamedPlace,
  { range }: { readonly range: { readonly start: number; readonly end: number } },
): boolean {
  const { value } = below(alternative, 'change');
  return value !== null && value.range.start <= range.start && range.end <= value.range.end;
}
