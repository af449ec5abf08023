// A file is one document: markers of further ones and directives are told, and what they would change is not read.

import type { Range } from '../model/located.ts';
import type { Problem } from '../model/problem.ts';
import { fix, problem } from './reading.ts';
import { lineEnd } from './segments.ts';

/**
 * @returns the part of the text that is the first document, and what stands against the rest
 */
export function firstDocument(text: string): {
  readonly range: Range;
  readonly problems: readonly Problem[];
} {
  // Nearly all files have none of the marks, which a search finds out faster than a walk over the lines.
  if (!/^(?:%|---|\.\.\.)/m.test(text)) return { range: wholeText(text), problems: [] };
  const problems: Problem[] = [];
  let { start } = wholeText(text);
  let begun = false;
  for (let at = start; at < text.length; ) {
    const next = lineEnd(text, at, text.length);
    const line = text.slice(at, Math.min(next, at + 80)).trimEnd();
    if (line.startsWith('%') && !begun) {
      const range = { start: at, end: at + line.length };
      problems.push(
        problem('yaml/directive', [], range, 'directives are not used here', [
          fix('Remove the line', { start: at, end: next }, '', true),
        ]),
      );
      start = next;
    } else if (/^---(?:\s|$)/.test(line)) {
      if (begun)
        return { range: { start, end: at }, problems: [...problems, secondDocument(text, at)] };
      start = at + 3;
      begun = true;
    } else if (/^\.\.\.(?:\s|$)/.test(line)) {
      const rest = text.slice(next);
      const more = /^(?!\s*(?:#.*)?$)/m.exec(rest);
      return {
        range: { start, end: at },
        problems: more === null ? problems : [...problems, secondDocument(text, at)],
      };
    } else if (line !== '' && !/^\s*(?:#|$)/.test(line)) begun = true;
    at = next;
  }
  return { range: { start, end: text.length }, problems };
}

function wholeText(text: string): Range {
  return { start: text.charCodeAt(0) === 0xfeff ? 1 : 0, end: text.length };
}

function secondDocument(text: string, at: number): Problem {
  const isLast = text.slice(at + 3).trim() === '';
  const fixes = isLast ? [fix('Remove the marker', { start: at, end: text.length }, '', true)] : [];
  return problem(
    'yaml/documents',
    [],
    { start: at, end: at + 3 },
    'a file holds one document: what follows is not read',
    fixes,
  );
}
