// Completion: the right things at the right places, and none that would break the file, wherever it is asked for.

import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CompletionItem, TextEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { parseFile } from '../../../schema/parse/parseFile.ts';
import type { Analysis } from '../../../server/analysis.ts';
import { completion } from '../../../server/features/completion/completion.ts';
import { cursorContext } from '../../../server/features/completion/cursorContext.ts';
import { fileUri, nodeFiles } from '../../../server/node/nodeFiles.ts';
import { placeOf } from '../../../server/places.ts';
import { createSession } from '../../../server/session.ts';
import { analysisOf, ROOM_TEXT, TODAY } from '../support/facility.ts';
import { cursorIn, withEdits } from '../support/marked.ts';

const OPTIONS = { takesSnippets: true, suggest: null };

async function itemsAt(marked: string): Promise<readonly CompletionItem[]> {
  const { text, offset } = cursorIn(marked);
  return completion(await analysisOf(text), offset, OPTIONS);
}

async function labelsAt(marked: string): Promise<readonly string[]> {
  return (await itemsAt(marked)).map(({ label }) => label);
}

/** The small room with one line in place of another. */
function withLine(line: string, marked: string): string {
  if (!ROOM_TEXT.includes(line)) throw new RangeError(`no line ${line}`);
  return ROOM_TEXT.replace(line, marked);
}

describe('keys', () => {
  test.each([
    [
      'of the file',
      `${ROOM_TEXT}$0`,
      ['sessions', 'alternatives', 'accepted', 'signed_off'],
      ['seats'],
    ],
    ['half typed', `${ROOM_TEXT}acc$0`, ['accepted'], ['seats']],
    [
      'of a flow map',
      withLine('gear: tern_5, channel: L, at:', 'gear: tern_5, $0, at:'),
      ['channel', 'mount'],
      ['gear', 'at', 'crossover'],
    ],
    [
      'of a flow map that is not closed yet',
      withLine('  desk: { gear: rail_2 }', '  desk: { $0'),
      ['gear', 'item'],
      ['channel'],
    ],
    [
      'of a block map',
      withLine('    polarity: normal', '    polarity: normal\n    $0'),
      ['delay', 'eq', 'standby'],
      ['crossover', 'polarity', 'level', 'gear'],
    ],
    [
      'that are devices',
      withLine('settings:\n', 'settings:\n  $0\n'),
      ['left', 'right', 'desk'],
      ['sub', 'crossover'],
    ],
    [
      'that are ports',
      withLine('      driver: {', '      $0\n      driver: {'),
      ['in_left'],
      ['driver', 'out_left'],
    ],
    [
      'that are walls',
      withLine('  air: {', '  surfaces: { $0 }\n  air: {'),
      ['front', 'ceiling', 'floor'],
      ['width'],
    ],
    [
      'that are bands',
      withLine('125 Hz: 0.30 s,', '125 Hz: 0.30 s, $0,'),
      ['63 Hz', '1 kHz'],
      ['125 Hz', '250 Hz'],
    ],
  ])('%s', async (_, marked, want, never) => {
    const labels = await labelsAt(marked);
    expect(labels).toEqual(expect.arrayContaining(want));
    for (const label of never) expect(labels).not.toContain(label);
  });

  test('required ones come first and say so', async () => {
    const items = await itemsAt(withLine('  mix: { at:', '  second: { $0 }\n  mix: { at:'));
    const first = [...items].sort((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1))[0];
    expect(first?.label).toBe('at');
    expect(first?.labelDetails?.description).toBe('required');
  });

  test('a new speaker comes with all that it needs', async () => {
    const items = await itemsAt(withLine('  left: { gear', '  $0\n  left: { gear'));
    const entry = items.find(({ label }) => label === 'new speaker');
    expect(TextEdit.is(entry?.textEdit) && entry.textEdit.newText).toMatch(
      /^\$\{1:speaker_1\}: \{ gear: \$2, at: \{ x: .*, y: .*, z: .* \} \}$/,
    );
  });
});

