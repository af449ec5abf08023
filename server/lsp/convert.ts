// Offsets to positions and back: the only place where the two meet. UTF-16 on both sides.

import type { Range as LspRange, Position } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Range } from '../../schema/model/located.ts';
import type { Severity, TextEdit } from '../../schema/model/problem.ts';

export function toRange(text: TextDocument, range: Range): LspRange {
  return { start: text.positionAt(range.start), end: text.positionAt(range.end) };
}

export function toOffset(text: TextDocument, position: Position): number {
  return text.offsetAt(position);
}

export function toOffsets(text: TextDocument, range: LspRange): Range {
  return { start: text.offsetAt(range.start), end: text.offsetAt(range.end) };
}

export function toTextEdit(
  text: TextDocument,
  edit: TextEdit,
): { range: LspRange; newText: string } {
  return { range: toRange(text, edit.range), newText: edit.text };
}

/** The protocol's numbers for severities. */
export const SEVERITY: Readonly<Record<Severity, 1 | 2 | 3 | 4>> = {
  error: 1,
  warning: 2,
  information: 3,
  hint: 4,
};

/** Where a line's text ends, its line break and trailing blanks left out. */
export function lineEnd(text: TextDocument, line: number): Position {
  const start = text.offsetAt({ line, character: 0 });
  const next = line + 1 < text.lineCount ? text.offsetAt({ line: line + 1, character: 0 }) : null;
  const content = text.getText().slice(start, next ?? undefined);
  return { line, character: content.trimEnd().length };
}
