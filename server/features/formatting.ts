// Formatting: blanks only. Comments, order, line breaks and every value stay what they are, and no line is aligned with another.

import type { TextEdit } from 'vscode-languageserver';
import type { Located } from '../../schema/model/located.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import type { Analysis } from '../analysis.ts';
import { formattedLines, formattedText } from './formattedText.ts';

/** One edit for each changed line; none at all where the text would not read the same afterwards. */
export function formatting({ source: { text, parsed } }: Analysis): TextEdit[] {
  const after = formattedText(parsed.text);
  if (after === parsed.text) return [];
  if (!sameContent(parsed.root, parseFile(parsed.kind, after).root)) return [];
  const whole = {
    start: { line: 0, character: 0 },
    end: text.positionAt(parsed.text.length),
  };
  const before = parsed.text.split('\n');
  const lines = after.split('\n');
  if (before.length !== lines.length) return [{ range: whole, newText: after }];
  return lines.flatMap((newText, line) => {
    const old = before[line] ?? '';
    if (old === newText) return [];
    const range = { start: { line, character: 0 }, end: { line, character: old.length } };
    return [{ range, newText }];
  });
}

/** The same for some lines alone; empty lines between them stay. */
export function rangeFormatting({ source: { parsed } }: Analysis, lines: LineRange): TextEdit[] {
  const before = parsed.text.split('\n');
  const after = formattedLines(parsed.text);
  const edits: TextEdit[] = [];
  const text = before.map((raw, line) => {
    const old = raw.replace(/\r$/, '');
    const newText = after[line] ?? old;
    if (line < lines.first || lines.last < line || old === newText) return raw;
    const range = { start: { line, character: 0 }, end: { line, character: old.length } };
    edits.push({ range, newText });
    return newText;
  });
  const isSame = sameContent(parsed.root, parseFile(parsed.kind, text.join('\n')).root);
  return isSame ? edits : [];
}

/** Both lines included, counted from 0. */
export interface LineRange {
  readonly first: number;
  readonly last: number;
}

/** After a line break the line before it; after a closing brace its own. */
export function onTypeFormatting(
  analysis: Analysis,
  { line }: { readonly line: number },
  typed: string,
): TextEdit[] {
  const at = typed === '\n' ? line - 1 : line;
  return at < 0 ? [] : rangeFormatting(analysis, { first: at, last: at });
}

/** What is typed that puts a line right: the first sign, and others. */
export const FORMATTED_ON: { readonly first: string; readonly more: string[] } = {
  first: '\n',
  more: ['}', ']'],
};

/** Whether two trees say the same, wherever it stands. */
export function sameContent(one: Located | null, other: Located | null): boolean {
  return JSON.stringify(content(one)) === JSON.stringify(content(other));
}

function content(value: Located | null): unknown {
  if (value === null) return null;
  if (value.kind === 'scalar') return [value.style, value.text];
  if (value.kind === 'list') return value.items.map(content);
  return [...value.entries.values()].map((entry) => ({ [entry.key]: content(entry.value) }));
}
