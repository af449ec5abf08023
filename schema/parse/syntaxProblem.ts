// Puts the YAML library's errors into words.

import type { YAMLParseError } from 'yaml';
import type { Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Problem } from '../model/problem.ts';
import { fix, problem } from './reading.ts';

/**
 * @param part the text that was read, `base` where it starts in the file
 * @returns one problem at the exact place
 */
export function syntaxProblem(
  error: YAMLParseError,
  part: string,
  base: number,
  path: Path,
): Problem {
  const special =
    spaceAfterColon(part, error.pos[0], base, path) ?? commentInBraces(error, part, base, path);
  if (special !== null) return special;
  const { start, end } = placeOf(error, part);
  return problem(codeOf(error), path, { start: start + base, end: end + base }, words(error));
}

/** At least one character, and never more than one line. */
function placeOf(error: YAMLParseError, part: string): Range {
  const [from, to] = error.pos;
  if (isOpen(error)) {
    // The bracket is missing behind the last thing that is no comment.
    const end = withoutComments(part.slice(0, from)).length;
    return { start: Math.max(0, end - 1), end: Math.max(1, end) };
  }
  const start = Math.min(from, Math.max(0, part.trimEnd().length - 1));
  const end = Math.min(Math.max(to, start + 1), lineStop(part, start), part.length);
  return { start, end: Math.max(start + 1, end) };
}

function isOpen({ message }: YAMLParseError): boolean {
  return /end with (?:a )?[}\]]/.test(message);
}

function withoutComments(text: string): string {
  const lines = text.trimEnd().split('\n');
  while (1 < lines.length && /^\s*(?:#.*)?$/.test(lines.at(-1) ?? '')) lines.pop();
  const last = lines.pop() ?? '';
  return [...lines, last.replace(/\s+#.*$/, '').trimEnd()].join('\n');
}

function codeOf(error: YAMLParseError): string {
  const { code } = error;
  const indents = (code === 'BAD_INDENT' && !isOpen(error)) || code === 'TAB_AS_INDENT';
  return indents ? 'yaml/indentation' : 'yaml/syntax';
}

function words({ code, message }: YAMLParseError): string {
  const open = /end with (?:a )?([}\]])/.exec(message);
  if (open) return `a bracket is not closed: \`${open[1]}\` is missing`;
  if (/closing ["']quote/.test(message)) return 'a quote is not closed';
  if (code === 'TAB_AS_INDENT') return 'tabs cannot indent: use spaces';
  if (code === 'BAD_INDENT')
    return 'this line is indented differently from those that it belongs with';
  if (/Implicit keys? need|Implicit map keys/.test(message))
    return 'a colon and a value are missing here';
  if (code === 'MULTILINE_IMPLICIT_KEY') return 'a key has to stand in one line with its colon';
  if (code === 'BLOCK_AS_IMPLICIT_KEY')
    return 'two keys in one line: put the second one into a line of its own, or both in braces';
  if (code === 'BAD_SCALAR_START')
    return 'a value cannot start with this character: put it in quotes';
  return message.charAt(0).toLowerCase() + message.slice(1);
}

function lineStop(part: string, start: number): number {
  const found = part.indexOf('\n', start);
  return found < 0 ? part.length : Math.max(found, start + 1);
}

/** `height:2.94 m` in a line of its own. */
function spaceAfterColon(part: string, at: number, base: number, path: Path): Problem | null {
  const start = part.lastIndexOf('\n', at - 1) + 1;
  const line = part.slice(start, lineStop(part, start));
  const match = /^(\s*)([a-z][a-z0-9_]*):(?=[^\s:])/.exec(line);
  if (match === null) return null;
  const [whole, spaces = '', key = ''] = match;
  const keyStart = start + spaces.length + base;
  const behind = start + whole.length + base;
  const range = { start: keyStart, end: start + line.trimEnd().length + base };
  return problem(
    'yaml/space-after-colon',
    [...path, key],
    range,
    `a space is missing after the colon of \`${key}\``,
    [fix('Put a space after the colon', { start: behind, end: behind }, ' ', true)],
  );
}

/** `{ name: Studio #2 }`: the comment takes the closing bracket with it. */
function commentInBraces(
  error: YAMLParseError,
  part: string,
  base: number,
  path: Path,
): Problem | null {
  if (!isOpen(error)) return null;
  const match = /[{[][^\n#"']*?(\s#[^\n]*[}\]])/.exec(part);
  const comment = match?.[1];
  if (match === null || comment === undefined) return null;
  const start = match.index + match[0].length - comment.length + 1 + base;
  const end = match.index + match[0].length + base;
  return problem(
    'yaml/text-cut',
    path,
    { start, end },
    'from `#` on this is a comment, the closing bracket too: put the value in quotes',
  );
}
