// Marked text: a comment of carets under a line says which problem is told there, and what it says.

import { expect } from 'vitest';
import type { Problem } from '../../schema/model/problem.ts';

const MARK = /^(\s*#[^^\n]*)(\^+) (error|warning|information|hint): (.*)$/;

/** Holds all problems of a text against its marks: the same places, severities and messages, each once, and no others. */
export function expectMarked(text: string, problems: readonly Problem[]): void {
  expect(problems.map((problem) => told(text, problem)).toSorted()).toEqual(marks(text).toSorted());
}

/** `4:9-14 error: …` for each mark; lines and columns count from 1. */
function marks(text: string): readonly string[] {
  const found: string[] = [];
  let line = 0;
  text.split('\n').forEach((row, index) => {
    const [, before, carets, severity, message] = MARK.exec(row) ?? [];
    if (before === undefined || carets === undefined) line = index + 1;
    else {
      const from = before.length + 1;
      found.push(`${line}:${from}-${from + carets.length} ${severity}: ${message}`);
    }
  });
  return found;
}

function told(text: string, { range, severity, message }: Problem): string {
  const before = text.slice(0, range.start).split('\n');
  const column = (before.at(-1)?.length ?? 0) + 1;
  const [firstLine = ''] = text.slice(range.start, range.end).split('\n');
  return `${before.length}:${column}-${column + firstLine.length} ${severity}: ${message}`;
}
