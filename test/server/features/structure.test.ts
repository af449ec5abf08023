// Outline, folding, selection, tokens and formatting: what follows from a file's structure alone.

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parseFile } from '../../../schema/parse/parseFile.ts';
import { codeLenses } from '../../../server/features/codeLenses.ts';
import { documentSymbols } from '../../../server/features/documentSymbols.ts';
import { foldingRanges } from '../../../server/features/foldingRanges.ts';
import { formattedText } from '../../../server/features/formattedText.ts';
import { formatting, sameContent } from '../../../server/features/formatting.ts';
import { selectionRange } from '../../../server/features/selectionRanges.ts';
import { semanticTokens, TOKEN_TYPES } from '../../../server/features/semanticTokens.ts';
import { analysisOf, ROOM_TEXT } from '../support/facility.ts';
import { withEdits } from '../support/marked.ts';

test('the outline names things and says what they are', async () => {
  const symbols = documentSymbols(await analysisOf(ROOM_TEXT));
  expect(symbols.map(({ name }) => name)).toContain('speakers');
  const speakers = symbols.find(({ name }) => name === 'speakers');
  expect(speakers?.children?.map(({ name, detail }) => `${name}: ${detail}`)).toEqual([
    'left: tern_5 · L',
    'right: tern_5 · R',
  ]);
});

test('blocks fold from their key to their last line', async () => {
  const lines = ROOM_TEXT.split('\n');
  const folds = foldingRanges(await analysisOf(ROOM_TEXT)).map(
    ({ startLine, endLine }) => `${lines[startLine]?.trim()} … ${lines[endLine]?.trim()}`,
  );
  expect(folds).toContain('wiring: … - sub.out_right -> right.in');
  expect(folds).toContain('ports: … out_right: { delay: 0.0 ms }');
});

test('selection grows from the number to the quantity, the entry, the map, the section', async () => {
  const texts: string[] = [];
  let range: ReturnType<typeof selectionRange> | undefined = selectionRange(
    await analysisOf(ROOM_TEXT),
    ROOM_TEXT.indexOf('4.20'),
  );
  const lines = ROOM_TEXT.split('\n');
  for (; range; range = range.parent) {
    const { start, end } = range.range;
    texts.push(
      start.line === end.line
        ? (lines[start.line] ?? '').slice(start.character, end.character)
        : '…',
    );
  }
  expect(texts.slice(0, 4)).toEqual([
    '4.20',
    '4.20 m',
    'width: 4.20 m',
    '{ width: 4.20 m, depth: 5.60 m, height: 2.70 m }',
  ]);
});

test('tokens tell numbers, units, names and references apart', async () => {
  const { data } = semanticTokens(await analysisOf(ROOM_TEXT));
  const lines = ROOM_TEXT.split('\n');
  const found = new Map<string, Set<string>>();
  let line = 0;
  let character = 0;
  for (let index = 0; index < data.length; index += 5) {
    const [lineStep = 0, step = 0, length = 0, type = 0] = data.slice(index, index + 5);
    line += lineStep;
    character = lineStep === 0 ? character + step : step;
    const name = TOKEN_TYPES[type] ?? '';
    const word = (lines[line] ?? '').slice(character, character + length);
    found.set(name, (found.get(name) ?? new Set()).add(word));
  }
  expect(found.get('number')).toContain('4.20');
  expect(found.get('type')).toContain('dB/oct');
  expect(found.get('class')).toContain('left');
  expect(found.get('variable')).toContain('tern_5');
  expect(found.get('variable')).toContain('main_left');
});

test('a lens counts what was found and opens the preview, where the client has commands', async () => {
  const analysis = await analysisOf(ROOM_TEXT);
  const commands = { openPreview: 'open', showProblems: 'problems', suggest: null };
  const titles = codeLenses(analysis, commands).map(({ command }) => command?.title);
  expect(titles).toEqual(['Open the setup sheet', expect.stringMatching(/findings?/)]);
  expect(codeLenses(analysis, { openPreview: null, showProblems: null, suggest: null })).toEqual(
    [],
  );
});

test.each([
  ['blanks in braces', 'a: {x:  1 m,y: 2 m}\n', 'a: { x: 1 m, y: 2 m }\n'],
  ['blanks in brackets', 'a: [ 1 m ,2 m ]\n', 'a: [1 m, 2 m]\n'],
  ['alignment', 'a:    1\nlonger: 2\n', 'a: 1\nlonger: 2\n'],
  ['ends of lines', 'a: 1  \n\n\n\nb: 2', 'a: 1\n\nb: 2\n'],
  ['comments are kept as they are', 'a: 1    # why:  {b}\n#x\n', 'a: 1    # why:  {b}\n#x\n'],
  ['quoted text is kept', "a: \"x  ,{y}\"\nb: 'it''s  so'\n", "a: \"x  ,{y}\"\nb: 'it''s  so'\n"],
  [
    'block text is kept',
    'a: |\n  x   {y}  \n\n\n  z\nb: 1\n',
    'a: |\n  x   {y}  \n\n\n  z\nb: 1\n',
  ],
  ['an empty map', 'a: {}\nb: { }\n', 'a: {}\nb: {}\n'],
  ['line breaks of another system', 'a:  1\r\nb: 2\r\n', 'a: 1\r\nb: 2\r\n'],
])('formatting: %s', (_, before, after) => {
  expect(formattedText(before)).toBe(after);
  expect(formattedText(after)).toBe(after);
});

test('formatting the demo files loses no comment and no value, and a second time changes nothing', () => {
  const folder = new URL('../../../examples/rooms/', import.meta.url).pathname;
  const names = readdirSync(folder).filter((name) => name.endsWith('.room.yaml'));
  expect(names.length).toBeGreaterThan(4);
  for (const name of names) {
    const before = readFileSync(folder + name, 'utf8');
    const after = formattedText(before);
    expect(formattedText(after)).toBe(after);
    expect(comments(after)).toEqual(comments(before));
    expect(sameContent(parseFile('room', before).root, parseFile('room', after).root)).toBe(true);
  }
});

function comments(text: string): readonly string[] {
  return [...text.matchAll(/(?:^|\s)(#.*)$/gm)].map(([, comment = '']) => comment.trimEnd());
}

test('formatting edits only the lines that need it', async () => {
  const messy = ROOM_TEXT.replace('{ gear: rail_2 }', '{gear:   rail_2}');
  const edits = formatting(await analysisOf(messy));
  expect(edits).toHaveLength(1);
  expect(withEdits(messy, edits)).toBe(ROOM_TEXT);
});
