// Bounds of what is read at all, so that a hostile file costs neither time nor memory.

import type { Problem } from '../model/problem.ts';
import { problem } from './reading.ts';

export const MOST_CHARACTERS = 1_000_000;
export const MOST_DEPTH = 40;
export const MOST_VALUES = 100_000;
export const MOST_PROBLEMS = 500;

/** A problem if the text must not be read, found in one pass over its characters. */
export function beyondLimits(text: string): Problem | null {
  const start = { start: 0, end: Math.min(1, text.length) };
  if (MOST_CHARACTERS < text.length) {
    return problem(
      'limits/too-large',
      [],
      start,
      `the file has ${text.length} characters; at most ${MOST_CHARACTERS} are read`,
    );
  }
  const deep = tooDeepAt(text);
  if (deep !== null) {
    return problem(
      'limits/too-deep',
      [],
      { start: deep, end: deep + 1 },
      `nested more than ${MOST_DEPTH} levels deep: the file is not read`,
    );
  }
  const many = tooManyAt(text);
  if (many !== null) {
    return problem(
      'limits/too-many',
      [],
      { start: many, end: many + 1 },
      `more than ${MOST_VALUES} values: the file is not read`,
    );
  }
  return null;
}

/** Brackets and list marks, each of which may open a level; quotes are not looked at, as prose holds few of them. */
function tooDeepAt(text: string): number | null {
  let brackets = 0;
  let marks = 0;
  let indents: number[] = [];
  let lineStart = 0;
  let inIndent = true;
  for (let at = 0; at < text.length; at++) {
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

/** Each value is behind a comma, a colon, a bracket or a list mark. */
function tooManyAt(text: string): number | null {
  let count = 0;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (
      code === 44 ||
      code === 58 ||
      code === 91 ||
      code === 123 ||
      (code === 45 && isSpace(text.charCodeAt(at + 1)))
    )
      count++;
    if (MOST_VALUES < count) return at;
  }
  return null;
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
