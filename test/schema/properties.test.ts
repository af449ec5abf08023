// What holds for every file: reading again is reading anew, places are exact, one slip is one message, nothing breaks it.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isMap, isScalar, isSeq, parseDocument } from 'yaml';
import type { Located } from '../../schema/model/located.ts';
import type { FileKind, ParsedFile } from '../../schema/model/parsedFile.ts';
import { createParser, parseFile } from '../../schema/parse/parseFile.ts';
import { expectSame } from '../support/expectSame.ts';
import { ALL } from './examples.ts';

const anyExample = fc.constantFrom(...ALL);

/** A place in a text and what a hand might do there. */
const anyEdit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.integer({ min: 0, max: 12 }),
  put: fc.oneof(
    fc.string({ maxLength: 3 }),
    fc.constantFrom(
      '\n',
      '  ',
      ': ',
      ' }',
      '{ ',
      ', ',
      '# ',
      '"',
      '- ',
      '\n  left: { at: unknown }\n',
      '&a ',
      '*a',
      'x_a: 1\n',
    ),
  ),
});

function edited(
  text: string,
  { at, length, put }: { at: number; length: number; put: string },
): string {
  const start = Math.floor(at * text.length);
  return text.slice(0, start) + put + text.slice(start + length);
}

/** A tree as plain data, so that two of them can be compared to the letter. */
function plain(node: Located | null): unknown {
  if (node === null || node.kind === 'scalar') return node;
  if (node.kind === 'list') return { ...node, items: node.items.map(plain) };
  return {
    ...node,
    entries: [...node.entries.values()].map((entry) => ({ ...entry, value: plain(entry.value) })),
  };
}

const whole = ({ root, problems }: ParsedFile): unknown => ({ root: plain(root), problems });

