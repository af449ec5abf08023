// Findings for people: each with its line and a caret under the place, why it matters and what to do.

import type { Severity } from '../../../schema/model/problem.ts';
import type { Colors } from '../io.ts';
import { type FileReport, isOpen, spanOf, summaryText, type Writer } from './report.ts';

export const writeText: Writer = (files, { colors }) => {
  const blocks = files.flatMap((file) =>
    file.remarks.filter(isOpen).map((remark) => block(file, remark, colors)),
  );
  return `${[...blocks, summaryText(files)].join('\n')}\n`;
};

const PAINT: Readonly<Record<Severity, keyof Pick<Colors, 'red' | 'yellow' | 'cyan' | 'gray'>>> = {
  error: 'red',
  warning: 'yellow',
  information: 'cyan',
  hint: 'gray',
};

function block(
  { name, analysis }: FileReport,
  remark: FileReport['remarks'][number],
  colors: Colors,
): string {
  const { severity, code, message, advice, source } = remark;
  const { line, column, endLine, endColumn } = spanOf(analysis, remark);
  const paint = colors[PAINT[severity]];
  const text = analysis.source.parsed.text.split('\n')[line - 1]?.replace(/\r$/, '') ?? '';
  const last = endLine === line ? endColumn : text.length + 1;
  const gutter = ' '.repeat(String(line).length);
  const { start, shown } = clipped(text, column);
  const caret = ' '.repeat(column - 1 - start) + '^'.repeat(Math.max(1, last - column));
  return [
    `${colors.bold(`${name}:${line}:${column}`)} ${paint(severity)} ${colors.dim(code)}`,
    `  ${message}`,
    `  ${colors.dim(`${line} |`)} ${shown}`,
    `  ${colors.dim(`${gutter} |`)} ${paint(caret.slice(0, LONGEST))}`,
    ...(advice === null ? [] : [`  ${advice}`]),
    ...(source === null ? [] : [`  ${colors.dim(`source: ${source}`)}`]),
    '',
  ].join('\n');
}

/** Longer lines are shown from near the place on. */
const LONGEST = 110;

function clipped(text: string, column: number): { readonly start: number; readonly shown: string } {
  const start = column <= LONGEST - 30 ? 0 : column - 30;
  return { start, shown: text.slice(start, start + LONGEST) };
}
