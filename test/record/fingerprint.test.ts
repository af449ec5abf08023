// The fingerprint: the same for one meaning however it is written, another where the set-up changes, and it says which part.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalText } from '../../core/record/canonical.ts';
import { agreement, changedParts, roomFingerprint } from '../../core/record/fingerprint.ts';
import { digest16, digest32 } from '../../core/record/fnv.ts';
import type { SetupPart } from '../../core/record/setupParts.ts';
import type { Room } from '../../schema/model/room.ts';
import { box, gear, point, roomWith, seat, spaceWith, speaker } from '../support/rooms.ts';
import { BASE } from './baseRoom.ts';
import { edited, setupOf } from './textRoom.ts';

const BEFORE = fingerprintOf(BASE);

function fingerprintOf(text: string): string {
  const { record } = setupOf(text);
  return record?.fingerprint.text ?? 'none';
}

/** Published values of FNV-1a, 32 bit. @source RFC 9923, test vectors; the authors' own list (isthe.com) */
const VECTORS = [
  ['', '811c9dc5'],
  ['a', 'e40c292c'],
  ['b', 'e70c2de5'],
  ['foobar', 'bf9cf968'],
] as const;

test.each(VECTORS)('FNV-1a of "%s" (RFC 9923)', (text, digest) => {
  expect(digest32(text)).toBe(digest);
});

test('folding lays the halves over each other (by hand: bf9c xor f968 is 46f4)', () => {
  expect(digest16('foobar')).toBe('46f4');
});

test('a change of one millimetre leaves the digits alone as rarely as chance has it', () => {
  const digits = Array.from({ length: 4000 }, (_, index) =>
    digest16(canonicalText({ at: { x_m: 1 + index / 1000, y_m: 2.5 } })),
  );
  // By chance 2^16 values hold 4000 draws with n²/2N = 122 doubles, ± 11 (birthday problem).
  const doubles = digits.length - new Set(digits).size;
  expect(doubles).toBeLessThan(122 + 4 * 11);
  const neighbours = digits.filter((one, index) => one === digits[index - 1]).length;
  expect(neighbours).toBeLessThanOrEqual(1);
});

test('the canonical form, by hand: sorted lines, millimetres and microseconds, nothing that is not there', () => {
  expect(
    canonicalText({ b: { at: null, x_m: 2 }, a: { delay_s: 0.00125, on: true }, c: ['in', 'out'] }),
  ).toBe('a.delay_s=1250\na.on=true\nb.x_m=2000\nc.0=in\nc.1=out');
});

test('the whole of a bare room, by another program', () => {
  const room = roomWith({
    space: spaceWith({ shape: box(4, 5, 3) }),
    seats: [seat('mix', point(2, 2, 1.2))],
  });
  // Python 3, FNV-1a written there from the RFC, over the same lines typed by hand.
  expect(roomFingerprint(room).text).toBe('s-2992-0206-1cd9-1cd9-1cd9');
});

