// Two versions of a file that say the same: where in the new text the parts of the old one stand.

import type { Located, LocatedEntry, LocatedScalar, Range } from '../model/located.ts';
import type { ParsedFile } from '../model/parsedFile.ts';
import type { Resolved } from '../model/resolved.ts';

export interface Moves {
  /** Everything stands where it stood. */
  readonly isNone: boolean;
  /** Where an offset of the old text stands in the new one; null where that is not certain. */
  readonly of: (offset: number) => number | null;
}

/** A stretch of the old text that stands in the new one letter by letter. */
interface Stretch {
  readonly start: number;
  readonly end: number;
  readonly by: number;
}

/** A file, or a part of one with the text of all of it. */
type Part = Pick<ParsedFile, 'root' | 'text'>;

/** null where the two say anything different, or write it differently. */
export function movesBetween(before: Part, now: Part): Moves | null {
  const stretches: Stretch[] = [];
  const ends = new Map<number, number>();
  const walk: Walk = { before, now, stretches, ends };
  if (!sameNode(before.root, now.root, walk)) return null;
  const isNone = stretches.every(({ by }) => by === 0) && [...ends].every(([a, b]) => a === b);
  return { isNone, of: (offset) => ends.get(offset) ?? inStretch(stretches, offset) };
}

interface Walk {
  readonly before: Part;
  readonly now: Part;
  /** In the text's order. */
  readonly stretches: Stretch[];
  /** Where maps and lists begin and end. */
  readonly ends: Map<number, number>;
}

function sameNode(one: Located | null, other: Located | null, walk: Walk): boolean {
  if (one === null || other === null) return one === other;
  if (one === other) {
    // Read once from the same place: nothing in it has moved.
    walk.stretches.push({ ...one.range, by: 0 });
    return true;
  }
  if (one.kind === 'scalar') return other.kind === 'scalar' && sameScalar(one, other, walk);
  walk.ends.set(one.range.start, other.range.start);
  walk.ends.set(one.range.end, other.range.end);
  if (one.kind === 'list') {
    return (
      other.kind === 'list' &&
      one.flow === other.flow &&
      one.items.length === other.items.length &&
      one.items.every((item, index) => sameNode(item, other.items[index] ?? null, walk))
    );
  }
  if (other.kind !== 'map' || one.flow !== other.flow) return false;
  if (one.entries.size !== other.entries.size) return false;
  const others = other.entries.values();
  for (const entry of one.entries.values()) {
    const { value } = others.next();
    if (value === undefined || !sameEntry(entry, value, walk)) return false;
  }
  return true;
}

function sameEntry(one: LocatedEntry, other: LocatedEntry, walk: Walk): boolean {
  return (
    one.key === other.key &&
    sameText(one.keyRange, other.keyRange, walk) &&
    sameNode(one.value, other.value, walk)
  );
}

function sameScalar(one: LocatedScalar, other: LocatedScalar, walk: Walk): boolean {
  return (
    one.text === other.text && one.style === other.style && sameText(one.range, other.range, walk)
  );
}

function sameText(one: Range, other: Range, { before, now, stretches }: Walk): boolean {
  stretches.push({ ...one, by: other.start - one.start });
  return before.text.slice(one.start, one.end) === now.text.slice(other.start, other.end);
}

function inStretch(stretches: readonly Stretch[], offset: number): number | null {
  let [low, high] = [0, stretches.length - 1];
  while (low <= high) {
    const middle = (low + high) >> 1;
    const stretch = stretches[middle];
    if (stretch === undefined) return null;
    if (offset < stretch.start) high = middle - 1;
    else if (stretch.end < offset) low = middle + 1;
    else return offset + stretch.by;
  }
  return null;
}

type Told = Pick<Resolved, 'problems' | 'references'>;

/** What was told of the old text at its places in the new one; null where one cannot be followed for certain. */
export function moved({ problems, references }: Told, moves: Moves): Told | null {
  if (moves.isNone) return { problems, references };
  let isCertain = true;
  const range = ({ start, end }: Range): Range => {
    const moved = { start: moves.of(start), end: moves.of(end) };
    if (moved.start === null || moved.end === null) isCertain = false;
    return { start: moved.start ?? 0, end: moved.end ?? 0 };
  };
  const movedProblems = problems.map((problem) => ({
    ...problem,
    range: range(problem.range),
    fixes: problem.fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => ({ ...edit, range: range(edit.range) })),
    })),
  }));
  const movedReferences = references.map((one) => ({ ...one, range: range(one.range) }));
  return isCertain ? { problems: movedProblems, references: movedReferences } : null;
}
