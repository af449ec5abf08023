// Resolve: one room joined with its gear and its facility: the room in SI, what was wrong, which words refer to what.

import type { ParsedFile } from '../model/parsedFile.ts';
import type { Path } from '../model/path.ts';
import type { ResolveContext, Resolved } from '../model/resolved.ts';
import { MOST_PROBLEMS, withinCount } from '../parse/limits.ts';
import { checkAlternatives } from './checkAlternatives.ts';
import { rootPlace } from './place.ts';
import { type Reading, startReading } from './reading.ts';
import { readRoom } from './readRoom.ts';
import { roomScope } from './scope.ts';
import { readAnew, type Sections } from './sections.ts';

/**
 * Every sound part of the file comes out as figures, whatever is wrong with the others: a part that cannot be read is null
 * and stands in `gaps`.
 *
 * @param room a parsed room file; its own problems are not repeated
 * @param context the gear files, the nearest facility, and what else the caller knows
 * @param sections what versions of the same file said, where there were any
 */
export function resolveRoom(
  room: ParsedFile,
  context: ResolveContext,
  sections: Sections | null = null,
): Resolved {
  const reading = startReading(room, context.defaultSampleRate_hz);
  const root = rootPlace(room.root);
  const scope = roomScope(reading, root, context);
  const resolved = readRoom(reading, root, scope, sections?.within(scope) ?? readAnew);
  checkAlternatives(reading, root, scope);
  return {
    room: { ...resolved, faulty: faultyPlaces(reading) },
    problems: withinCount(reading.problems).toSorted((a, b) => a.range.start - b.range.start),
    references: reading.references.toSorted((a, b) => a.range.start - b.range.start),
  };
}

/** Of the text and of its references alike. */
function faultyPlaces({ faulty, problems }: Reading): readonly Path[] {
  const errors = problems.filter(({ severity }) => severity === 'error').map(({ path }) => path);
  return [...faulty, ...errors].slice(0, MOST_PROBLEMS);
}
