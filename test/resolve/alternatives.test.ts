// Alternatives: overlays of the room that name what there is, resolved as the room that they would make.

import { expect, test } from 'vitest';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { resolveAlternative } from '../../schema/resolve/resolveAlternative.ts';
import { check, context, resolveText } from './small.ts';

const ROOM = `
space: { size: { width: 4 m, depth: 5 m, height: 3 m }, surfaces: { floor: { material: carpet } } }
seats: { mix: { at: { x: 2 m, y: 2 m, z: 1.2 m } } }
speakers: { left: { gear: heath_6, channel: L, at: { x: 1 m, y: 1 m, z: 1.2 m }, aim: mix } }
subwoofers: { sub: { item: moor_a, at: { x: 2 m, y: 1 m, z: 0.2 m } } }
settings: { sub: { level: -3 dB } }
`;

function alternative(change: string) {
  const text = `room: 1${ROOM}alternatives:\n  other:\n    change:\n${change.replace(/^/gm, '      ')}\n`;
  return resolveAlternative(parseFile('room', text), 'other', context());
}

test('what the overlay does not name stays', () => {
  const moved = alternative('subwoofers: { sub: { at: { x: 0.62 m } } }');
  expect(moved?.problems).toEqual([]);
  expect(moved?.room.subwoofers).toMatchObject([
    { id: 'sub', item: 'moor_a', gearId: 'moor_12', at: { x_m: 0.62, y_m: 1, z_m: 0.2 } },
  ]);
  expect(moved?.room.speakers).toHaveLength(1);
  expect(moved?.room.settings[0]?.values).toHaveLength(1);
});

test('absent takes a thing away, and what belonged to it with it', () => {
  const without = alternative('subwoofers: { sub: absent }');
  expect(without?.problems).toEqual([]);
  expect(without?.room.subwoofers).toEqual([]);
  expect(without?.room.settings).toEqual([]);
});

test('one way of saying a thing takes the place of another', () => {
  const other = alternative(
    'space: { surfaces: { floor: { absorption: { 63 Hz: 0.2 } } } }\nsubwoofers: { sub: { gear: moor_12 } }',
  );
  expect(other?.problems).toEqual([]);
  expect(other?.room.space.surfaces[0]?.covering.kind).toBe('absorption');
  expect(other?.room.subwoofers).toMatchObject([{ item: null, gearId: 'moor_12' }]);
});

test('there is no such alternative', () => {
  expect(resolveAlternative(parseFile('room', `room: 1${ROOM}`), 'other', context())).toBeNull();
});

test('overlays name what there is', () => {
  check(
    `${ROOM}
alternatives:
  by_window:
    because: less spread between seats
    change:
      subwoofers: { subb: { at: { x: 1 m, y: 1 m, z: 0.2 m } } }
      #             ^^^^ error: There is no subwoofer to change called \`subb\`; did you mean \`sub\`?
      speakers: { left: { aim: mixx } }
      #                        ^^^^ error: No seat is called \`mixx\`; did you mean \`mix\`?
      settings: { sub: { levl: 0 dB } }
      #                  ^^^^ error: \`sub\` (moor_12) has no control called \`levl\`; did you mean \`level\`?
      seats: { couch: absent }
      #        ^^^^^ error: There is no seat to change called \`couch\`; seats here: \`mix\`
`.replace('subb: { at: { x: 1 m, y: 1 m, z: 0.2 m } }', 'subb: absent'),
  );
});

test('names in an overlay refer to the room, so that renaming reaches them', () => {
  const { references } = resolveText(`${ROOM}
alternatives:
  other:
    change:
      subwoofers: { sub: { at: { x: 1 m } }, sub_2: { gear: moor_12, at: unknown } }
      settings: { sub_2: { level: 0 dB } }
`);
  const inside = references
    .filter(({ path }) => path[0] === 'alternatives')
    .map(({ kind, id, target }) => [kind, id, target?.path.join('.')]);
  expect(inside).toEqual([
    ['speaker', 'sub', 'subwoofers.sub'],
    ['gear', 'moor_12', 'models.moor_12'],
    ['device', 'sub_2', 'alternatives.other.change.subwoofers.sub_2'],
    ['control', 'level', 'models.moor_12.controls.level'],
  ]);
});
