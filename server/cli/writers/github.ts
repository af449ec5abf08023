// Findings as workflow commands, which GitHub shows beside the changed lines: the worst first, since only the first ten of a kind
// are shown for each step.

import type { Severity } from '../../../schema/model/problem.ts';
import { SEVERITIES } from '../../remarks/severity.ts';
import { isOpen, spanOf, summaryText, type Writer } from './report.ts';

export const writeGithub: Writer = (files) => {
  const lines = files
    .flatMap(({ name, analysis, remarks }) =>
      remarks.filter(isOpen).map((remark) => ({ name, remark, span: spanOf(analysis, remark) })),
    )
    .sort(
      (one, other) =>
        SEVERITIES.indexOf(one.remark.severity) - SEVERITIES.indexOf(other.remark.severity),
    )
    .map(({ name, remark, span }) => {
      const place = [
        `file=${property(name)}`,
        `line=${span.line}`,
        `endLine=${span.endLine}`,
        `col=${span.column}`,
        `endColumn=${span.endColumn}`,
        `title=${property(remark.code)}`,
      ];
      return `::${COMMAND[remark.severity]} ${place.join(',')}::${data(remark.message)}`;
    });
  return `${[...lines, summaryText(files)].join('\n')}\n`;
};

const COMMAND: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'notice',
  hint: 'notice',
};

/** Escapes of workflow commands (docs.github.com, "Workflow commands"; actions/toolkit, command.ts). */
function data(text: string): string {
  return text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function property(text: string): string {
  return data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
