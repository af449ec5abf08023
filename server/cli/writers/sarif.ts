// Findings as SARIF 2.1.0 (OASIS): one run, relative paths, marks that outlive a moved line.

import { RULES } from '../../../core/rules/index.ts';
import { pathText } from '../../../schema/model/path.ts';
import type { Severity } from '../../../schema/model/problem.ts';
import { VERSION } from '../../version.ts';
import { type FileReport, spanOf, type Writer } from './report.ts';

export const writeSarif: Writer = (files) => {
  const codes = [
    ...new Set(files.flatMap(({ remarks }) => remarks.map(({ code }) => code))),
  ].sort();
  const log = {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'groundbass', version: VERSION, rules: codes.map(ruleOf) } },
        columnKind: 'utf16CodeUnits',
        results: files.flatMap((file) => results(file, codes)),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
};

const LEVEL: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

function ruleOf(code: string): unknown {
  const rule = RULES.find((one) => one.code === code);
  if (!rule) return { id: code };
  return {
    id: code,
    shortDescription: { text: rule.title },
    fullDescription: { text: rule.reason },
    help: { text: `${rule.advice} Source: ${rule.source}` },
    defaultConfiguration: { level: LEVEL[rule.severity] },
  };
}

function results({ name, analysis, remarks }: FileReport, codes: readonly string[]): unknown[] {
  return remarks.map((remark) => {
    const { line, column, endLine, endColumn } = spanOf(analysis, remark);
    const { code, severity, message, path, accepted } = remark;
    return {
      ruleId: code,
      ruleIndex: codes.indexOf(code),
      level: LEVEL[severity],
      message: { text: message },
      locations: [
        {
          physicalLocation: {
            artifactLocation: { uri: name.split('/').map(encodeURIComponent).join('/') },
            region: { startLine: line, startColumn: column, endLine, endColumn },
          },
          logicalLocations: [{ fullyQualifiedName: pathText(path) }],
        },
      ],
      partialFingerprints: { 'groundbass/v1': `${name} ${code} ${pathText(path)}` },
      ...(accepted === null
        ? {}
        : {
            suppressions: [
              { kind: 'inSource', status: 'accepted', justification: accepted.because ?? '' },
            ],
          }),
    };
  });
}
