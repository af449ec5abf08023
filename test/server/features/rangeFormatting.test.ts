// Formatting of some lines, and while typing: only blanks, only these lines, and never where the text would read otherwise.

import { expect, test } from 'vitest';
import { onTypeFormatting, rangeFormatting } from '../../../server/features/formatting.ts';
import { analysisOf, ROOM_TEXT } from '../support/facility.ts';
import { changedLines, withEdits } from '../support/marked.ts';

const UNTIDY = ROOM_TEXT.replace(
  'size: { width: 4.20 m, depth: 5.60 m, height: 2.70 m }',
  'size: {width: 4.20 m,depth: 5.60 m , height: 2.70 m}   ',
).replace('polarity: normal', 'polarity:   normal # kept');
const lineOf = (text: string, word: string): number =>
  text.slice(0, text.indexOf(word)).split('\n').length - 1;

async function ranged(text: string, first: number, last: number) {
  const edits = rangeFormatting(await analysisOf(text), { first, last });
  return changedLines(text, withEdits(text, edits));
}

const TIDY_SIZE = [
  '-   size: {width: 4.20 m,depth: 5.60 m , height: 2.70 m}   ',
  '+   size: { width: 4.20 m, depth: 5.60 m, height: 2.70 m }',
];

test('of the lines that are meant, and of no other', async () => {
  const size = lineOf(UNTIDY, 'size:');
  expect(await ranged(UNTIDY, size, size)).toEqual(TIDY_SIZE);
  expect(await ranged(UNTIDY, size + 1, size + 3)).toEqual([]);
  expect((await ranged(UNTIDY, 0, 1000)).length).toBe(4);
});

test('empty lines, and the inside of texts over several lines, stay', async () => {
  const text = `${ROOM_TEXT}\n\n\nx_note: |\n  a  b   c\n  {x:1}\n`;
  expect(await ranged(text, 0, 1000)).toEqual([]);
});

test('with line breaks of two characters', async () => {
  const text = UNTIDY.replaceAll('\n', '\r\n');
  const edits = rangeFormatting(await analysisOf(text), { first: 0, last: 1000 });
  expect(withEdits(text, edits)).toBe(
    ROOM_TEXT.replace('polarity: normal', 'polarity: normal # kept').replaceAll('\n', '\r\n'),
  );
});

test('while typing: after a line break the line before, after a brace its own', async () => {
  const size = lineOf(UNTIDY, 'size:');
  const analysis = await analysisOf(UNTIDY);
  const after = (line: number, typed: string) =>
    changedLines(UNTIDY, withEdits(UNTIDY, onTypeFormatting(analysis, { line }, typed)));
  expect(after(size + 1, '\n')).toEqual(TIDY_SIZE);
  expect(after(size, '}')).toEqual(TIDY_SIZE);
  expect(after(size + 1, '}')).toEqual([]);
  expect(after(0, '\n')).toEqual([]);
});
