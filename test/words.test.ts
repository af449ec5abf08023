// docs/words.md has every fixed word that a user meets, with where it comes from, and no word that is gone.

import { describe, expect, test } from 'vitest';
import { read } from './support/sources.ts';
import * as said from './support/userWords.ts';

const PAGE = said.wordsPage();
const ALL_ROWS = [...PAGE.values()].flat();

function rowsUnder(heading: string): readonly said.Row[] {
  return PAGE.get(heading) ?? [];
}

function wordsUnder(...headings: readonly string[]): readonly string[] {
  return headings.flatMap((heading) => rowsUnder(heading).flatMap(({ words }) => words));
}

/** Both ways: nothing is missing, nothing is left over. */
function expectSame(page: readonly string[], sources: Iterable<string>): void {
  const wanted = new Set(sources);
  expect(wanted.size).toBeGreaterThan(0);
  expect({
    missing: [...wanted].filter((word) => !page.includes(word)).sort(),
    gone: [...new Set(page)].filter((word) => !wanted.has(word)).sort(),
  }).toEqual({ missing: [], gone: [] });
}

test('every row says where its words come from', () => {
  expect(ALL_ROWS.length).toBeGreaterThan(100);
  const origin =
    /\b(trade|plain|own|physics|SI|ITU-R|ISO|IEC|AES17|Language Server Protocol|usual on command lines|the formats|as the keys|imperial|international)\b/;
  expect(ALL_ROWS.filter((row) => !origin.test(row.origin))).toEqual([]);
});

describe('files', () => {
  test('keys', () => expectSame(wordsUnder('Keys of files'), said.fileKeys()));
  test('words of choice', () => expectSame(wordsUnder('Words of choice'), said.choices()));
  test('layouts', () => expectSame(wordsUnder('Layouts, channels'), said.layoutNames()));
  test('units', () => expectSame(wordsUnder('Units'), said.unitSymbols()));
  test('materials', () => expectSame(wordsUnder('Materials'), said.materials()));
});

test('headings, columns, legends and states of the setup sheet', () => {
  expectSame(wordsUnder('The setup sheet', 'States'), said.sheetWords());
});

test('hints', async () => {
  const page = new Set(wordsUnder('Hints beside the lines').flatMap((words) => words.split(' ')));
  const found = [...(await said.hintWords())];
  expect(found.length).toBeGreaterThan(5);
  expect(found.filter((word) => !page.has(word) && !/^[MUBT][+-]/.test(word))).toEqual([]);
  const source = ['words', 'features/inlayHints']
    .map((folder) => `server/${folder}/*.ts`)
    .concat('core/measured/compareTakes.ts')
    .flatMap((files) => said.filesOf(files))
    .join('\n');
  const gone = wordsUnder('Hints beside the lines').filter(
    (word) => !source.includes(word) && !/^[mf]t?³$/.test(word),
  );
  expect(gone).toEqual([]);
});

describe('editor', () => {
  test('commands, each with its title', () => {
    const page = new Set(said.listed('Commands').map(({ id, title }) => `${id} ${title}`));
    expectSame(
      [...page],
      [...said.commands()].map(([id, title]) => `${id} ${title}`),
    );
  });
  test('settings', () => expectSame(wordsUnder('Editor settings'), said.editorSettings()));
  test('languages, snippets, walkthrough', () =>
    expectSame(wordsUnder('Languages, snippets, walkthrough'), said.editorTitles()));
});

test('command line', async () => expectSame(wordsUnder('Command line'), await said.commandLine()));

test('findings, each with its title', () => {
  expectSame(
    said.listed('Findings').map(({ id, title }) => `${id} ${title}`),
    [...said.findings()].map(([code, title]) => `${code} ${title}`),
  );
});

test('every key of figures is told on the page of the command line', async () => {
  const page = read('docs/command-line.md');
  const keys = [...(await said.figureKeys())];
  expect(keys.length).toBeGreaterThan(50);
  expect(keys.filter((key) => !new RegExp(`\\b${key}\\b`).test(page))).toEqual([]);
});

test('every verb has its line on that page', async () => {
  const page = read('docs/command-line.md');
  const verbs = [...(await said.verbs())];
  expect(verbs.length).toBeGreaterThan(6);
  expect(verbs.filter((verb) => !new RegExp(`^\\|.*\`${verb}\\b.*\\|`, 'm').test(page))).toEqual(
    [],
  );
});
