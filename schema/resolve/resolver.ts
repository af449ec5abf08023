// A resolver for the versions of one room file: what resolving yields holds as long as the file says the same, wherever in the
// text it stands. A comment or an empty line costs nothing then but moving what was said before.

import type { ParsedFile } from '../model/parsedFile.ts';
import type { Problem } from '../model/problem.ts';
import type { ResolveContext, Resolved } from '../model/resolved.ts';
import { moved, movesBetween } from './moves.ts';
import { resolveRoom } from './resolveRoom.ts';
import { createSections } from './sections.ts';

export type Resolve = (room: ParsedFile, context: ResolveContext) => Resolved;

/**
 * One for each file: it holds what it resolved last. An unchanged room is the very same object again; of a changed one, the
 * sections that say the same are.
 */
export function createResolver(): Resolve {
  let last: Last | null = null;
  const sections = createSections();
  return (room, context) => {
    const isLike = last !== null && saysLike(last, room, context);
    const again = last !== null && isLike ? resolvedAgain(last, room, context) : null;
    if (again !== null && last !== null) {
      last = { ...last, room, context, resolved: again };
      return again;
    }
    if (!isLike) sections.forget();
    const asked = new Map<string, boolean | null>();
    const noted = { ...context, fileExists: noting(context, asked) };
    const resolved = resolveRoom(room, noted, sections);
    last = { room, context, asked, resolved };
    return resolved;
  };
}

interface Last {
  readonly room: ParsedFile;
  readonly context: ResolveContext;
  /** Files that were asked for, and whether they were there. */
  readonly asked: ReadonlyMap<string, boolean | null>;
  readonly resolved: Resolved;
}

function noting(
  { fileExists }: ResolveContext,
  asked: Map<string, boolean | null>,
): ResolveContext['fileExists'] {
  if (fileExists === null) return null;
  return (file) => {
    const exists = fileExists(file);
    asked.set(file, exists);
    return exists;
  };
}

/** Whether errors of the parse are told at the same places, among the same files. */
function saysLike(last: Last, room: ParsedFile, context: ResolveContext): boolean {
  return isSameContext(last.context, context) && saysTheSame(last.room.problems, room.problems);
}

/** null where something else than places in the text may have changed. */
function resolvedAgain(
  { room: before, asked, resolved }: Last,
  room: ParsedFile,
  context: ResolveContext,
): Resolved | null {
  for (const [file, exists] of asked)
    if ((context.fileExists?.(file) ?? null) !== exists) return null;
  const moves = movesBetween(before, room);
  const again = moves && moved(resolved, moves);
  return again && { room: resolved.room, ...again };
}

/** The file's existence is asked for anew; all else is the same object or the same plain value. */
function isSameContext(then: ResolveContext, now: ResolveContext): boolean {
  const { gear, facility, fileExists, ...others } = now;
  const rest = new Map<string, unknown>(Object.entries(then));
  return (
    gear.length === then.gear.length &&
    gear.every((file, index) => isSameFile(file, then.gear[index] ?? null)) &&
    isSameFile(facility, then.facility) &&
    (fileExists === null) === (then.fileExists === null) &&
    Object.keys(now).length === rest.size &&
    Object.entries(others).every(([key, value]) => rest.get(key) === value)
  );
}

function isSameFile(one: ResolveContext['facility'], other: ResolveContext['facility']): boolean {
  return (
    one?.file === other?.file &&
    one?.parsed === other?.parsed &&
    one?.responses === other?.responses
  );
}

/** Resolving asks where the parse has told errors, and repeats none of them. */
function saysTheSame(before: readonly Problem[], now: readonly Problem[]): boolean {
  return (
    before.length === now.length &&
    before.every(({ severity, path }, index) => {
      const other = now[index];
      return severity === other?.severity && path.join('\n') === other.path.join('\n');
    })
  );
}
