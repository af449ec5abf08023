// Findings as JUnit XML, for build servers that draw test results: a suite a file, a case a finding.

import { isOpen, spanOf, type Writer } from './report.ts';

export const writeJunit: Writer = (files) => {
  const suites = files.map(({ name, analysis, remarks }) => {
    const open = remarks.filter(isOpen);
    const cases = open.map((remark) => {
      const { line, column } = spanOf(analysis, remark);
      const place = `${name}:${line}:${column}`;
      return `    <testcase name="${escaped(`${remark.code} at ${place}`)}" classname="${escaped(name)}"><failure type="${remark.severity}" message="${escaped(remark.message)}">${escaped(place)}</failure></testcase>`;
    });
    const clean = `    <testcase name="no findings" classname="${escaped(name)}"/>`;
    const body = open.length === 0 ? [clean] : cases;
    return [
      `  <testsuite name="${escaped(name)}" tests="${body.length}" failures="${open.length}">`,
      ...body,
      '  </testsuite>',
    ].join('\n');
  });
  return `<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="groundbass">\n${suites.join('\n')}\n</testsuites>\n`;
};

function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