describe('the same meaning', () => {
  const SPELLINGS: readonly (readonly [string, string, string])[] = [
    ['metres as millimetres', 'width: 4.62 m,', 'width: 4620 mm,'],
    ['metres as centimetres', 'y: 2.44 m, z: 1.22 m', 'y: 244 cm, z: 122 cm'],
    ['milliseconds as seconds', 'driver: { delay: 1.00 ms }', 'driver: { delay: 0.001 s }'],
    ['digits that say nothing', 'level: -3.25 dB', 'level: -3.250 dB'],
    ['kilohertz', 'frequency: 75 Hz', 'frequency: 0.075 kHz'],
    ['a comment', 'polarity: inverted', 'polarity: inverted # as found'],
    ['a note', 'role: reference }', 'role: reference, note: "the good chair" }'],
    ['a name', 'name: Bittern, mix room 9', 'name: Bittern, mix room nine'],
    ['the air', 'temperature: 21.5 °C', 'temperature: 23.5 °C'],
    ['an uncertainty', 'depth: 6.18 m ± 20 mm', 'depth: 6.18 m'],
    ['what was measured', 'background_noise: { nr: 15 }', 'background_noise: { nr: 20 }'],
    ['a target', 'reference_level: 79 dBC', 'reference_level: 76 dBC'],
    ['the way out', 'x: [0 m, 0.95 m]', 'x: [0 m, 1.05 m]'],
    ['mains', 'rating: 16 A', 'rating: 10 A'],
    ['a take', 'sounding: [left, sub], seat: mix', 'sounding: [left], seat: mix'],
    [
      'another order of connections',
      '  - desk.main_left -> sub.in_left\n  - desk.main_right -> sub.in_right\n  - sub.out_left',
      '  - desk.main_right -> sub.in_right\n  - desk.main_left -> sub.in_left\n  - sub.out_left',
    ],
  ];

  test.each(SPELLINGS)('%s', (_, from, to) => {
    expect(fingerprintOf(edited(BASE, from, to))).toBe(BEFORE);
  });

  test('feet and inches for the same metres, to the millimetre', () => {
    const feet = edited(BASE, 'height: 2.94 m }', 'height: 9\'7.75" }'); // 115.75 in are 2.94005 m
    expect(fingerprintOf(feet)).toBe(BEFORE);
  });

  test('lists in any order', () => {
    const { room } = setupOf(BASE);
    fc.assert(
      fc.property(fc.array(fc.nat(), { minLength: 9, maxLength: 9 }), (seeds) => {
        const turned = <One>(list: readonly One[], at: number): readonly One[] => {
          const by = (seeds[at] ?? 0) % Math.max(1, list.length);
          return [...list.slice(by), ...list.slice(0, by)].toReversed();
        };
        const other: Room = {
          ...room,
          seats: turned(room.seats, 0),
          speakers: turned(room.speakers, 1),
          wiring: turned(room.wiring, 2),
          settings: turned(room.settings, 3).map((one) => ({
            ...one,
            values: turned(one.values, 4),
          })),
          space: {
            ...room.space,
            surfaces: turned(room.space.surfaces, 5),
            fixtures: turned(room.space.fixtures, 6),
          },
        };
        expect(roomFingerprint(other).text).toBe(BEFORE);
      }),
    );
  });
});

describe('an edit changes the digits of its part, and no others', () => {
  const EDITS: readonly (readonly [string, string, SetupPart])[] = [
    ['width: 4.62 m,', 'width: 4.63 m,', 'room'],
    ['left: { material: gypsum_board_on_studs }', 'left: { material: brick_painted }', 'room'],
    ['front: { material: gypsum_board_on_studs }', 'front: { absorption: { 63 Hz: 0.2 } }', 'room'],
    ['      wall: left\n', '      wall: back\n', 'room'],
    ['x: [1.40 m, 3.20 m]', 'x: [1.40 m, 3.30 m]', 'room'],
    ['sub: { item: moor_a, at: { x: 1.75 m', 'sub: { item: moor_a, at: { x: 1.76 m', 'places'],
    ['mix: { at: { x: 2.31 m, y: 2.44 m', 'mix: { at: { x: 2.31 m, y: 2.54 m', 'places'],
    [
      'x: 3.36 m, y: 0.62 m, z: 1.22 m }, aim: mix }',
      'x: 3.36 m, y: 0.62 m, z: 1.22 m }, aim: producer }',
      'places',
    ],
    ['sub: { item: moor_a,', 'sub: { item: moor_b,', 'gear'],
    ['  - sub.out_left -> left.in\n', '  - sub.out_right -> left.in\n', 'wiring'],
    ['left: { gear: heath_6, channel: L', 'left: { gear: heath_6, channel: C', 'wiring'],
    ['level: -3.25 dB', 'level: -3.00 dB', 'settings'],
    ['polarity: inverted', 'polarity: normal', 'settings'],
    ['crossover: { frequency: 75 Hz, slope: 24 dB/oct }', 'crossover: bypass', 'settings'],
    ['driver: { delay: 1.00 ms }', 'driver: { delay: 1.05 ms }', 'settings'],
    ['phase: 90°', 'phase: unknown', 'settings'],
  ];

  test.each(EDITS)('%s → %s: %s', (from, to, part) => {
    const after = fingerprintOf(edited(BASE, from, to));
    expect(after).toMatch(/^s-[0-9a-f]{4}(-[0-9a-f]{4}){4}$/);
    expect(changedParts(BEFORE, after)).toEqual([part]);
  });

  test('of the gear: what shapes the signal counts, what bounds it does not', () => {
    const withGear = (from: RegExp, to: string) => {
      const { record } = setupOf(BASE, { gear: (text) => text.replace(from, to) });
      return changedParts(BEFORE, record?.fingerprint.text ?? '');
    };
    expect(withGear(/(heath_6:[\s\S]*?latency: )[\d.]+ ms/, '$19.9 ms')).toEqual(['gear']);
    expect(withGear(/(heath_6:[\s\S]*?mass: )[\d.]+ kg/, '$199 kg')).toEqual([]);
  });
});

