// What YAML loses without a word: a value cut at a comma or at a comment, a colon without a space behind it.

import type { Located, LocatedEntry, LocatedScalar, Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import { quoted } from '../quote.ts';
import { fix, problem, type Reading } from './reading.ts';

export interface Source {
  /** The text that the library read. */
  readonly text: string;
  /** Where it starts in the file. */
  readonly base: number;
  readonly reading: Reading;
}

/** A comment without a space behind its `#`, or with nothing but a number, is likely a part of the text. */
export function noticeCut(scalar: LocatedScalar, { text, base, reading }: Source): void {
  const from = scalar.range.end - base;
  if (text[from] !== ' ' && text[from] !== '\t') return;
  const match = /^[ \t]+#(?:[^\s#][^\n\r]*|[ \t]+\d+[ \t]*(?=[\n\r]|$))/.exec(
    text.slice(from, from + 500),
  );
  if (match)
    reading.cuts.set(scalar, { scalar, end: scalar.range.end + match[0].trimEnd().length });
}

/** `[0,95 m, 2 m]`: a comma between digits without a space was meant as a decimal sign. */
export function joinDecimals(
  items: readonly (Located | null)[],
  { text, base }: Source,
): readonly (Located | null)[] {
  const joined: (Located | null)[] = [];
  for (const item of items) {
    const before = joined.at(-1);
    if (
      item?.kind === 'scalar' &&
      before?.kind === 'scalar' &&
      /^[-+]?\d+$/.test(before.text) &&
      /^\d+\s*[^\d\s.,]/.test(item.text) &&
      text.slice(before.range.end - base, item.range.start - base) === ','
    ) {
      joined[joined.length - 1] = joinedScalar(before, item.range.end, { text, base });
    } else joined.push(item);
  }
  return joined;
}

/**
 * A word in braces without a colon: the rest of a value that a comma cut (`fixed, until lease ends`; `1,38 m`), a key and value
 * without a colon or a space between them (`height 2.94 m`, `63 Hz:0.42 s`), or a key that has no value yet.
 *
 * @param last the entry before it
 * @returns what stands there in truth: it, or the entry before it with the rest of its value
 */
export function withoutColon(
  word: LocatedEntry,
  last: LocatedEntry | null,
  path: Path,
  source: Source,
): LocatedEntry {
  const { text, base } = source;
  const { key, keyRange } = word;
  const isPlain = text.slice(keyRange.start - base, keyRange.end - base) === key;
  const tight = isPlain ? /^([^:\n]*[^:\s]):(?=\S)/.exec(key)?.[1] : undefined;
  if (tight !== undefined) return parted(keyRange, tight, 1, path, source);
  const before = last?.value;
  const isCut = before?.kind === 'scalar' && before.style === 'plain';
  const name = isPlain ? /^([a-z][a-z0-9_]*)[ ]+(?=\S)/.exec(key) : null;
  if (name?.[1] !== undefined && !(isCut && isProseLike(before.text))) {
    return parted(keyRange, name[1], name[0].length - name[1].length, path, source);
  }
  return isCut && last !== null
    ? joinCut(last, before, word, [...path, last.key], source)
    : valueMissing(word, path, source);
}

/** Words, and no quantity: what follows a comma may well be more words. */
function isProseLike(text: string): boolean {
  return /^\p{L}/u.test(text);
}

/** A line without a space behind its colon, which YAML takes for one word; null where that is not what it is. */
export function tightEntry(
  { text: word, range, style }: LocatedScalar,
  path: Path,
  source: Source,
): LocatedEntry | null {
  const key = /^[a-z][a-z0-9_]*(?=:[^\s:/])/.exec(word)?.[0];
  if (key === undefined || style !== 'plain' || word.includes('\n')) return null;
  return parted(range, key, 1, path, source);
}

/** @param gap how many characters stand between key and value: a colon, or spaces */
function parted(
  whole: Range,
  key: string,
  gap: number,
  path: Path,
  { text, base, reading }: Source,
): LocatedEntry {
  const { start, end } = whole;
  const keyRange = { start, end: start + key.length };
  const valueStart = keyRange.end + gap;
  const hasColon = text[keyRange.end - base] === ':';
  const [code, message, cure] = hasColon
    ? (['yaml/space-after-colon', 'a space is missing after the colon of', ' '] as const)
    : (['yaml/colon-missing', 'a colon is missing after', ': '] as const);
  const range = { start: hasColon ? valueStart : keyRange.end, end: valueStart };
  reading.problems.push(
    problem(code, [...path, key], whole, `${message} \`${key}\``, [
      fix(hasColon ? 'Put a space after the colon' : 'Put a colon there', range, cure, hasColon),
    ]),
  );
  const written = text.slice(valueStart - base, end - base);
  const value: LocatedScalar = {
    kind: 'scalar',
    text: written,
    style: 'plain',
    range: { start: valueStart, end },
  };
  reading.damaged.add(value);
  reading.holds.push({ range: whole, whole: false });
  return { key, keyRange, value, range: whole };
}

function valueMissing(word: LocatedEntry, path: Path, { reading }: Source): LocatedEntry {
  const { key, keyRange } = word;
  const at = { start: keyRange.end, end: keyRange.end };
  reading.problems.push(
    problem(
      'yaml/colon-missing',
      [...path, key],
      keyRange,
      `a colon and a value are missing after \`${key}\``,
      [fix('Add `: unknown`', at, ': unknown')],
    ),
  );
  reading.holds.push({ range: keyRange, whole: false });
  const { value, range } = word;
  const entry = { key, keyRange, value, range };
  reading.damaged.add(entry);
  return entry;
}

function joinCut(
  last: LocatedEntry,
  before: LocatedScalar,
  { key, keyRange }: LocatedEntry,
  path: Path,
  source: Source,
): LocatedEntry {
  const value = joinedScalar(before, keyRange.end, source);
  const joined = { ...last, value, range: { start: last.range.start, end: value.range.end } };
  const { problems, damaged, holds } = source.reading;
  if (/^[-+]?\d+$/.test(before.text) && /^\d/.test(key)) return joined; // 1,38 m: told as a decimal comma
  const told = `the comma ends the value of \`${last.key}\` here: put \`${value.text}\` in quotes`;
  const repeated = problems.findLastIndex(
    ({ code, range }) => code === 'yaml/comma-in-value' && range.start === value.range.start,
  );
  if (0 <= repeated) problems.splice(repeated, 1);
  problems.push(
    problem('yaml/comma-in-value', path, value.range, told, [
      fix('Put the value in quotes', value.range, quoted(value.text), true),
    ]),
  );
  holds.push({ range: keyRange, whole: false }); // it may have been a key, and is not missing then
  damaged.add(value);
  return joined;
}

function joinedScalar(
  before: LocatedScalar,
  end: number,
  { text, base }: Pick<Source, 'text' | 'base'>,
): LocatedScalar {
  const range = { start: before.range.start, end };
  return { ...before, text: text.slice(range.start - base, end - base), range };
}
