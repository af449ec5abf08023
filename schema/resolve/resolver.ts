// A resolver for the versions of one room file: what resolving yields holds as long as the file says the same, wherever in the
// text it stands. A comment or an empty line costs nothing then but moving what was said before.

import type { Range } from '../model/located.ts';
import type { ParsedFile } from '../model/parsedFile.ts';
import type { Problem } from '../model/problem.ts';
import type { ResolveContext, Resolved } from '../model/resolved.ts';
import { type Moves, movesBetween } from './moves.ts';
import { resolveRoom } from './resolveRoom.ts';

export type Resolve = (room: ParsedFile, context: ResolveContext) => Resolved;

/** One for each file: it holds what it resolved last. An unchanged room is the very same object again. */
export function createResolver(): Resolve {
  let last: Last | null = null;
  return (room, context) => {
    const again = last === null ? null : resolvedAgain(last, room, context);
    if (again !== null && last !== null) {
      last = { ...last, room, context, resolved: again };
      return again;
    }
    const asked = new Map<string, boolean | null>();
    const resolved = resolveRoom(room, { ...context, fileExists: noting(context, asked) });
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

/** null where something else than places in the text may have changed. */
function resolvedAgain(
  { room: before, context: then, asked, resolved }: Last,
  room: ParsedFile,
  context: ResolveContext,
): Resolved | null {
  if (!isSameContext(then, context) || !saysTheSame(before.problems, room.problems)) return null;
  for (const [file, exists] of asked)
    if ((context.fileExists?.(file) ?? null) !== exists) return null;
  const moves = movesBetween(before, room);
  return moves === null ? null : moved(resolved, moves);
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

/** null where a place cannot be followed for certain. */
function moved(resolved: Resolved, moves: Moves): Resolved | null {
  if (moves.isNone) return resolved;
  let isCertain = true;
  const range = ({ start, end }: Range): Range => {
    const moved = { start: moves.of(start), end: moves.of(end) };
    if (moved.start === null || moved.end === null) isCertain = false;
    return { start: moved.start ?? 0, end: moved.end ?? 0 };
  };
  const problems = resolved.problems.map((problem) => ({
    ...problem,
    range: range(problem.range),
    fixes: problem.fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => ({ ...edit, range: range(edit.range) })),
    })),
  }));
  const references = resolved.references.map((one) => ({ ...one, range: range(one.range) }));
  return isCertain ? { room: resolved.room, problems, references } : null;
}
