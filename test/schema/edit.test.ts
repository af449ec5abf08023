// Edits by meaning: what is meant changes, and no other line does.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { editText, type MeaningEdit } from '../../schema/edit.ts';
import { cursorAt, entryAt, nodeAt, rangeOf } from '../../schema/locate.ts';
import type { Located } from '../../schema/model/located.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { readMarked } from '../support/markedText.ts';
import { applied } from './checkProblems.ts';
import { ROOM } from './examples.ts';

const at = (path: string): readonly string[] => path.split('/');
const set = (path: string, value: string): MeaningEdit => ({ do: 'set', path: at(path), value });
const remove = (path: string): MeaningEdit => ({ do: 'remove', path: at(path) });

/** The text after the edits; null where they are refused. */
function textAfter(text: string, ...edits: readonly MeaningEdit[]): string | null {
  const found = editText(parseFile('room', text), edits);
  return found && applied(text, found);
}

const START = `room: 1 # ours
seats:
  # where people sit
  mix: { at: { x: 1 m, y: 2 m, z: 1.2 m } } # the desk

settings:
  sub:
    level: -3 dB # by ear
    ports:
      driver: { delay: 0.15 ms }
wiring:
  - desk.a -> sub.in
  - desk.b -> left.in # far
`;

describe('a value', () => {
  test('that is there', () => {
    expect(textAfter(START, set('seats/mix/at/x', '1.25 m'))).toBe(
      START.replace('x: 1 m', 'x: 1.25 m'),
    );
  });

  test('that is new in braces', () => {
    expect(textAfter(START, set('settings/sub/ports/driver/polarity', 'inverted'))).toBe(
      START.replace('{ delay: 0.15 ms }', '{ delay: 0.15 ms, polarity: inverted }'),
    );
  });

  test('that is new in block style', () => {
    expect(textAfter(START, set('settings/sub/polarity', 'inverted'))).toBe(
      START.replace('{ delay: 0.15 ms }\n', '{ delay: 0.15 ms }\n    polarity: inverted\n'),
    );
  });

  test('that is new with all that holds it', () => {
    expect(textAfter(START, set('settings/left/eq/band_1/gain', '-2 dB'))).toBe(
      START.replace('wiring:', '  left: { eq: { band_1: { gain: -2 dB } } }\nwiring:'),
    );
    expect(textAfter(START, set('targets/reference_level', '79 dBC'))).toBe(
      `${START}targets:\n  reference_level: 79 dBC\n`,
    );
  });

  test('several under one new key', () => {
    expect(
      textAfter(START, set('settings/left/level', '1 dB'), set('settings/left/tilt', 'desk')),
    ).toBe(START.replace('wiring:', '  left: { level: 1 dB, tilt: desk }\nwiring:'));
  });

  test('in place of a word', () => {
    expect(
      textAfter(
        'room: 1\nsettings: { sub: { crossover: bypass } }\n',
        set('settings/sub/crossover/frequency', '80 Hz'),
      ),
    ).toBe('room: 1\nsettings: { sub: { crossover: { frequency: 80 Hz } } }\n');
  });

  test('behind a bare colon', () => {
    expect(textAfter('room: 1\nseats: { mix: { at: } }\n', set('seats/mix/at', 'unknown'))).toBe(
      'room: 1\nseats: { mix: { at: unknown } }\n',
    );
    expect(textAfter('room: 1\nseats:\n', set('seats/mix/at', 'unknown'))).toBe(
      'room: 1\nseats:\n  mix: { at: unknown }\n',
    );
  });

  test('in a list', () => {
    expect(textAfter(START, set('wiring/2', 'desk.c -> right.in'))).toBe(
      `${START}  - desk.c -> right.in\n`,
    );
    expect(textAfter('room: 1\nwiring: [a.b -> c.d]\n', set('wiring/1', 'e.f -> g.h'))).toBe(
      'room: 1\nwiring: [a.b -> c.d, e.f -> g.h]\n',
    );
    expect(textAfter(START, set('wiring/7', 'desk.c -> right.in'))).toBeNull();
  });

  test('that is prose goes in quotes, and reads back', () => {
    for (const text of [
      'a, b',
      '#2',
      `it's`,
      'say "yes"',
      'back\\slash "q"',
      '',
      'two\nlines',
      '- dash',
      '5.1',
      '\u2028',
    ]) {
      const now = textAfter(START, set('seats/mix/note', text)) ?? '';
      const { root, problems } = parseFile('room', now);
      expect(nodeAt(root, at('seats/mix/note'))).toMatchObject({ text });
      expect(problems).toEqual([]);
    }
  });

  test("with the file's own line breaks", () => {
    const crlf = START.replaceAll('\n', '\r\n');
    expect(textAfter(crlf, set('settings/sub/polarity', 'inverted'))).toBe(
      crlf.replace('{ delay: 0.15 ms }\r\n', '{ delay: 0.15 ms }\r\n    polarity: inverted\r\n'),
    );
  });

  test('at the end of a file without a last line break', () => {
    expect(textAfter('room: 1', set('name', 'Heron'))).toBe('room: 1\nname: "Heron"');
  });
});

