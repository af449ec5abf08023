// Call hierarchy: from any word that names a thing or a port to what feeds it and what it feeds, as the wiring says.

import { describe, expect, test } from 'vitest';
import {
  incomingCalls,
  outgoingCalls,
  prepareCallHierarchy,
} from '../../../server/features/callHierarchy.ts';
import { ROOM, ROOM_TEXT, sessionWith } from '../support/facility.ts';
import { cursorIn } from '../support/marked.ts';

async function at(before: string, after: string) {
  const { text, offset } = cursorIn(ROOM_TEXT.replace(before, after));
  expect(text).toBe(ROOM_TEXT);
  const analysis = await sessionWith(text).analysis(ROOM);
  if (analysis === null) throw new RangeError('the room was not read');
  const [item, ...more] = prepareCallHierarchy(analysis, offset);
  expect(more).toEqual([]);
  return {
    item,
    feeds: item ? outgoingCalls(analysis, item.data).map(({ to }) => to.name) : [],
    fedBy: item ? incomingCalls(analysis, item.data).map(({ from }) => from.name) : [],
    analysis,
  };
}

const LINES = ROOM_TEXT.split('\n');
const lineOf = (text: string) => LINES.findIndex((line) => line.includes(text));

describe('things', () => {
  test('a subwoofer by its key', async () => {
    const { item, feeds, fedBy } = await at('  sub: { item', '  su$0b: { item');
    expect(item).toMatchObject({ name: 'sub', detail: 'plover_10', uri: ROOM });
    expect(item?.selectionRange.start.line).toBe(lineOf('  sub: { item'));
    expect(fedBy).toEqual(['desk']);
    expect(feeds).toEqual(['left', 'right']);
  });

  test('the arrows by which it is met', async () => {
    const { item, analysis } = await at('  sub: { item', '  su$0b: { item');
    const [desk] = incomingCalls(analysis, item?.data);
    expect(desk?.fromRanges.map(({ start }) => start.line)).toEqual([
      lineOf('- desk.main_left'),
      lineOf('- desk.main_right'),
    ]);
  });

  test('a device by its name in a wire, a speaker, and a source that nothing feeds', async () => {
    expect((await at('- desk.main_left', '- de$0sk.main_left')).feeds).toEqual(['sub']);
    expect((await at('- desk.main_left', '- de$0sk.main_left')).fedBy).toEqual([]);
    expect((await at('  left: { gear', '  le$0ft: { gear')).fedBy).toEqual(['sub']);
  });
});

describe('ports', () => {
  test('an input leads to the outputs that its signal reaches, and to the driver', async () => {
    const { item, feeds, fedBy } = await at('-> sub.in_left', '-> sub.in_$0left');
    expect(item).toMatchObject({ name: 'sub.in_left', detail: 'input' });
    expect(fedBy).toEqual(['desk.main_left']);
    expect([...feeds].sort()).toEqual(['sub', 'sub.out_left']);
  });

  test('an output comes from its inputs', async () => {
    const { item, feeds, fedBy } = await at('- sub.out_right', '- sub.out_ri$0ght');
    expect(item).toMatchObject({ name: 'sub.out_right', detail: 'output' });
    expect(fedBy).toEqual(['sub.in_right']);
    expect(feeds).toEqual(['right.in']);
  });

  test('the last input feeds the driver', async () => {
    expect((await at('-> left.in', '-> left.i$0n')).feeds).toEqual(['left']);
  });
});

test('words that are no part of the signal have none, and odd data no answer', async () => {
  expect((await at('  mix: { at', '  mi$0x: { at')).item).toBeUndefined();
  const { analysis } = await at('  sub: { item', '  su$0b: { item');
  for (const data of [null, undefined, 'sub', { id: 7, port: null }, { id: 'nobody', port: null }])
    expect([...incomingCalls(analysis, data), ...outgoingCalls(analysis, data)]).toEqual([]);
});
