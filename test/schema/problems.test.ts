// Faults of files: each told once, at its place, in the words of the format; and the fix that cures it.

import { describe, expect, test } from 'vitest';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { PROBLEM_KINDS } from '../../schema/problems.ts';
import { applied, check, checkWhole, fixed } from './checkProblems.ts';
import { ALL } from './examples.ts';

test.each(ALL)('nothing is wrong with the $name', ({ kind, text }) => {
  checkWhole(text, kind);
});

describe('not YAML', () => {
  test('a bracket is not closed, and its neighbours are whole', () => {
    check(`
seats:
  mix: { at: { x: 2.31 m, y: 2.32 m, z: 1.22 m }
  #                                            ^ error yaml/syntax: A bracket is not closed: \`}\` is missing
  client: { at: { x: 2.31 m, y: 80 Hz, z: 1.22 m } }
  #                             ^^^^^ error quantity/wrong-dimension: A length is expected here, such as \`1.20 m\`
`);
  });

  test('a quote is not closed', () => {
    const { root, problems } = parseFile('room', 'room: 1\nname: "Heron\npolicy: mix\n');
    expect(problems.map(({ code, message }) => [code, message])).toEqual([
      ['yaml/syntax', 'A quote is not closed'],
    ]);
    expect(
      root?.kind === 'map' && [...root.entries].map(([key, { value }]) => [key, value !== null]),
    ).toEqual([
      ['room', true],
      ['name', false],
      ['policy', true],
    ]);
  });

  test('a half typed line', () => {
    check(`
seats:
  mix: { at: unknown }
  cli
# ^^^ error yaml/colon-missing: A colon is missing after \`cli\`: a key and its value are expected here
  producer: { at: unknown }
`);
  });

  test('a half typed line at the top', () => {
    const { problems } = parseFile('room', 'room: 1\nseats: { mix: { at: unknown } }\nspe\n');
    expect(problems.map(({ code, range }) => [code, range])).toEqual([
      ['yaml/colon-missing', { start: 40, end: 43 }],
    ]);
  });

  test('no space after a colon in a line of its own', () => {
    check(`
space:
  size:
    width: 4 m
    depth:5 m
#   ^^^^^^^^^ error yaml/space-after-colon: A space is missing after the colon of \`depth\`
    height: 3 m
`);
  });

  test('an indentation that fits nothing', () => {
    check(`
seats:
    mix: { at: unknown }
  client: { at: unknown }
# ^^^^^^ error yaml/indentation: This line is indented less than those that it belongs with
`);
  });

  test('tabs', () => {
    const { problems } = parseFile('room', 'room: 1\nseats:\n\tmix: { at: unknown }\n');
    expect(problems.map(({ code }) => code)).toEqual(['yaml/indentation']);
  });

  test('two keys in one line', () => {
    const { problems } = parseFile(
      'room',
      'room: 1\nspace:\n  size: unknown\n  air: temperature: 20 °C\n',
    );
    expect(problems).toHaveLength(1);
  });
});

