// Bounds of what is read at all, so that a hostile file costs neither time nor memory.

import type { Range } from '../model/located.ts';
import type { Problem } from '../model/problem.ts';
import { problem } from './reading.ts';

export const MOST_CHARACTERS = 1_000_000;
export const MOST_DEPTH = 40;
export const MOST_VALUES = 30_000;
export const MOST_PROBLEMS = 500;

export function tooLarge(text: string): Problem {
  const message = `the file has ${text.length} characters; at most ${MOST_CHARACTERS} are read`;
  return problem('limits/too-large', [], { start: 0, end: 1 }, message);
}

export function tooMany({ start }: Range): Problem {
  const message = `more than ${MOST_VALUES} values: the file is not read`;
  return problem('limits/too-many', [], { start, end: start + 1 }, message);
}

/** A problem where a part of the text must not be read since it nests too deeply, found in one pass over its characters. */
export function tooDeep(text: string, range: Range): Problem | null {
  const at = tooDeepAt(text, range);
  if (at === null) return null;
  const message = `nested more than ${MOST_DEPTH} levels deep: this part is not read`;
  return problem('limits/too-deep', [], { start: at, end: at + 1 }, message);
}

/** Brackets and list marks, each of which may open a level; quotes are not looked at, as prose holds few of them. */
function tooDeepAt(text: string, { start, end }: Range): number | null {
  let brackets = 0;
  let marks = 0;
  let indents: number[] = [];
  let lineStart = start;
  let inIndent = true;
  for (let at = start; at < end; at++) {
    const code = text.charCodeAt(at);
    if (code === 10) {
      lineStart = at + 1;
      inIndent = true;
      marks = 0;
      continue;
    }
    if (code === 91 || code === 123) brackets++;
    else if ((code === 93 || code === 125) && 0 < brackets) brackets--;
    if (inIndent && code !== 32) {
      const column = at - lineStart;
      if ((code === 45 || code === 63) && isSpace(text.charCodeAt(at + 1))) marks++;
      else {
        inIndent = false;
        if (code !== 35 && code !== 13 && brackets === 0) {
          indents = indents.filter((indent) => indent < column);
          indents.push(column);
        }
      }
    }
    if (MOST_DEPTH < brackets + marks + (inIndent ? 0 : indents.length)) return at;
  }
  return null;
}

function isSpace(code: number): boolean {
  return code === 32 || code === 10 || code === 13 || Number.isNaN(code);
}

/** At most so many values are in the text: each is behind a comma, a colon, a bracket or a list mark. */
export function countValues(text: string, { start, end }: Range): number {
  let count = 0;
  for (let at = start; at < end; at++) {
    const code = text.charCodeAt(at);
    const opens = code === 44 || code === 58 || code === 91 || code === 123;
    if (opens || (code === 45 && isSpace(text.charCodeAt(at + 1)))) count++;
  }
  return count;
}

/** The first problems, and one that says how many more there are. */
export function withinCount(problems: readonly Problem[]): readonly Problem[] {
  const first = problems.slice(0, MOST_PROBLEMS);
  const last = first.at(-1);
  const more = problems.length - first.length;
  if (more === 0 || last === undefined) return problems;
  return [
    ...first,
    problem('limits/too-many', [], last.range, `${more} more problems are not shown`),
  ];
}