describe('values', () => {
  test.each([
    [
      'gear, loudspeakers first',
      'left: { gear: tern_5,',
      'left: { gear: $0,',
      ['tern_5', 'rail_2'],
    ],
    ['an item', 'item: plover_a', 'item: $0', ['plover_a']],
    ['a channel', 'channel: L,', 'channel: $0,', ['L', 'R', 'LFE', 'M+030']],
    ['a seat to aim at', 'aim: mix }', 'aim: $0 }', ['mix', 'unknown']],
    ['a choice', 'polarity: normal', 'polarity: $0', ['normal', 'inverted']],
    ['a layout', 'layout: 0+2+0', 'layout: $0', ['0+2+0', '0+5+0', '4+7+0']],
    ['a policy', 'policy: mix', 'policy: $0', ['mix']],
    ['an output', '- desk.main_left -> sub.in_left', '- $0', ['desk.main_left', 'sub.out_right']],
    [
      'an input',
      '- desk.main_left -> sub.in_left',
      '- desk.main_left -> $0',
      ['sub.in_left', 'left.in'],
    ],
    ['an arrow', '- desk.main_left -> sub.in_left', '- desk.main_left $0', ['->']],
    ['a unit', 'width: 4.20 m', 'width: 4.20$0', ['m', 'mm', 'ft']],
    ['a unit behind a blank', 'level: -3.0 dB', 'level: -3.0 $0', ['dB']],
    [
      'a word in place of a record',
      'crossover: { frequency: 80 Hz, slope: 24 dB/oct }',
      'crossover: $0',
      ['bypass'],
    ],
  ])('%s', async (_, before, after, want) => {
    expect(await labelsAt(withLine(before, after))).toEqual(expect.arrayContaining(want));
  });

  test('of the right dimension only', async () => {
    expect(await labelsAt(withLine('width: 4.20 m', 'width: 4.20$0'))).not.toContain('Hz');
  });

  test('what is computed stands among them', async () => {
    const items = await itemsAt(withLine('out_left: { delay: 0.0 ms }', 'out_left: { delay: $0 }'));
    expect(
      items.find(({ labelDetails }) => labelDetails?.description === 'computed')?.label,
    ).toMatch(/^\d\.\d ms$/);
  });
});

describe('nothing', () => {
  test.each([
    ['in a comment', `# abo$0ut\n${ROOM_TEXT}`],
    ['behind a finished map', withLine('role: reference }', 'role: reference } $0')],
    [
      'at an indent where nothing may stand',
      withLine('    polarity: normal', '   $0\n    polarity: normal'),
    ],
    ['in quotes', withLine('name: Test room', 'name: "Te$0st room"')],
    ['where a key would take the lines below it along', withLine('speakers:\n', 'speakers:\n$0\n')],
  ])('%s', async (_, marked) => {
    expect(await labelsAt(marked)).toEqual([]);
  });
});

// A completion anywhere must leave a file that still reads, with the key where it was asked for: the one class of fault that YAML
// servers have had to mend again and again.
test('any item accepted anywhere in the demo rooms leaves a file that reads, and puts its key where it was asked', async () => {
  const rooms = await demoRooms();
  let acceptedCount = 0;
  await fc.assert(
    fc.property(
      fc.noBias(fc.nat(rooms.length - 1)),
      fc.noBias(fc.nat(1e9)),
      fc.noBias(fc.nat(1e9)),
      (room, place, pick) => {
        const analysis = rooms[room];
        if (!analysis) return;
        const { text } = analysis.source.parsed;
        const offset = place % (text.length + 1);
        const items = completion(analysis, offset, OPTIONS);
        const item = items[pick % Math.max(1, items.length)];
        const context = cursorContext(text, offset);
        if (!item || !context || !TextEdit.is(item.textEdit)) return;
        acceptedCount += 1;
        const newText = withoutFields(item.textEdit.newText);
        const after = withEdits(text, [{ ...item.textEdit, newText }]);
        const parsed = parseFile('room', after);
        const told = `${JSON.stringify(item.label)} at ${offset}: ${JSON.stringify(text.slice(offset - 40, offset))}$0`;
        expect(broken(parsed.problems), told).toEqual(broken(analysis.source.parsed.problems));
        if (context.wants === 'key') {
          const key = newText.replace(/^\s+/, '').split(':')[0] ?? '';
          expect(placeOf(parsed, [...context.path, key]), told).not.toBeNull();
        }
      },
    ),
    { numRuns: 1500, seed: 20261125 },
  );
  expect(acceptedCount).toBeGreaterThan(300);
});

