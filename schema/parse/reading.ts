// What is gathered while one part of a file is read.

import type { Located, LocatedEntry, LocatedScalar, Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Problem, TextFix } from '../model/problem.ts';
import { PROBLEM_KINDS } from '../problems.ts';

/** Something that YAML has and this format does not: told once the whole file is read, since aliases cross its parts. */
export interface Decoration {
  readonly kind: 'anchor' | 'alias' | 'merge' | 'tag';
  readonly name: string;
  readonly path: Path;
  /** Of the anchor, tag or alias itself. */
  readonly range: Range;
  /** What the anchor stands on. */
  readonly node: Located | null;
}

/** Plain text behind which a comment starts in the same line: `Studio #2`. */
export interface CutText {
  readonly scalar: LocatedScalar;
  readonly end: number;
}

export interface Reading {
  readonly problems: Problem[];
  readonly decorations: Decoration[];
  readonly cuts: Map<LocatedScalar, CutText>;
  /** Where the colon of a key without value ends. */
  readonly emptyAt: Map<LocatedEntry, number>;
  /** Entries, values and maps of which a fault was told already, so that nothing more is said about them. */
  readonly damaged: Set<object>;
  /** Where the text could not be read for certain: what a schema would say there may come of that, and is held back. */
  readonly holds: Hold[];
}

export interface Hold {
  readonly range: Range;
  /** It is not even certain what belongs to what, so nothing is said about the whole part of the file. */
  readonly whole: boolean;
}

export function newReading(): Reading {
  return {
    problems: [],
    decorations: [],
    cuts: new Map(),
    emptyAt: new Map(),
    damaged: new Set(),
    holds: [],
  };
}

const SEVERITIES = new Map(PROBLEM_KINDS.map(({ code, severity }) => [code, severity]));

/** A problem with its usual severity. */
export function problem(
  code: string,
  path: Path,
  range: Range,
  message: string,
  fixes: readonly TextFix[] = [],
): Problem {
  const severity = SEVERITIES.get(code);
  if (severity === undefined) throw new RangeError(`not in the catalogue of problems: ${code}`);
  return { code, severity, path, range, message: capitalised(message), fixes };
}

/** Messages are told by themselves, so they begin as sentences do; what is quoted keeps its own letters. */
export function capitalised(message: string): string {
  return `${message.slice(0, 1).toUpperCase()}${message.slice(1)}`;
}

/** A fix of one edit. */
export function fix(title: string, range: Range, text: string, safe = false): TextFix {
  return { title, edits: [{ range, text }], safe };
}