describe('taking away', () => {
  test('a line', () => {
    expect(textAfter(START, remove('settings/sub/level'))).toBe(
      START.replace('    level: -3 dB # by ear\n', ''),
    );
  });

  test('in braces: first, middle, last', () => {
    const text = 'room: 1\nseats: { mix: { at: unknown, note: "a", role: reference } }\n';
    expect(textAfter(text, remove('seats/mix/at'))).toContain('{ note: "a", role: reference }');
    expect(textAfter(text, remove('seats/mix/note'))).toContain('{ at: unknown, role: reference }');
    expect(textAfter(text, remove('seats/mix/role'))).toContain('{ at: unknown, note: "a" }');
    expect(textAfter(text, remove('seats/mix/note'), remove('seats/mix/role'))).toContain(
      '{ at: unknown }',
    );
  });

  test('with the record that would be left empty', () => {
    expect(textAfter(START, remove('settings/sub/ports/driver/delay'))).toBe(
      START.replace('    ports:\n      driver: { delay: 0.15 ms }\n', ''),
    );
  });

  test('of list items', () => {
    expect(textAfter(START, remove('wiring/0'))).toBe(START.replace('  - desk.a -> sub.in\n', ''));
    expect(textAfter('room: 1\nwiring: [a.b -> c.d, e.f -> g.h]\n', remove('wiring/1'))).toBe(
      'room: 1\nwiring: [a.b -> c.d]\n',
    );
  });

  test('and adding at the same place', () => {
    expect(
      textAfter(START, remove('settings/sub/ports'), set('settings/sub/polarity', 'normal')),
    ).toBe(
      START.replace('    ports:\n      driver: { delay: 0.15 ms }\n', '    polarity: normal\n'),
    );
    const text = 'room: 1\nseats: { mix: { at: unknown, role: reference } }\n';
    expect(textAfter(text, remove('seats/mix/role'), set('seats/mix/note', 'x'))).toContain(
      '{ at: unknown, note: "x" }',
    );
  });
});

describe('refused', () => {
  test.each<[string, readonly MeaningEdit[]]>([
    ['what is gone', [remove('seats/nobody')]],
    ['a contradiction', [set('seats/mix/at', 'unknown'), remove('seats/mix')]],
    ['the file itself', [{ do: 'remove', path: [] }]],
  ])('%s', (_, edits) => {
    expect(textAfter(START, ...edits)).toBeNull();
  });

  test('a part that could not be read', () => {
    expect(
      textAfter('room: 1\nseats:\n  mix: { at: { x: 1 m \n', set('seats/mix/note', 'x')),
    ).toBeNull();
  });
});

/** Paths of all single values. */
function leaves(
  node: Located | null,
  path: readonly string[] = [],
): readonly (readonly string[])[] {
  if (node === null) return [];
  if (node.kind === 'scalar') return [path];
  if (node.kind === 'list')
    return node.items.flatMap((item, index) => leaves(item, [...path, String(index)]));
  return [...node.entries.values()].flatMap(({ key, value }) => leaves(value, [...path, key]));
}

