// What a writer is given: the remarks of each file with its name, and small helpers that all writers share.

import type { Severity } from '../../../schema/model/problem.ts';
import type { Analysis } from '../../analysis.ts';
import type { Remark } from '../../remarks/remark.ts';
import { SEVERITIES } from '../../remarks/severity.ts';
import type { Io } from '../io.ts';

export interface FileReport {
  readonly name: string;
  readonly analysis: Analysis;
  readonly remarks: readonly Remark[];
}

export type Writer = (files: readonly FileReport[], io: Pick<Io, 'colors'>) => string;

/** Lines and columns from 1, as people and most tools count. */
export interface Span {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export function spanOf({ source: { text } }: Analysis, { range }: Remark): Span {
  const start = text.positionAt(range.start);
  const end = text.positionAt(range.end);
  return {
    line: start.line + 1,
    column: start.character + 1,
    endLine: end.line + 1,
    endColumn: end.character + 1,
  };
}

export function isOpen({ accepted }: Remark): boolean {
  return accepted === null;
}

export interface Counts extends Readonly<Record<Severity, number>> {
  readonly accepted: number;
}

export function countsOf(files: readonly FileReport[]): Counts {
  const remarks = files.flatMap((file) => file.remarks);
  const open = remarks.filter(isOpen);
  const count = (severity: Severity): number =>
    open.filter((remark) => remark.severity === severity).length;
  return {
    error: count('error'),
    warning: count('warning'),
    information: count('information'),
    hint: count('hint'),
    accepted: remarks.length - open.length,
  };
}

/** "5 findings in 2 files: 1 error, 4 warnings". */
export function summaryText(files: readonly FileReport[]): string {
  const counts = countsOf(files);
  const total = SEVERITIES.reduce((sum, severity) => sum + counts[severity], 0);
  const accepted = counts.accepted === 0 ? '' : `, ${counts.accepted} accepted`;
  if (total === 0) return `no findings in ${counted(files.length, 'file')}${accepted}`;
  const parts = SEVERITIES.filter((severity) => 0 < counts[severity]).map((severity) =>
    severity === 'information'
      ? `${counts.information} information`
      : counted(counts[severity], severity),
  );
  const told = files.filter(({ remarks }) => remarks.some(isOpen)).length;
  return `${counted(total, 'finding')} in ${counted(told, 'file')}: ${parts.join(', ')}${accepted}`;
}

export function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}
