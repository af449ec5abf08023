// Findings as Markdown, for comments on pull requests and job summaries: a table a file.

import { isOpen, spanOf, summaryText, type Writer } from './report.ts';

export const writeMarkdown: Writer = (files) => {
  const tables = files.flatMap(({ name, analysis, remarks }) => {
    const open = remarks.filter(isOpen);
    if (open.length === 0) return [];
    const rows = open.map((remark) => {
      const { line } = spanOf(analysis, remark);
      return `| ${line} | ${remark.severity} | \`${remark.code}\` | ${cell(remark.message)} |`;
    });
    return [
      `### ${cell(name)}`,
      '',
      '| line | severity | finding | what |',
      '|---:|---|---|---|',
      ...rows,
      '',
    ];
  });
  return `${[...tables, summaryText(files)].join('\n')}\n`;
};

function cell(text: string): string {
  return text.replace(/[\\`*_[\]<>|]/g, '\\$&').replaceAll('\n', ' ');
}
