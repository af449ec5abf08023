// One check of this folder: exactly these problems, at exactly these places.

import { expect } from 'vitest';
import type { FileKind } from '../../schema/model/parsedFile.ts';
import type { TextEdit } from '../../schema/model/problem.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { readMarked } from '../support/markedText.ts';

/**
 * @param source marked text: `# ^^^^ error format/missing-key: message`
 * @param kind of file; its first line is added
 * @param atLineStart problems that no caret can stand under, as `text: error code: message`, in the file's order
 */
export function check(
  source: string,
  kind: FileKind = 'room',
  atLineStart: readonly string[] = [],
): void {
  checkWhole(`${kind}: 1\n${source.replace(/^\n/, '')}`, kind, atLineStart);
}

/** The same for a text that brings its own first line. */
export function checkWhole(
  source: string,
  kind: FileKind = 'room',
  atLineStart: readonly string[] = [],
): void {
  const { text, marks } = readMarked(source);
  const found = parseFile(kind, text).problems.map(({ severity, code, range, message }) => ({
    at: range.start,
    told: `${text.slice(range.start, range.end)}: ${severity} ${code}: ${message}`,
  }));
  const isAtLineStart = (at: number): boolean => at === 0 || text[at - 1] === '\n';
  const marked = marks.map(({ start, end, message }) => ({
    at: start,
    told: `${text.slice(start, end)}: ${message}`,
  }));
  expect(found.filter(({ at }) => !isAtLineStart(at))).toEqual(marked);
  expect(found.filter(({ at }) => isAtLineStart(at)).map(({ told }) => told)).toEqual(atLineStart);
}

/** The text after the first problem's first fix. */
export function fixed(source: string, kind: FileKind = 'room', fixIndex = 0): string {
  const text = `${kind}: 1\n${source.replace(/^\n/, '')}`;
  const fix = parseFile(kind, text).problems[0]?.fixes[fixIndex];
  if (fix === undefined) throw new Error('no fix');
  return applied(text, fix.edits).slice(`${kind}: 1\n`.length);
}

export function applied(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .sort((a, b) => b.range.start - a.range.start)
    .reduce(
      (rest, { range, text: put }) => rest.slice(0, range.start) + put + rest.slice(range.end),
      text,
    );
}