describe('what YAML loses without a word', () => {
  test('text cut at a comment', () => {
    check(`
name: Studio #2
#           ^^^ warning yaml/text-cut: From \`#\` on this is a comment and no part of the text: put the text in quotes if it belongs to it
`);
  });

  test('a comment is a comment', () => {
    check(`
name: Heron # the small one
space: { air: { temperature: 21.5 °C } , size: unknown } #todo
`);
  });

  test('a comma in a value in braces', () => {
    check(`
accepted:
  shelf: { finding: layout/height, about: speakers.right, because: fixed, until lease ends }
  #                                                                ^^^^^^^^^^^^^^^^^^^^^^^ error yaml/comma-in-value: The comma ends the value of \`because\` here: put \`fixed, until lease ends\` in quotes
`);
    expect(
      fixed('accepted: { a: { finding: a/b, about: x, because: fixed, until, it ends } }\n'),
    ).toBe('accepted: { a: { finding: a/b, about: x, because: "fixed, until, it ends" } }\n');
  });

  test('a decimal comma in braces is told once', () => {
    check(`
seats:
  mix: { at: { x: 1,38 m, y: 2 m, z: 1.2 m } }
  #               ^^^^^^ error quantity/decimal-comma: The decimal sign is a point: \`1.38 m\`
`);
    expect(fixed('seats: { a: { at: { x: 1,38 m, y: 2 m, z: 1 m } } }\n')).toBe(
      'seats: { a: { at: { x: 1.38 m, y: 2 m, z: 1 m } } }\n',
    );
  });

  test('a decimal comma in a list', () => {
    check(`
space:
  size: unknown
  fixtures: { door: { kind: keep_clear, x: [0 m, 0,95 m], y: [1 m, 2 m] } }
  #                                              ^^^^^^ error quantity/decimal-comma: The decimal sign is a point: \`0.95 m\`
`);
  });

  test('no space after the colon in braces', () => {
    check(`
space: { size: unknown, decay_time: {63 Hz:0.42 s} }
#                                    ^^^^^^^^^^^^ error yaml/space-after-colon: A space is missing after the colon of \`63 Hz\`
`);
    expect(fixed('space: { size: unknown, decay_time: {63 Hz:0.42 s} }\n')).toBe(
      'space: { size: unknown, decay_time: {63 Hz: 0.42 s} }\n',
    );
  });

  test('text that looks like a number', () => {
    checkWhole(
      `facility: 1
name: 5.1
#     ^^^ warning yaml/number-like: YAML takes \`5.1\` for a number: put it in quotes
items: { moor_a: { gear: moor_12, serial: 00417 } }
#                                         ^^^^^ warning yaml/number-like: YAML takes \`00417\` for a number: put it in quotes
`,
      'facility',
    );
    expect(fixed('items: { moor_a: { gear: moor_12, serial: 00417 } }\n', 'facility')).toBe(
      'items: { moor_a: { gear: moor_12, serial: "00417" } }\n',
    );
  });

  test('keys twice, as text and by value', () => {
    check(`
seats:
  mix: { at: unknown }
  mix: { at: unknown, role: reference }
# ^^^ error yaml/duplicate-key: \`mix\` stands here twice; the first one counts
space: { size: unknown, decay_time: { 63 Hz: 0.4 s, 0.063 kHz: 0.5 s } }
#                                                   ^^^^^^^^^ error yaml/equal-keys: \`0.063 kHz\` is the same frequency as \`63 Hz\`
`);
  });

  test('keys that programs trip over', () => {
    check(`
seats:
  constructor: { at: unknown }
# ^^^^^^^^^^^ error yaml/unsafe-key: \`constructor\` cannot be a key: it is a word that programs use inside
  "12": { at: unknown }
# ^^^^ error yaml/unsafe-key: \`12\` cannot be a key: a name starts with a letter, and a quantity has a unit
  __proto__: { at: unknown }
# ^^^^^^^^^ error yaml/unsafe-key: \`__proto__\` cannot be a key: it is a word that programs use inside
`);
  });
});