function valuesOf(text: string): ReadonlyMap<string, string> {
  const { root } = parseFile('room', text);
  return new Map(
    leaves(root).map((path) => {
      const node = nodeAt(root, path);
      return [path.join('/'), node?.kind === 'scalar' ? node.text : ''];
    }),
  );
}

describe('any edit', () => {
  const paths = leaves(parseFile('room', ROOM).root);

  test('of one value changes one line, and no other value', () => {
    fc.assert(
      fc.property(fc.constantFrom(...paths), (path) => {
        const now = textAfter(ROOM, { do: 'set', path, value: 'unknown' }) ?? '';
        const [before, lines] = [ROOM.split('\n'), now.split('\n')];
        expect(lines.length).toBe(before.length);
        expect(lines.filter((line, index) => line !== before[index]).length).toBeLessThanOrEqual(1);
        const wanted = new Map(valuesOf(ROOM));
        wanted.set(path.join('/'), 'unknown');
        expect(valuesOf(now)).toEqual(wanted);
      }),
      { numRuns: 60 },
    );
  });

  test('that takes values away leaves all others, and every comment of other lines', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.constantFrom(...paths), { minLength: 1, maxLength: 4 }),
        (gone) => {
          // Items of a list move up when one goes, so lists stay out of this.
          const chosen = gone.filter(
            (path) => !path.some((key) => /^\d+$/.test(key)) && path[0] !== 'room',
          );
          const now =
            textAfter(ROOM, ...chosen.map((path): MeaningEdit => ({ do: 'remove', path }))) ?? '';
          const wanted = new Map(valuesOf(ROOM));
          for (const path of chosen) wanted.delete(path.join('/'));
          expect(valuesOf(now)).toEqual(wanted);
          expect(
            parseFile('room', now).problems.filter(({ code }) => code.startsWith('yaml/')),
          ).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('that adds keys leaves all values, and reads back', () => {
    const homes = [
      'settings/sub',
      'settings/sub/ports/driver',
      'settings/left',
      'settings/desk/ports/main_left',
      'seats/mix',
      'x_own',
      'x_own/more',
    ];
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.tuple(fc.constantFrom(...homes), fc.constantFrom('a', 'b', 'c')), {
          minLength: 1,
          maxLength: 5,
          selector: String,
        }),
        (added) => {
          const wanted = new Map(valuesOf(ROOM));
          for (const [home, key] of added) wanted.set(`${home}/${key}`, `1 dB`);
          const now = textAfter(ROOM, ...added.map(([home, key]) => set(`${home}/${key}`, '1 dB')));
          if (now === null) return; // `x_own/a` and `x_own/more` may contradict each other: never here
          expect(new Map([...valuesOf(now)].sort())).toEqual(new Map([...wanted].sort()));
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('places', () => {
  test.each([
    ['seats:\n  m$0ix: { at: unknown }', 'seats/mix', 'key', 'mix'],
    ['seats:\n  mix: { at: unkn$0own }', 'seats/mix/at', 'value', 'unknown'],
    ['seats:\n  mix:$0 { at: unknown }', 'seats/mix', 'gap', 'mix: { at: unknown }'],
    ['seats:\n  mix: { $0at: unknown }', 'seats/mix/at', 'key', 'at'],
    ['wiring: [a.b -> c.d, e.f$0 -> g.h]', 'wiring/1', 'value', 'e.f -> g.h'],
  ])('%s', (source, path, on, range) => {
    const { text, cursor } = readMarked(source);
    const { root } = parseFile('room', text);
    const found = cursorAt(root, cursor ?? 0);
    expect(found?.path.join('/')).toBe(path);
    expect(found?.on).toBe(on);
    expect(text.slice(found?.range.start, found?.range.end)).toBe(range);
  });

  test('and back', () => {
    const { root } = parseFile('room', START);
    expect(
      START.slice(
        rangeOf(root, at('seats/mix/at/x'))?.start,
        rangeOf(root, at('seats/mix/at/x'))?.end,
      ),
    ).toBe('1 m');
    expect(entryAt(root, at('seats/mix'))?.key).toBe('mix');
    expect(nodeAt(root, at('wiring/1'))).toMatchObject({ text: 'desk.b -> left.in' });
    expect(rangeOf(root, at('seats/nobody'))).toBeNull();
  });
});