test('a response file counts by its name, read or not', () => {
  const model = gear('m', 'loudspeaker', {
    responseFiles: [{ file: 'm.txt', path: [], of: { kind: 'low_end' } }],
  });
  const read = {
    ...model,
    lowEnd: {
      minus6db_hz: 47,
      slope_db_oct: 24,
      kind: null,
      protection: null,
      responseFile: 'm.txt',
    },
  };
  const print = (one: typeof model) =>
    roomFingerprint(
      roomWith({ speakers: [speaker('left', 'L', null, { gear: one, gearId: 'm' })] }),
    ).text;
  expect(print(read)).toBe(print(model));
  expect(print({ ...model, responseFiles: [] })).not.toBe(print(model));
});

describe('the short form', () => {
  const { record } = setupOf(BASE);
  const now = record?.fingerprint;

  test('is eight digits of the whole: it tells that, not what', () => {
    if (now?.short === null || now === undefined) throw new RangeError('no short form');
    expect(now.short).toMatch(/^s-[0-9a-f]{8}$/);
    expect(agreement(now.short, now)).toEqual({ agrees: 'yes', changed: [] });
    expect(agreement('s-00000000', now)).toEqual({ agrees: 'no', changed: [] });
    expect(changedParts(now.short, BEFORE)).toBeNull();
  });
});

describe('while something cannot be read', () => {
  const SIGNED = edited(BASE, 'recheck: 12 months }', `setup: ${BEFORE}, recheck: 12 months }`);
  const ties = (text: string) => setupOf(text).record?.signOff?.tie;

  test('a fault in one part leaves that part open and judges the others', () => {
    expect(ties(SIGNED)).toBe('in_date');
    expect(ties(edited(SIGNED, 'width: 4.62 m,', 'width: 4.62,'))).toBe('unknown');
    expect(ties(edited(SIGNED, 'x: 1.75 m', 'x: 1.75 mm m'))).toBe('unknown');
    expect(ties(edited(SIGNED, 'level: -3.25 dB', 'level: -3.25 Hz'))).toBe('unknown');
    const both = edited(edited(SIGNED, 'width: 4.62 m,', 'width: 4.62,'), 'x: 1.75 m', 'x: 1.95 m');
    expect(setupOf(both).record?.signOff).toMatchObject({
      tie: 'out_of_date',
      changed: ['places'],
    });
  });

  test.each([
    ['a quote without its end', 'polarity: inverted', 'polarity: "inverted'],
    ['a colon too many', 'polarity: inverted', 'polarity: inverted: x'],
    [
      'a brace without its end',
      'crossover: { frequency: 75 Hz, slope: 24 dB/oct }',
      'crossover: { frequency: 75 Hz',
    ],
    ['a key half typed', '    level: -3.25 dB', '    levl: -3.25 dB'],
    ['a value still to come', '    level: -3.25 dB', '    level:'],
    ['a connection half typed', '- sub.out_left -> left.in', '- sub.out_left -> left.'],
    ['a name half typed', 'aim: mix }\n  right', 'aim: mi }\n  right'],
    [
      'a material half typed',
      'left: { material: gypsum_board_on_studs }',
      'left: { material: gyps }',
    ],
    ['a section half typed', 'seats:\n', 'seats\n'],
    ['a record half typed', 'size: { width: 4.62 m,', 'size: width: 4.62 m,'],
  ])('%s is no change of the room', (_, from, to) => {
    const setup = setupOf(edited(SIGNED, from, to));
    expect(setup.record?.signOff?.tie ?? 'unknown').toBe('unknown');
    expect(setup.findings.filter(({ code }) => code.includes('out-of-date'))).toEqual([]);
  });

  test('gear that is not found is no other gear', () => {
    expect(ties(edited(SIGNED, 'desk: { gear: quay_8 }', 'desk: { gear: quay_88 }'))).toBe(
      'unknown',
    );
  });
});
