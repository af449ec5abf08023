// An alternative resolved: the room as it would be, with what is wrong in the alternative alone.

import type { ParsedFile } from '../model/parsedFile.ts';
import type { ResolveContext, Resolved } from '../model/resolved.ts';
import { alternativeFile, isInside } from './alternativeFile.ts';
import { below, entriesOf, rootPlace } from './place.ts';
import { resolveRoom } from './resolveRoom.ts';

/**
 * Paths of the answer are those of a room (`subwoofers.sub.at`), not of the overlay; the room's own problems are told by
 * `resolveRoom`, and those of the overlay under its own path as well.
 *
 * @returns null where there is no such alternative, or it changes nothing that can be read
 */
export function resolveAlternative(
  room: ParsedFile,
  id: string,
  context: ResolveContext,
): Resolved | null {
  const alternatives = entriesOf(below(rootPlace(room.root), 'alternatives'));
  const alternative = alternatives.find(({ name }) => name === id);
  if (alternative === undefined) return null;
  const file = alternativeFile(room, alternative);
  if (file === null) return null;
  const resolved = resolveRoom(file, context);
  return {
    ...resolved,
    problems: resolved.problems.filter((problem) => isInside(alternative, problem)),
  };
}
