// Messages of the preview's page: whole ones are read as they are, anything else is nothing.

import { expect, test } from 'vitest';
import { readMessage, readStateUri } from '../../extension/preview/messages.ts';

const path = ['speakers', 'left', 'at', 'x'];
const set = { do: 'set', path, value: '1.30 m' };

test.each([
  { kind: 'ready' },
  { kind: 'reveal', path },
  { kind: 'edit', version: 3, title: 'Move left', edits: [set, { do: 'remove', path }] },
  { kind: 'search', what: 'places', id: 'sub' },
  { kind: 'search', what: 'seat', id: 'mix' },
  { kind: 'try', trial: 2, version: 3, edits: [set] },
])('$kind is read', (message) => {
  expect(readMessage(message)).toEqual(message);
});

test.each([
  ['nothing', undefined],
  ['null', null],
  ['a text', 'ready'],
  ['a list', [{ kind: 'ready' }]],
  ['an unknown kind', { kind: 'run' }],
  ['a path that is a text', { kind: 'reveal', path: 'speakers.left' }],
  ['a path with a number', { kind: 'reveal', path: ['wiring', 0] }],
  ['a version that is no whole number', { kind: 'edit', version: 1.5, title: '', edits: [set] }],
  ['an edit without edits', { kind: 'edit', version: 1, title: '', edits: [] }],
  ['too many edits', { kind: 'edit', version: 1, title: '', edits: Array(1001).fill(set) }],
  ['a search for what nobody knows', { kind: 'search', what: 'gold', id: 'sub' }],
  ['a search for nothing', { kind: 'search', what: 'eq' }],
  ['a trial without a number', { kind: 'try', version: 3, edits: [set] }],
  ['a trial of nothing', { kind: 'try', trial: 1, version: 3, edits: [] }],
  ['an unknown edit', { kind: 'edit', version: 1, title: '', edits: [{ do: 'open', path }] }],
  [
    'a value that is no text',
    { kind: 'edit', version: 1, title: '', edits: [{ ...set, value: 1 }] },
  ],
])('%s is no message', (_, message) => {
  expect(readMessage(message)).toBeNull();
});

test('only what is known crosses over', () => {
  expect(readMessage({ kind: 'reveal', path, html: '<script>' })).toEqual({ kind: 'reveal', path });
});

test('a state names its room, or none', () => {
  expect(readStateUri({ uri: 'file:///a.room.yaml', scroll_px: 3, open: [] })).toBe(
    'file:///a.room.yaml',
  );
  for (const state of [undefined, null, 'x', {}, { uri: 3 }])
    expect(readStateUri(state)).toBeNull();
});
