// Messages of the preview's page: whole ones are read as they are, anything else is nothing.

import { expect, test } from 'vitest';
import { readMessage, readStateUri } from '../../extension/preview/messages.ts';

const path = ['speakers', 'left', 'at', 'x'];
const set = { do: 'set', path, value: '1.30 m' };
const moved = {
  kind: 'moved',
  thing: { list: 'subwoofers', id: 'sub' },
  place: { x_m: 1.2, y_m: 0.6 },
};
const map = {
  kind: 'map',
  request: {
    of: { channel: 'L', set: null },
    frequency_hz: 42,
    height_m: 1.2,
    columns: 48,
    rows: 30,
  },
};

test.each([
  { kind: 'ready' },
  { kind: 'reveal', path },
  { kind: 'edit', version: 3, title: 'Move left', edits: [set, { do: 'remove', path }] },
  { kind: 'search', what: 'places', id: 'sub' },
  { kind: 'search', what: 'seat', id: 'mix' },
  { kind: 'try', trial: 2, version: 3, edits: [set] },
  { kind: 'ask', number: 1, version: 3, ask: moved },
  { kind: 'ask', number: 2, version: 3, ask: map },
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
  ['a question without a number', { kind: 'ask', version: 3, ask: moved }],
  ['a question about nothing', { kind: 'ask', number: 1, version: 3, ask: { kind: 'moved' } }],
  [
    'a place that is no number',
    {
      kind: 'ask',
      number: 1,
      version: 3,
      ask: { ...moved, place: { x_m: Number.NaN, y_m: 1 } },
    },
  ],
  [
    'a map of a million cells',
    {
      kind: 'ask',
      number: 1,
      version: 3,
      ask: { ...map, request: { ...map.request, rows: 1_000_000 } },
    },
  ],
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
  const asked = { kind: 'ask', number: 1, version: 3 };
  expect(readMessage({ ...asked, ask: { ...moved, more: 'x' } })).toEqual({ ...asked, ask: moved });
});

test('a state names its room, or none', () => {
  expect(readStateUri({ uri: 'file:///a.room.yaml', scroll_px: 3, open: [] })).toBe(
    'file:///a.room.yaml',
  );
  for (const state of [undefined, null, 'x', {}, { uri: 3 }])
    expect(readStateUri(state)).toBeNull();
});
