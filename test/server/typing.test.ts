// What is kept between keystrokes never shows: a file that was typed in, edit by edit, says the same as one just opened.
//
// The peer is the slow way: a parser, a worker and an analysis that have seen no other version of the file.

import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { createWorkOut } from '../../core/workOut.ts';
import { createParser } from '../../schema/parse/parseFile.ts';
import { analyse } from '../../server/analyse.ts';
import type { Analysis, Surroundings } from '../../server/analysis.ts';
import { diagnostics } from '../../server/features/diagnostics.ts';
import { inlayHints } from '../../server/features/inlayHints/inlayHints.ts';
import { fileUri, nodeFiles } from '../../server/node/nodeFiles.ts';
import { DEFAULT_SETTINGS } from '../../server/protocol/settings.ts';
import { createSession } from '../../server/session.ts';
import { expectSame } from '../support/expectSame.ts';

const ROOMS = new URL('../../examples/rooms/', import.meta.url);
const NAMES = readdirSync(ROOMS).filter((name) => name.endsWith('.room.yaml'));
const WHOLE = { start: { line: 0, character: 0 }, end: { line: 10_000, character: 0 } };

interface Edit {
  readonly kind: (typeof KINDS)[number];
  /** Where, as a share of the text. */
  readonly share: number;
  readonly digit: number;
}

const KINDS = [
  'digit',
  'digit',
  'letter',
  'delete',
  'comment line',
  'comment behind',
  'line twice',
  'line away',
  'undo',
  'undo',
] as const;

const edits = fc.array(
  fc.record({
    kind: fc.constantFrom(...KINDS),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
    digit: fc.integer({ min: 0, max: 9 }),
  }),
  { minLength: 6, maxLength: 14 },
);

test.each(NAMES)('%s, typed in', async (name) => {
  const url = new URL(name, ROOMS);
  const uri = fileUri(url.pathname);
  const opened = await createSession(nodeFiles, () => '2026-11-25').analysis(uri);
  if (opened === null) throw new RangeError('the room was not read');
  const { surroundings } = opened;
  fc.assert(
    fc.property(edits, (all) => {
      const kept = typist(uri, surroundings);
      for (const text of versions(readFileSync(url, 'utf8'), all))
        expectSame(kept(text), typist(uri, surroundings)(text));
    }),
    { numRuns: 3 },
  );
});

/** One file's parser and worker over its versions, and all that a keystroke shows. */
function typist(uri: string, surroundings: Surroundings): (text: string) => unknown {
  const parser = createParser('room');
  const workOut = createWorkOut();
  return (text) => {
    const document = TextDocument.create(uri, 'groundbass', 1, text);
    const source = { uri, version: 1, text: document, parsed: parser.parse(text) };
    const settings = DEFAULT_SETTINGS;
    const options = { settings, today: '2026-11-25', workOut, exists: () => true, crossing: [] };
    return shown(analyse(source, surroundings, options));
  };
}

function shown(analysis: Analysis): unknown {
  const { source, references, setup, remarks } = analysis;
  const hints = inlayHints(analysis, WHOLE, DEFAULT_SETTINGS.hints);
  const { root, problems } = source.parsed;
  return { root, problems, references, setup, remarks, hints, told: diagnostics(analysis, null) };
}

/** Every text from the first to the last edit. */
function versions(first: string, all: readonly Edit[]): readonly string[] {
  const texts = [first];
  for (const edit of all) texts.push(edited(texts.at(-1) ?? first, edit, texts.at(-2) ?? first));
  return texts;
}

function edited(text: string, { kind, share, digit }: Edit, before: string): string {
  const at = Math.floor(share * text.length);
  const line = text.lastIndexOf('\n', at) + 1;
  const found = text.indexOf('\n', at);
  const end = found < 0 ? text.length : found;
  switch (kind) {
    case 'digit': {
      const place = text.slice(at).search(/\d/);
      return place < 0 ? text : `${text.slice(0, at + place)}${digit}${text.slice(at + place + 1)}`;
    }
    case 'letter':
      return `${text.slice(0, at)}x${text.slice(at)}`;
    case 'delete':
      return text.slice(0, at) + text.slice(at + 1);
    case 'comment line':
      return `${text.slice(0, line)}# ${'y'.repeat(digit)}\n${text.slice(line)}`;
    case 'comment behind':
      return `${text.slice(0, end)} # ${digit}${text.slice(end)}`;
    case 'line twice':
      return `${text.slice(0, line)}${text.slice(line, end)}\n${text.slice(line)}`;
    case 'line away':
      return text.slice(0, line) + text.slice(end + 1);
    case 'undo':
      return before;
  }
}
