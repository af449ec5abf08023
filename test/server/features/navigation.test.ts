// Navigation: definition, references, highlights and renaming, within the room and across files.

import { describe, expect, test } from 'vitest';
import { definition } from '../../../server/features/definition.ts';
import { documentHighlights } from '../../../server/features/documentHighlights.ts';
import { documentLinks } from '../../../server/features/documentLinks.ts';
import { references } from '../../../server/features/references.ts';
import { prepareRename, rename } from '../../../server/features/rename.ts';
import { workspaceSymbols } from '../../../server/features/workspaceSymbols.ts';
import {
  FACILITY,
  FACILITY_TEXT,
  GEAR,
  GEAR_TEXT,
  ROOM,
  ROOM_TEXT,
  sessionWith,
} from '../support/facility.ts';
import { changedLines, cursorIn, withEdits } from '../support/marked.ts';

const TEXTS: Readonly<Record<string, string>> = {
  [GEAR]: GEAR_TEXT,
  [FACILITY]: FACILITY_TEXT,
  [ROOM]: ROOM_TEXT,
};

async function at(before: string, after: string) {
  const { text, offset } = cursorIn(ROOM_TEXT.replace(before, after));
  expect(text).toBe(ROOM_TEXT);
  const session = sessionWith(text);
  const analysis = await session.analysis(ROOM);
  if (analysis === null) throw new RangeError('the room was not read');
  return { analysis, offset, all: await session.all() };
}

describe('definition', () => {
  test.each([
    ['a gear model', 'gear: rail_2', 'gear: ra$0il_2', GEAR, '  rail_2:'],
    ['an item', 'item: plover_a', 'item: plo$0ver_a', FACILITY, '  plover_a: {'],
    ['a device in a wire', '- desk.main_left', '- de$0sk.main_left', ROOM, '  desk: {'],
    ['a port in a wire', '- desk.main_left', '- desk.mai$0n_left', GEAR, '    outputs: [main_left'],
    ['a policy', 'policy: mix', 'policy: mi$0x', FACILITY, '  mix: {'],
    ['settings', '  sub:\n    cross', '  su$0b:\n    cross', ROOM, '  sub: { item'],
  ])('of %s', async (_, before, after, uri, line) => {
    const { analysis, offset } = await at(before, after);
    const found = definition(analysis, offset);
    expect(found?.uri).toBe(uri);
    expect(TEXTS[uri]?.split('\n')[found?.range.start.line ?? -1]).toContain(line);
  });
});

test('references of a gear model are found from the room', async () => {
  const { analysis, offset, all } = await at('left: { gear: tern_5', 'left: { gear: ter$0n_5');
  const found = references(analysis, offset, all, true);
  expect(found.filter(({ uri }) => uri === ROOM)).toHaveLength(2);
  expect(found.filter(({ uri }) => uri === GEAR)).toHaveLength(1);
});

test('highlights mark every place of a name in this file', async () => {
  const { analysis, offset } = await at('  sub: { item', '  su$0b: { item');
  // Its definition, four ends of wires, and its settings.
  expect(documentHighlights(analysis, offset)).toHaveLength(6);
});

describe('rename', () => {
  test('a subwoofer, everywhere in the room', async () => {
    const { analysis, offset, all } = await at('  sub: { item', '  su$0b: { item');
    const edit = rename(analysis, offset, 'bass', all);
    const after = withEdits(ROOM_TEXT, edit?.changes?.[ROOM] ?? []);
    expect(changedLines(ROOM_TEXT, after)).toEqual([
      '-   sub: { item: plover_a, at: { x: 1.70 m, y: 0.60 m, z: 0.25 m } }',
      '-   - desk.main_left -> sub.in_left',
      '-   - desk.main_right -> sub.in_right',
      '-   - sub.out_left -> left.in',
      '-   - sub.out_right -> right.in',
      '-   sub:',
      '+   bass: { item: plover_a, at: { x: 1.70 m, y: 0.60 m, z: 0.25 m } }',
      '+   - desk.main_left -> bass.in_left',
      '+   - desk.main_right -> bass.in_right',
      '+   - bass.out_left -> left.in',
      '+   - bass.out_right -> right.in',
      '+   bass:',
    ]);
  });

  test('a gear model, across files', async () => {
    const { analysis, offset, all } = await at('left: { gear: tern_5', 'left: { gear: ter$0n_5');
    const edit = rename(analysis, offset, 'tern_6', all);
    expect(edit?.changes?.[ROOM]).toHaveLength(2);
    expect(edit?.changes?.[GEAR]).toHaveLength(1);
  });

  test('an item, in the room and the facility', async () => {
    const { analysis, offset, all } = await at('item: plover_a', 'item: plo$0ver_a');
    const edit = rename(analysis, offset, 'plover_b', all);
    expect(edit?.changes?.[ROOM]).toHaveLength(1);
    expect(edit?.changes?.[FACILITY]).toHaveLength(1);
  });

  test.each([
    ['Bass', 'small letter'],
    ['left', 'already a name'],
    ['unknown', 'something else'],
  ])('refuses %s', async (name, reason) => {
    const { analysis, offset, all } = await at('  sub: { item', '  su$0b: { item');
    expect(() => rename(analysis, offset, name, all)).toThrow(reason);
  });

  test('is not offered on what is no name', async () => {
    const { analysis, offset } = await at('width: 4.20', 'wid$0th: 4.20');
    expect(prepareRename(analysis, offset)).toBeNull();
  });
});

test('workspace symbols find a name of any file by its letters', async () => {
  const { all } = await at('width: 4.20', 'wid$0th: 4.20');
  expect(workspaceSymbols(all, 'plv').map(({ name }) => name)).toEqual(['plover_a', 'plover_10']);
});

test('a measurement file becomes a link; one that leads out of the fence does not', async () => {
  const take = (file: string): string =>
    `${ROOM_TEXT}sessions:\n  spring: { date: 2026-03-01, takes: { one: { file: ${file}, drive: L, sounding: [left], seat: mix } } }\n`;
  const links = async (file: string) => {
    const analysis = await sessionWith(take(file)).analysis(ROOM);
    return analysis === null ? [] : documentLinks(analysis).map(({ target }) => target);
  };
  expect(await links('m/one.txt')).toEqual(['file:///facility/rooms/m/one.txt']);
  expect(await links('../../../etc/passwd')).toEqual([]);
});
