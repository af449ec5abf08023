// Leaves out what is told only because of something that was told before: one slip, one message.

import type { Problem } from '../model/problem.ts';

/** Of one part of the file, in its order: what follows a line that belongs nowhere for certain is not certain either. */
export function withoutFollowing(problems: readonly Problem[]): readonly Problem[] {
  const sorted = [...problems].sort((a, b) => a.range.start - b.range.start);
  const doubled = new Set<string>();
  let lost = false;
  return sorted.filter(({ code, path }) => {
    if (lost && isStructural(code)) return false;
    if (code === 'yaml/indentation') lost = true;
    if (code !== 'yaml/duplicate-key') return true;
    const map = JSON.stringify(path.slice(0, -1));
    const isFirst = !doubled.has(map);
    doubled.add(map); // two records that ran into one have many keys twice
    return isFirst;
  });
}

/** Of the whole file: a key has no value since the line below it is wrong. */
export function withoutEmptied(text: string, sorted: readonly Problem[]): readonly Problem[] {
  return sorted.filter(({ code, range }, index) => {
    const next = sorted[index + 1];
    if (code !== 'format/empty-value' || next === undefined) return true;
    const isCause =
      isStructural(next.code) ||
      next.code === 'format/unknown-key' ||
      next.code === 'format/not-a-name';
    return !isCause || !isLineBelow(text.slice(range.end, next.range.start));
  });
}

function isStructural(code: string): boolean {
  return (
    code === 'yaml/syntax' ||
    code === 'yaml/indentation' ||
    code === 'yaml/colon-missing' ||
    code === 'yaml/duplicate-key'
  );
}

/** Only the colon, comments, and the start of the next line with content. */
function isLineBelow(between: string): boolean {
  const [, ...below] = between
    .split('\n')
    .filter((line, index) => index === 0 || !/^\s*(?:#|$)/.test(line));
  return below.length <= 1;
}
