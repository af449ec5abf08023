// Folding: every entry or list item that goes over several lines, and runs of comments.

import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import type { Located } from '../../schema/model/located.ts';
import type { Analysis } from '../analysis.ts';

export function foldingRanges({ source: { text, parsed } }: Analysis): FoldingRange[] {
  const ranges: FoldingRange[] = [];
  const add = (start: number, end: number): void => {
    const startLine = text.positionAt(start).line;
    const endLine = text.positionAt(start + parsed.text.slice(start, end).trimEnd().length).line;
    if (startLine < endLine) ranges.push({ startLine, endLine });
  };
  const walk = (value: Located | null): void => {
    if (value?.kind === 'map') {
      for (const entry of value.entries.values()) {
        add(entry.range.start, entry.range.end);
        walk(entry.value);
      }
    } else if (value?.kind === 'list') {
      for (const item of value.items) {
        if (item === null) continue;
        add(item.range.start, item.range.end);
        walk(item);
      }
    }
  };
  walk(parsed.root);
  return [...ranges, ...commentRuns(parsed.text)];
}

function commentRuns(text: string): FoldingRange[] {
  const runs: FoldingRange[] = [];
  let startLine = -1;
  const lines = [...text.split('\n'), ''];
  for (const [line, content] of lines.entries()) {
    if (/^\s*#/.test(content)) {
      if (startLine === -1) startLine = line;
      continue;
    }
    if (startLine !== -1 && startLine < line - 1)
      runs.push({ startLine, endLine: line - 1, kind: FoldingRangeKind.Comment });
    startLine = -1;
  }
  return runs;
}
