// Findings for programs: one JSON document, whose keys docs/command-line.md tells.

import { pathText } from '../../../schema/model/path.ts';
import { countsOf, spanOf, type Writer } from './report.ts';

export const writeJson: Writer = (files) =>
  `${JSON.stringify(
    {
      version: 1,
      summary: { files: files.length, ...countsOf(files) },
      files: files.map(({ name, analysis, remarks }) => ({
        file: name,
        kind: analysis.source.parsed.kind,
        findings: remarks.map((remark) => {
          const { line, column, endLine, endColumn } = spanOf(analysis, remark);
          const { code, severity, path, message, reason, advice, measured, limit } = remark;
          return {
            code,
            severity,
            path: pathText(path),
            message,
            line,
            column,
            end_line: endLine,
            end_column: endColumn,
            measured,
            limit,
            reason,
            advice,
            source: remark.source,
            accepted: remark.accepted,
            fixes: [...remark.textFixes, ...remark.fixes].map(({ title, safe }) => ({
              title,
              safe,
            })),
          };
        }),
      })),
    },
    null,
    2,
  )}\n`;
