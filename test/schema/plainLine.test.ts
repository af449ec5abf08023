// The usual line, read by ourselves: held against what the YAML library reads of the same text.

import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Located } from '../../schema/model/located.ts';
import { parse } from '../../schema/parse/block.ts';
import { plainLine } from '../../schema/parse/plainLine.ts';
import { newReading } from '../../schema/parse/reading.ts';
import { treeOf } from '../../schema/parse/tree.ts';

const BASE = 1000;

/** Source of truth: the `yaml` package, reading YAML 1.2's failsafe schema. null where it has anything to complain of. */
function byLibrary(part: string): Located | null {
  const document = parse(part);
  const reading = newReading();
  const tree = treeOf(document, part, BASE, [], reading);
  const { problems, decorations, cuts, emptyAt, damaged, holds } = reading;
  const noted = problems.length + decorations.length + holds.length;
  const complaints = document.errors.length + noted + cuts.size + emptyAt.size + damaged.size;
  return complaints === 0 ? tree : null;
}

/** @returns whether we read it at all */
function check(part: string): boolean {
  const entry = plainLine(part, BASE);
  if (entry === null) return false;
  const tree = byLibrary(part);
  expect(tree?.kind === 'map' ? [...tree.entries.values()] : tree).toEqual([entry]);
  return true;
}

test('every line of the demo facility; most of them without the library', () => {
  const examples = new URL('../../examples/', import.meta.url);
  const lines = ['rooms', 'gear']
    .flatMap((folder) => readdirSync(new URL(folder, examples)).map((file) => `${folder}/${file}`))
    .filter((file) => file.endsWith('.yaml'))
    .flatMap((file) => readFileSync(new URL(file, examples), 'utf8').split('\n'))
    .filter((line) => /^ *[^\s#-].*: ./.test(line));
  const read = lines.filter((line) => check(`${line}\n\n  # a comment\n`));
  expect(lines.length).toBeGreaterThan(500);
  expect(read.length / lines.length).toBeGreaterThan(0.6);
});

test.each([
  'a: b',
  'a: {b: c}',
  'a: { b: c , d: [e , f ] } ',
  '  63 Hz: 0.42 s\n',
  'a: -1.5 dB',
  "a: l'heure (d’été)",
  'a: null',
  'a: ünï 5.1\n\n#x\n',
])('reads %j', (part) => {
  expect(check(part)).toBe(true);
});

test.each([
  'a:b',
  'a : b',
  'a: b # c',
  'a: { b: c',
  'a: { b: c }}',
  'a: { b: c,d: e }',
  'a: { b: 1,5 m }',
  'a: { b: c, }',
  'a: { b: c, b: d }',
  'a: { b }',
  'a: {}',
  'a: [0,95 m]',
  'a: "b"',
  'a: b: c',
  'a: b\n  c',
  'a: &b c',
  'a: - b',
  '__proto__: a',
  '1: a',
  'a: b\tc',
  'a: b\r\n',
  '- a: b',
])('leaves %j to the library', (part) => {
  expect(plainLine(part, BASE)).toBeNull();
});

test('any text of the characters that matter', () => {
  const piece = fc.constantFrom(
    ...[
      'a',
      'b c',
      '1.2 m',
      '-3',
      '+0',
      ': ',
      ':',
      ', ',
      ',',
      ' ',
      '  ',
      '{',
      '}',
      '{ ',
      ' }',
      '[',
    ],
    ...[
      ']',
      '#',
      ' #',
      '\n',
      '\n  ',
      "'",
      '"',
      '-',
      '- ',
      '?',
      '%',
      '°',
      '&',
      '*',
      '!',
      '\t',
      'é',
      '(',
    ],
  );
  let count = 0;
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
      if (check(`a: ${pieces.join('')}`)) count += 1;
    }),
    { numRuns: 20_000 },
  );
  expect(count).toBeGreaterThan(300);
});

test('any usual line', () => {
  const word = fc.constantFrom(
    'x',
    'at',
    '63 Hz',
    '1.95 m',
    '-6 dB',
    'M+030',
    'own loop 7',
    '40 %',
  );
  const spaces = fc.constantFrom('', ' ', '  ');
  const { value } = fc.letrec((tie) => ({
    value: fc.oneof({ maxDepth: 3 }, word, tie('map'), tie('list')),
    map: fc
      .tuple(fc.uniqueArray(word, { minLength: 1, maxLength: 4 }), fc.array(tie('value')), spaces)
      .map(([keys, values, space]) => {
        const pairs = keys.map((key, index) => `${key}: ${values[index] ?? 'y'}${space}`);
        return `{${space}${pairs.join(', ')}}`;
      }),
    list: fc
      .tuple(fc.array(tie('value'), { minLength: 1, maxLength: 4 }), spaces)
      .map(([items, space]) => `[${space}${items.join(`${space}, `)}${space}]`),
  }));
  fc.assert(
    fc.property(word, value, spaces, (key, text, space) => {
      expect(check(`${space}${key}: ${text}${space}\n`)).toBe(true);
    }),
    { numRuns: 2000 },
  );
});