describe('what YAML has and this format does not', () => {
  test('anchors and aliases', () => {
    check(`
seats:
  mix: { at: &here { x: 1 m, y: 2 m, z: 1.2 m } }
  #          ^^^^^ error yaml/anchor: Anchors are not used here: a change at one place would be one at another
  client: { at: *here }
  #             ^^^^^ error yaml/anchor: Aliases are not used here: write the values out
`);
    const at = '{ x: 1 m, y: 2 m, z: 1 m }';
    expect(fixed(`seats:\n  a: { at: &p ${at} }\n  b: { at: *p }\n`)).toBe(
      `seats:\n  a: { at: ${at} }\n  b: { at: ${at} }\n`,
    );
  });

  test('an alias to another part of the file', () => {
    expect(
      fixed('space: { size: &s { width: 4 m, depth: 5 m, height: 3 m } }\nx_other: *s\n'),
    ).toBe(
      'space: { size: { width: 4 m, depth: 5 m, height: 3 m } }\nx_other: { width: 4 m, depth: 5 m, height: 3 m }\n',
    );
  });

  test('merge keys', () => {
    expect(fixed('seats:\n  a: &p { at: unknown }\n  b: { <<: *p, note: "x" }\n')).toBe(
      'seats:\n  a: { at: unknown }\n  b: { at: unknown, note: "x" }\n',
    );
  });

  test('tags', () => {
    check(`
name: !!str Heron
#     ^^^^^ error yaml/tag: Tags are not used here: the format says what each value is
`);
    expect(fixed('name: !!str Heron\n')).toBe('name: Heron\n');
  });

  test('several documents', () => {
    const { problems, root } = parseFile(
      'room',
      'room: 1\nname: Heron\n---\nroom: 1\nname: Wren\n',
    );
    expect(problems.map(({ code, range }) => [code, range.start])).toEqual([
      ['yaml/documents', 20],
    ]);
    expect(root?.kind === 'map' && root.entries.get('name')?.value).toMatchObject({
      text: 'Heron',
    });
    expect(parseFile('room', '---\nroom: 1\n...\n').problems).toEqual([]);
  });

  test('directives', () => {
    expect(parseFile('room', '%YAML 1.1\n---\nroom: 1\n').problems.map(({ code }) => code)).toEqual(
      ['yaml/directive'],
    );
  });
});

describe('version', () => {
  test('missing', () => {
    const { problems } = parseFile('room', 'name: Heron\n');
    expect(problems.map(({ code, message }) => [code, message])).toEqual([
      ['format/version-missing', '`room: 1` is missing as the first line'],
    ]);
    expect(applied('name: Heron\n', problems[0]?.fixes[0]?.edits ?? [])).toBe(
      'room: 1\nname: Heron\n',
    );
  });

  test('of an empty file', () => {
    expect(parseFile('gear', '').problems.map(({ code }) => code)).toEqual([
      'format/version-missing',
    ]);
    expect(parseFile('gear', '# nothing yet\n').problems.map(({ code }) => code)).toEqual([
      'format/version-missing',
    ]);
  });

  test('unknown: one clear error, and nothing else is said', () => {
    checkWhole(`room: 7
#     ^ error format/version-unknown: This is version 7 of the room format; this Groundbass reads version 1, so nothing else is checked or computed
nmae: Heron
seats: { mix: { at: 80 Hz } }
`);
  });

  test('no version at all', () => {
    checkWhole(`room: yes
#     ^^^ error format/not-a-choice: \`1\` is expected here
`);
  });

  test('not first', () => {
    const text = 'name: Heron\n# a remark\nroom: 1\nseats: {}\n';
    const { problems } = parseFile('room', text);
    expect(problems.map(({ code, message }) => [code, message])).toEqual([
      ['format/first-key', '`room` belongs on the first line: it says what the file is'],
    ]);
    expect(applied(text, problems[0]?.fixes[0]?.edits ?? [])).toBe(
      'room: 1\nname: Heron\n# a remark\nseats: {}\n',
    );
  });
});

describe('the catalogue', () => {
  test('names each code once', () => {
    const codes = PROBLEM_KINDS.map(({ code }) => code);
    expect(new Set(codes).size).toBe(codes.length);
  });

  // The examples of a text's size are told in words.
  const shown = PROBLEM_KINDS.filter(({ example }) => !example.startsWith('('));

  test.each(shown)('$code: its example has this fault, and no other', ({ code, example }) => {
    expect(shown.length).toBeGreaterThan(PROBLEM_KINDS.length - 3);
    const isWhole =
      /^(?:room:|%|\[)/.test(example) ||
      code.startsWith('format/version') ||
      code === 'format/first-key';
    const text = isWhole ? example : `room: 1\n${example}`;
    expect(parseFile('room', text).problems.map((one) => one.code)).toEqual([code]);
  });
});
