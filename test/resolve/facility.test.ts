// Facility files, and all rooms of a facility together.

import { expect, test } from 'vitest';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { checkFacility } from '../../schema/resolve/checkFacility.ts';
import { checkFacilityRooms } from '../../schema/resolve/checkFacilityRooms.ts';
import { expectMarked } from './marked.ts';
import { context, FACILITY, named } from './small.ts';

test('items whose gear there is not, layouts and findings that are none', () => {
  const text = `facility: 1
policies:
  mix:
    layouts: [0+2+0, 0+6+6]
    #                ^^^^^ error: No layout of ITU-R BS.2051 is called \`0+6+6\`
    severity: { layout/hight: warning }
    #           ^^^^^^^^^^^^ error: No finding has the code \`layout/hight\`; did you mean \`layout/height\`?
items:
  moor_a: { gear: moor_21 }
  #               ^^^^^^^ error: No gear model is called \`moor_21\`; did you mean \`moor_12\`?
`;
  const parsed = parseFile('facility', text);
  const { problems } = checkFacility(parsed, context({ findingCodes: ['layout/height'] }));
  expectMarked(text, [...parsed.problems, ...problems]);
});

test('the small facility is without faults; its items refer to their models', () => {
  const { problems, references } = checkFacility(parseFile('facility', FACILITY), context());
  expect(problems).toEqual([]);
  expect(references.filter(({ kind }) => kind === 'gear')).toMatchObject([
    { id: 'moor_12', target: { file: 'small.gear.yaml', path: ['models', 'moor_12'] } },
  ]);
});

test('one item in two rooms is told in both', () => {
  const room = (name: string, item: string) =>
    named(
      `${name}.room.yaml`,
      'room',
      `room: 1\nname: ${name}\nsubwoofers: { sub: { item: ${item}, at: unknown } }\n`,
    );
  const problems = checkFacilityRooms([
    room('Heron', 'moor_a'),
    room('Wren', 'moor_a'),
    room('Kestrel', 'moor_b'),
  ]);
  expect([...problems.keys()].toSorted()).toEqual(['Heron.room.yaml', 'Wren.room.yaml']);
  expect(problems.get('Heron.room.yaml')).toMatchObject([
    {
      severity: 'warning',
      path: ['subwoofers', 'sub', 'item'],
      message: '`moor_a` is a single thing and is in use in Wren too',
      related: [{ file: 'Wren.room.yaml' }],
    },
  ]);
});