describe('reading again', () => {
  test('after any edits gives the same as reading anew', () => {
    fc.assert(
      fc.property(
        anyExample,
        fc.array(anyEdit, { minLength: 1, maxLength: 6 }),
        ({ kind, text }, edits) => {
          const parser = createParser(kind);
          parser.parse(text);
          let now: string = text;
          for (const edit of edits) {
            now = edited(now, edit);
            expectSame(whole(parser.parse(now)), whole(parseFile(kind, now)));
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  test('keeps the parts that no edit touched', () => {
    const text =
      'room: 1\nseats:\n  mix: { at: unknown }\nspeakers:\n  left: { gear: a, at: unknown }\n';
    const parser = createParser('room');
    const before = parser.parse(text);
    const after = parser.parse(`${text}# more\n`);
    const seats = (file: ParsedFile) => file.root?.kind === 'map' && file.root.entries.get('seats');
    expect(seats(after)).toBe(seats(before));
  });
});

describe('places', () => {
  test('every key and plain value stands where the tree says', () => {
    for (const { kind, text } of ALL) {
      let count = 0;
      const look = (node: Located | null): void => {
        if (node === null) return;
        if (node.kind === 'list') for (const item of node.items) look(item);
        else if (node.kind === 'scalar') {
          count++;
          const written = text.slice(node.range.start, node.range.end);
          expect(node.style === 'plain' ? written : written.slice(1, -1)).toBe(node.text);
        } else {
          for (const { key, keyRange, value } of node.entries.values()) {
            expect(text.slice(keyRange.start, keyRange.end).replace(/^"|"$/g, '')).toBe(key);
            look(value);
          }
        }
      };
      look(parseFile(kind, text).root);
      expect(count).toBeGreaterThan(10);
    }
  });

  test('all problems and fixes lie inside the text', () => {
    fc.assert(
      fc.property(
        anyExample,
        fc.array(anyEdit, { minLength: 1, maxLength: 3 }),
        ({ kind, text }, edits) => {
          const now = edits.reduce<string>(edited, text);
          for (const { range, fixes } of parseFile(kind, now).problems) {
            const ranges = [range, ...fixes.flatMap((fix) => fix.edits.map((edit) => edit.range))];
            for (const { start, end } of ranges) {
              expect(0 <= start && start <= end && end <= now.length).toBe(true);
            }
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});

/** The library's own reading of the whole text at once, as nested data; keys twice: the first one counts. */
function libraryTree(text: string): unknown {
  const { contents, errors } = parseDocument(text, {
    schema: 'failsafe',
    uniqueKeys: false,
    prettyErrors: false,
  });
  if (0 < errors.length) return null;
  const data = (node: unknown): unknown => {
    if (isMap(node)) {
      const entries = new Map<string, unknown>();
      for (const { key, value } of node.items) {
        const name = isScalar(key) ? String(key.value) : '';
        if (!entries.has(name)) entries.set(name, data(value));
      }
      return Object.fromEntries(entries);
    }
    if (isSeq(node)) return node.items.map(data);
    return isScalar(node) ? String(node.value ?? '') : null;
  };
  return data(contents);
}

function ourTree(node: Located | null): unknown {
  if (node === null) return '';
  if (node.kind === 'scalar') return node.text;
  if (node.kind === 'list') return node.items.map(ourTree);
  return Object.fromEntries(
    [...node.entries.values()].map(({ key, value }) => [key, ourTree(value)]),
  );
}

describe('reading in parts', () => {
  test('gives what the YAML library gives for the whole', () => {
    for (const { kind, text } of ALL) {
      expect(ourTree(parseFile(kind, text).root)).toEqual(libraryTree(text));
    }
  });

  test('tells a fault where the library does, and reads the same where nothing is told', () => {
    let read = 0;
    let broken = 0;
    fc.assert(
      fc.property(anyExample, anyEdit, ({ kind, text }, edit) => {
        const now = edited(text, edit);
        const { root, problems } = parseFile(kind, now);
        const want = libraryTree(now);
        const told = problems.filter(
          ({ code }) =>
            /^(?:yaml|limits)\//.test(code) && !/number-like|equal-keys|text-cut/.test(code),
        );
        if (want === null) {
          broken++;
          expect(problems.length, now).toBeGreaterThan(0);
        } else if (told.length === 0) {
          read++;
          expect(ourTree(root)).toEqual(want ?? '');
        }
      }),
      { numRuns: 300 },
    );
    // A comparison that silently compares nothing must fail.
    expect(read).toBeGreaterThan(30);
    expect(broken).toBeGreaterThan(30);
  });
});

describe('one slip, one message', () => {
  /** One letter left out, or one wrong, anywhere in a valid file. */
  const slips = (text: string, step: number, from: number): readonly string[] => {
    const all: string[] = [];
    for (let at = from; at < text.length; at += step) {
      all.push(
        text.slice(0, at) + text.slice(at + 1),
        `${text.slice(0, at)}q${text.slice(at + 1)}`,
      );
    }
    return all;
  };

  test('anywhere in a file', () => {
    let count = 0;
    let several = 0;
    for (const { kind, text } of ALL) {
      for (const slip of slips(text, 17, 5)) {
        count++;
        if (1 < parseFile(kind, slip).problems.length) several++;
      }
    }
    expect(count).toBeGreaterThan(800);
    // Not none: `seats` without its `a` is `sets`, which is a key too, of other things.
    expect(several / count).toBeLessThan(0.005);
  });

  test('in every key that the format knows', () => {
    let count = 0;
    for (const { kind, text } of ALL) {
      for (const slip of keySlips(text)) {
        count++;
        const codes = parseFile(kind, slip).problems.map(({ code }) => code);
        expect(codes, slip).toEqual(['format/unknown-key']);
      }
    }
    expect(count).toBeGreaterThan(60);
  });
});

/** The file with one letter of one key doubled; keys that stand for names, stages and switches are not among them. */
function keySlips(text: string): readonly string[] {
  const keys = [
    'name',
    'policy',
    'space',
    'seats',
    'speakers',
    'subwoofers',
    'devices',
    'wiring',
    'circuits',
    'targets',
    'sessions',
    'size',
    'width',
    'depth',
    'temperature',
    'material',
    'absorption',
    'channel',
    'gear',
    'rating',
    'voltage',
    'feeds',
    'frequency',
    'reference_level',
    'points',
    'takes',
    'sounding',
    'because',
    'change',
    'finding',
    'about',
    'listen_for',
    'recheck',
    'models',
    'maker',
    'mass',
    'minus_6_db',
    'slope',
    'peak',
    'latency',
    'inputs',
    'paths',
    'choices',
    'bands',
    'told_as',
    'policies',
    'layouts',
    'items',
    'serial',
  ];
  return keys.flatMap((key) => {
    const at = text.search(new RegExp(`(?<=^|[\\s{])${key}:`, 'm'));
    // In a comment it is nobody's key.
    if (at < 0 || text.slice(text.lastIndexOf('\n', at) + 1, at).includes('#')) return [];
    const cut = at + 2;
    return [text.slice(0, cut) + text.slice(cut - 1)];
  });
}

describe('hostile input', () => {
  const took = (kind: FileKind, text: string): { codes: readonly string[]; took_ms: number } => {
    const start = performance.now();
    const { problems } = parseFile(kind, text);
    return { codes: problems.map(({ code }) => code), took_ms: performance.now() - start };
  };

  // Bounds are generous: they tell a runaway from a slow machine.
  test.each<{ name: string; text: string; code: string }>([
    { name: 'fifty megabytes', text: 'x'.repeat(50_000_000), code: 'limits/too-large' },
    {
      name: 'deep brackets',
      text: `room: 1\nspace: ${'['.repeat(20_000)}`,
      code: 'limits/too-deep',
    },
    {
      name: 'deep braces',
      text: `room: 1\nspace: ${'{a: '.repeat(10_000)}`,
      code: 'limits/too-deep',
    },
    {
      name: 'deep list marks',
      text: `room: 1\nspace:\n  ${'- '.repeat(20_000)}`,
      code: 'limits/too-deep',
    },
    {
      name: 'deep indentation',
      text: `room: 1\n${Array.from({ length: 800 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')}`,
      code: 'limits/too-deep',
    },
    {
      name: 'many entries',
      text: `room: 1\nwiring: [${'a.b -> c.d, '.repeat(60_000)}]`,
      code: 'limits/too-many',
    },
    {
      name: 'aliases of aliases',
      text: `room: 1\nx_a: &a [1, 1]\n${Array.from({ length: 26 }, (_, index) => {
        const [name, last] = [index + 1, index].map((at) => String.fromCharCode(97 + at));
        return `x_${name}: &${name} [*${last}, *${last}]`;
      }).join('\n')}`,
      code: 'yaml/anchor',
    },
  ])(
    '$name',
    ({ text, code }) => {
      const { codes, took_ms } = took('room', text);
      expect(codes).toContain(code);
      expect(took_ms).toBeLessThan(60_000);
    },
    120_000,
  );

  test('the largest files that are read', () => {
    const lines = Array.from(
      { length: 2500 },
      (_, index) => `  s${index}: { at: { x: 1 m, y: 2 m, z: 3 m } }`,
    );
    const { codes, took_ms } = took('room', `room: 1\nseats:\n${lines.join('\n')}\n`);
    expect(codes).toEqual([]);
    expect(took_ms).toBeLessThan(60_000);
    const wrong = lines.map((line) => line.replace('x: 1 m', 'q: 1 m'));
    const many = took('room', `room: 1\nseats:\n${wrong.join('\n')}\n`);
    expect(many.codes.at(-1)).toBe('limits/too-many');
    expect(many.codes).toHaveLength(501);
  });

  test('any text at all', () => {
    const piece = fc.constantFrom(
      'room: 1\n',
      '\n',
      ' ',
      '  ',
      ': ',
      ':',
      '- ',
      '{',
      '}',
      '[',
      ']',
      ',',
      '"',
      "'",
      '#',
      '&a',
      '*a',
      '!t',
      '|',
      '>',
      '?',
      '---\n',
      '...\n',
      '%Y',
      '\t',
      '\r\n',
      '<<: ',
      '__proto__',
      'space',
      'a',
      '1',
      'm',
      '\u0000',
      '\ufeff',
      '\ud800',
      '😀',
      '@',
      '`',
    );
    const anyText = fc.oneof(
      fc.array(piece, { maxLength: 60 }).map((parts) => parts.join('')),
      fc.string({ unit: 'binary', maxLength: 60 }),
    );
    fc.assert(
      fc.property(fc.constantFrom<FileKind>('room', 'gear', 'facility'), anyText, (kind, text) => {
        const file = parseFile(kind, text);
        expect(file.text).toBe(text);
        expect(({} as Record<string, unknown>).polluted).toBeUndefined();
      }),
      { numRuns: 1500 },
    );
  });

  test('prototype keys reach nothing', () => {
    parseFile(
      'room',
      'room: 1\nseats: { __proto__: { polluted: true, at: unknown } }\nx_a: { __proto__: { polluted: true } }\n',
    );
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });
});