// The same while the line is half typed: the rest of the line is not there yet.
test('any key accepted on a new line of the demo rooms stands where it was asked', async () => {
  const rooms = await demoRooms();
  let acceptedCount = 0;
  for (const { source, surroundings } of rooms) {
    const lines = source.parsed.text.split('\n');
    for (const [index, line] of lines.entries()) {
      const indent = line.length - line.trimStart().length;
      const text = [
        ...lines.slice(0, index + 1),
        ' '.repeat(indent),
        ...lines.slice(index + 1),
      ].join('\n');
      const offset = lines.slice(0, index + 1).join('\n').length + 1 + indent;
      const context = cursorContext(text, offset);
      if (context?.wants !== 'key') continue;
      const parsed = parseFile('room', text);
      const analysis = {
        source: { ...source, parsed, text: textDocument(text) },
        surroundings,
        references: [],
        setup: null,
        remarks: [],
      };
      for (const item of completion(analysis, offset, OPTIONS).slice(0, 3)) {
        if (!TextEdit.is(item.textEdit)) continue;
        const newText = withoutFields(item.textEdit.newText);
        const after = parseFile('room', withEdits(text, [{ ...item.textEdit, newText }]));
        const key = newText.split(':')[0] ?? '';
        const told = `${item.label} below line ${index + 1} ${line}`;
        expect(placeOf(after, [...context.path, key]), told).not.toBeNull();
        expect(broken(after.problems), told).toEqual(broken(parsed.problems));
        acceptedCount += 1;
      }
    }
  }
  expect(acceptedCount).toBeGreaterThan(200);
});

function textDocument(text: string): TextDocument {
  return TextDocument.create('file:///facility/rooms/x.room.yaml', 'groundbass-room', 1, text);
}

/** Worked out once for both. */
let all: Promise<readonly Analysis[]> | null = null;

function demoRooms(): Promise<readonly Analysis[]> {
  all ??= workedOut();
  return all;
}

async function workedOut(): Promise<readonly Analysis[]> {
  const folder = new URL('../../../examples/rooms/', import.meta.url).pathname;
  const session = createSession(nodeFiles, () => TODAY);
  const rooms: Analysis[] = [];
  for (const name of readdirSync(folder).filter((one) => one.endsWith('.room.yaml'))) {
    const analysis = await session.analysis(fileUri(folder + name));
    // Rooms that are broken on purpose would hide what breaks them further.
    const isWhole = !readFileSync(folder + name, 'utf8').includes('typical mistakes');
    if (analysis !== null && isWhole) rooms.push(analysis);
  }
  return rooms;
}

/** Faults that say that the text does not read as YAML. */
function broken(
  problems: readonly { readonly code: string; readonly severity: string }[],
): readonly string[] {
  return problems
    .filter(({ code, severity }) => code.startsWith('yaml/') && severity === 'error')
    .map(({ code }) => code);
}

/** A snippet as it stands once its fields were passed by; an empty field becomes a word. */
function withoutFields(text: string): string {
  return text
    .replace(/\$\{\d+:((?:[^\\}]|\\.)*)\}/g, (_, inner: string) => inner.replace(/\\(.)/g, '$1'))
    .replace(/\{ \$\d \}/g, '{}')
    .replace(/\$\d/g, 'unknown');
}
