// Moves what was read with its text: the same part of a file may stand further down after an edit above it.

import type { Located, LocatedEntry, Range } from '../model/located.ts';
import type { Problem, TextFix } from '../model/problem.ts';

export function shiftRange({ start, end }: Range, by: number): Range {
  return { start: start + by, end: end + by };
}

export function shiftFix(fix: TextFix, by: number): TextFix {
  return {
    ...fix,
    edits: fix.edits.map(({ range, text }) => ({ range: shiftRange(range, by), text })),
  };
}

export function shiftProblem(problem: Problem, by: number): Problem {
  return {
    ...problem,
    range: shiftRange(problem.range, by),
    fixes: problem.fixes.map((fix) => shiftFix(fix, by)),
  };
}

export function shiftEntry(entry: LocatedEntry, by: number): LocatedEntry {
  return {
    key: entry.key,
    keyRange: shiftRange(entry.keyRange, by),
    value: entry.value && shiftLocated(entry.value, by),
    range: shiftRange(entry.range, by),
  };
}

export function shiftLocated(node: Located, by: number): Located {
  const range = shiftRange(node.range, by);
  if (node.kind === 'scalar') return { ...node, range };
  if (node.kind === 'list')
    return { ...node, range, items: node.items.map((item) => item && shiftLocated(item, by)) };
  const entries = new Map<string, LocatedEntry>();
  for (const [key, entry] of node.entries) entries.set(key, shiftEntry(entry, by));
  return { ...node, range, entries };
}
