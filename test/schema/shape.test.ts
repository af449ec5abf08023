// Faults of shape: wrong keys, missing keys, wrong kinds of value; one message a fault.

import { describe, expect, test } from 'vitest';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { check, fixed } from './checkProblems.ts';

describe('keys', () => {
  test('misspelled: the slip is told, not what is missing because of it', () => {
    check(`
space: { size: { width: 4 m, depth: 5 m, hieght: 3 m } }
#                                        ^^^^^^ error format/unknown-key: \`hieght\` is not a key of \`size\`; did you mean \`height\`?
`);
    expect(fixed('space: { size: { width: 4 m, depth: 5 m, hieght: 3 m } }\n')).toBe(
      'space: { size: { width: 4 m, depth: 5 m, height: 3 m } }\n',
    );
  });

  test('unknown', () => {
    check(`
seats: { mix: { at: unknown, colour: red } }
#                            ^^^^^^ error format/unknown-key: \`colour\` is not a key of \`mix\`, or is from a newer Groundbass
`);
    expect(fixed('seats: { mix: { at: unknown, colour: red } }\n')).toBe(
      'seats: { mix: { at: unknown, x_colour: red } }\n',
    );
  });

  test('unknown at the top', () => {
    check(
      `
speaker: { left: { gear: a, at: unknown } }
weather: rain
`,
      'room',
      [
        'speaker: error format/unknown-key: `speaker` is not a key of a room file; did you mean `speakers`?',
        'weather: error format/unknown-key: `weather` is not a key of a room file, or is from a newer Groundbass',
      ],
    );
  });

  test('of our own are kept and ignored everywhere', () => {
    check(`
x_a: [1, 2]
space: { size: { width: 4 m, depth: 5 m, height: 3 m, x_b: { c: 1 } }, decay_time: { 63 Hz: 0.4 s, x_from: tape } }
seats: { x_old: 5, mix: { at: unknown, x_c: null } }
`);
  });

  test('missing', () => {
    check(`
space: { size: { width: 4 m } }
#        ^^^^ error format/missing-key: \`depth\` and \`height\` are missing from \`size\`
`);
    expect(fixed('space: { size: { width: 4 m } }\n')).toBe(
      'space: { size: { width: 4 m, depth: unknown, height: unknown } }\n',
    );
  });

  test('without a value', () => {
    check(`
space:
  size: unknown
  air: { temperature: }
  #      ^^^^^^^^^^^ error format/empty-value: \`temperature\` has no value; write \`unknown\` if it is not settled
  fixtures:
# ^^^^^^^^ error format/empty-value: \`fixtures\` has no value
`);
    expect(fixed('space: { size: unknown, air: { temperature: } }\n')).toBe(
      'space: { size: unknown, air: { temperature: unknown } }\n',
    );
    expect(fixed('space: { size: unknown, air: { temperature: null } }\n')).toBe(
      'space: { size: unknown, air: { temperature: unknown } }\n',
    );
  });

  test('of one thing where things by name belong', () => {
    check(`
seats: { at: { x: 1 m, y: 2 m, z: 1.2 m }, role: reference }
#        ^^ error format/name-missing: A name is missing between \`seats\` and \`at\`: \`seats\` holds things by name
`);
  });

  test('names', () => {
    check(`
seats:
  Mix Position: { at: unknown }
# ^^^^^^^^^^^^ error format/not-a-name: \`Mix Position\` cannot be a name: a small letter first, then small letters, digits and \`_\`
  on: { at: unknown }
# ^^ error format/not-a-name: \`on\` means something of its own and cannot be a name
`);
    expect(fixed('seats: { Mix Position: { at: unknown } }\n')).toBe(
      'seats: { mix_position: { at: unknown } }\n',
    );
  });

  test('frequencies as keys', () => {
    const { problems } = parseFile(
      'room',
      'room: 1\nspace: { size: unknown, decay_time: { 125 hz: 0.3 s, low: 0.5 s } }\n',
    );
    expect(problems.map(({ code, message }) => [code, message])).toEqual([
      ['quantity/unit-unknown', '`hz` is not a unit of a frequency; did you mean `Hz`?'],
      ['quantity/not-a-quantity', 'a frequency is expected here, such as `80 Hz`'],
    ]);
  });
});

describe('one of several keys', () => {
  test('none', () => {
    check(`
space: { size: unknown, surfaces: { floor: { note: "old" } } }
#                                   ^^^^^ error format/one-of: \`material\` or \`absorption\` or \`shares\` or \`admittance\` is missing from \`floor\`
`);
  });

  test('two', () => {
    check(`
space: { size: unknown, surfaces: { floor: { material: wood, admittance: 0.02 } } }
#                                                            ^^^^^^^^^^ error format/one-of: Only one of \`material\` or \`absorption\` or \`shares\` or \`admittance\` may be here
`);
  });

  test('a misspelled one', () => {
    check(`
space: { size: unknown, surfaces: { floor: { materail: wood } } }
#                                            ^^^^^^^^ error format/unknown-key: \`materail\` is not a key of \`floor\`; did you mean \`material\`?
`);
  });

  test('half of a pair', () => {
    check(`
space:
  plan: { front: { x: 0 m, y: 0 m }, right: { x: 4 m, y: 0 m }, back: { x: 4 m, y: 5 m } }
  ceiling: { front: 2.6 m }
# ^^^^^^^ error format/missing-key: \`back\` is missing from \`ceiling\`
`);
  });

  test('a plan needs a height', () => {
    const { problems } = parseFile(
      'room',
      'room: 1\nspace: { plan: { front: { x: 0 m, y: 0 m }, right: { x: 4 m, y: 0 m }, back: { x: 4 m, y: 5 m } } }\n',
    );
    expect(problems.map(({ code, message }) => [code, message])).toEqual([
      ['format/one-of', '`height` or `ceiling` is missing from `space`'],
    ]);
  });

  test('size and plan', () => {
    const { problems } = parseFile(
      'room',
      'room: 1\nspace: { size: unknown, plan: unknown, height: 3 m }\n',
    );
    expect(problems.map(({ code, message }) => [code, message])).toEqual([
      ['format/one-of', 'Only one of `size` or `plan` may be here'],
    ]);
  });

  test('a key that goes with another', () => {
    check(`
space: { size: unknown, ceiling: { front: 3 m, back: 2 m } }
#                       ^^^^^^^ error format/goes-with: \`ceiling\` goes with \`plan\`, which is not here
`);
  });
});

describe('values', () => {
  test('a value where a map belongs, and a map where a value belongs', () => {
    check(`
seats: { mix: { at: here } }
#                   ^^^^ error format/wrong-type: A map of keys is expected here, such as \`{ x: 1.38 m, y: 0.86 m, z: 1.22 m }\`
`);
    const { problems } = parseFile('room', 'room: 1\nname: { first: Heron }\n');
    expect(problems.map(({ code, message }) => [code, message])).toEqual([
      ['format/wrong-type', 'Text is expected here, such as `"Heron, mix room 2"`'],
    ]);
  });

  test('a value where a list belongs', () => {
    const { problems } = parseFile('room', 'room: 1\nwiring: desk.main -> left.in\n');
    expect(problems.map(({ code }) => code)).toEqual(['format/wrong-type']);
    expect(fixed('wiring: desk.main -> left.in\n')).toBe('wiring: [desk.main -> left.in]\n');
  });

  test('words', () => {
    check(`
settings:
  sub: { polarity: inverse, crossover: bypas, eq: { band_1: { frequency: 41 Hz, q: wide } } }
  #                ^^^^^^^ error format/not-a-choice: \`inverse\` is not one of \`normal\`, \`inverted\`, \`unknown\`; did you mean \`inverted\`?
  #                                    ^^^^^ error format/not-a-choice: \`bypas\` is not one of \`bypass\`, \`unknown\`; did you mean \`bypass\`?
  #                                                                                ^^^^ error format/wrong-type: A number is expected here, such as \`4.2\`
`);
    expect(fixed('settings: { sub: { polarity: inverse } }\n')).toBe(
      'settings: { sub: { polarity: inverted } }\n',
    );
  });

  test('a tag that chooses the shape', () => {
    check(`
space:
  size: unknown
  fixtures:
    door: { kind: keep_cler, x: [0 m, 1 m], y: [0 m, 1 m] }
    #             ^^^^^^^^^ error format/not-a-choice: \`keep_cler\` is not one of \`keep_clear\`, \`obstacle\`, \`panel\`; did you mean \`keep_clear\`?
    desk: { x: [0 m, 1 m], y: [0 m, 1 m] }
#   ^^^^ error format/missing-key: \`kind\` is missing from \`desk\`
    table: { kind: obstacle, x: [0 m, 1 m], y: [0 m, 1 m], wall: left }
#   ^^^^^ error format/missing-key: \`z\` is missing from \`table\`
    #                                                      ^^^^ error format/unknown-key: \`wall\` is not a key of \`table\`, or is from a newer Groundbass
`);
  });

  test('numbers', () => {
    check(`
space:
  size: unknown
  surfaces: { floor: { absorption: { 63 Hz: 20, 125 Hz: "0.2", 250 Hz: 0,3 } } }
  #                                         ^^ error format/number-range: Must be at least 0 and at most 1.3
  #                                                     ^^^^^ error format/wrong-type: A number is expected here, such as \`0.2\`
  #                                                                    ^^^ error format/wrong-type: A number is expected here, such as \`0.2\`
`);
    expect(
      fixed('space: { size: unknown, surfaces: { floor: { absorption: { 63 Hz: "0.2" } } } }\n'),
    ).toBe('space: { size: unknown, surfaces: { floor: { absorption: { 63 Hz: 0.2 } } } }\n');
  });

  test('days', () => {
    check(`
surveyed: { date: 12.10.2026, by: "R. Ames" }
#                 ^^^^^^^^^^ error format/not-a-day: A day is expected here, such as \`2026-10-12\`
signed_off: { date: 2026-02-30, by: "R. Ames" }
#                   ^^^^^^^^^^ error format/not-a-day: A day is expected here, such as \`2026-10-12\`
`);
    expect(fixed('surveyed: { date: 12.10.2026 }\n')).toBe('surveyed: { date: 2026-10-12 }\n');
    expect(fixed('surveyed: { date: 12.10.2026 }\n', 'room', 1)).toBe(
      'surveyed: { date: 2026-12-10 }\n',
    );
  });

  test('connections', () => {
    check(`
wiring:
  - desk.main = sub.in
#   ^^^^^^^^^^^^^^^^^^ error format/not-an-arrow: A connection is expected here, such as \`desk.main_left -> sub.in_left\`
  - desk.net.12 -> sub.net
  - desk -> sub.in
#   ^^^^^^^^^^^^^^ error format/not-an-arrow: A connection is expected here, such as \`desk.main_left -> sub.in_left\`
`);
  });

  test('counts', () => {
    check(`
space:
  size: unknown
  fixtures: { desk: { kind: obstacle, x: [1 m], y: [1 m, 2 m], z: [0 m, 1 m] } }
  #                                      ^^^^^ error format/count: 2 values are expected here, such as \`[0 m, 0.95 m]\`
circuits: { tech: { feeds: [desk, sub, desk] } }
#                                      ^^^^ error format/count: \`desk\` is in this list twice
`);
  });

  test('quantities', () => {
    check(`
space:
  size: { width: 4620, depth: 6.18 m ± 20, height: "2,94 m" }
  #              ^^^^ error quantity/unit-missing: A unit is missing: a length is expected here, such as \`1.20 m\`
  #                                    ^^ error quantity/unit-missing: A unit is missing behind \`±\`
  #                                                 ^^^^^^ error quantity/decimal-comma: The decimal sign is a point: \`2.94 m\`
  air: { temperature: 21.5°C, humidity: 45 }
  #                   ^^^^^^ warning quantity/spelling: One space separates number and unit
  #                                     ^^ error quantity/unit-missing: A unit is missing: a share in per cent is expected here, such as \`45 %\`
`);
    expect(fixed('space: { size: { width: "2,94 m", depth: 5 m, height: 3 m } }\n')).toBe(
      'space: { size: { width: "2.94 m", depth: 5 m, height: 3 m } }\n',
    );
  });

  test('unknown stands wherever a value or a reference does', () => {
    check(`
policy: unknown
surveyed: { date: unknown, by: unknown }
space: { size: { width: unknown, depth: unknown, height: unknown }, air: unknown, surfaces: { floor: unknown, left: { material: unknown } }, decay_time: unknown }
seats: { mix: { at: { x: unknown, y: unknown, z: unknown }, role: unknown } }
speakers: { left: { gear: unknown, channel: unknown, at: unknown, aim: unknown, mount: unknown } }
subwoofers: { sub: { item: unknown, at: unknown } }
settings: { sub: { crossover: unknown, level: unknown, polarity: unknown, eq: unknown, delay: unknown } }
targets: { layout: unknown, reference_level: unknown, curve: unknown, monitor_control: unknown }
signed_off: { date: unknown, by: unknown, setup: unknown, recheck: unknown }
`);
  });
});

describe('alternatives', () => {
  const room = `
space: { size: { width: 4 m, depth: 5 m, height: 3 m }, surfaces: { floor: { material: wood } } }
seats: { mix: { at: { x: 1 m, y: 2 m, z: 1.2 m } } }
`;

  test('have the shape of the file, in which nothing is required and things can be taken away', () => {
    check(`${room}
alternatives:
  a: { change: { space: { size: { width: 4.2 m }, surfaces: { floor: { absorption: { 63 Hz: 0.2 } } } }, seats: { mix: absent, back: { at: unknown } } } }
`);
  });

  test('are held against the schema as they lie over the room', () => {
    check(`${room}
alternatives:
  a:
    change:
      seats: { mix: { at: { x: 80 Hz } }, back: { at: { x: 1 m } } }
      #                        ^^^^^ error quantity/wrong-dimension: A length is expected here, such as \`1.20 m\`
      #                                           ^^ error format/missing-key: \`y\` and \`z\` are missing from \`at\`
      speaker: {}
#     ^^^^^^^ error format/unknown-key: \`speaker\` is not a key of \`change\`; did you mean \`speakers\`?
`);
  });
});

test('a gear file', () => {
  check(
    `
models:
  heath_6:
    kind: loudspeker
#         ^^^^^^^^^^ error format/not-a-choice: \`loudspeker\` is not one of \`loudspeaker\`, \`subwoofer\`, \`interface\`, \`controller\`, \`processor\`, \`amplifier\`, \`switch\`; did you mean \`loudspeaker\`?
    controls: { level: { min: -20 dB, step: 0.5 dB }, tilt: { choices: [flat, desk] }, delay: { told_as: time, max: 25 ms } }
#               ^^^^^ error format/missing-key: \`max\` is missing from \`level\`
    latency: { driver: 1.1 ms, out: 2 m }
    #                               ^^^ error quantity/wrong-dimension: A time or a number of samples is expected here, such as \`1.24 ms\`
    paths: [in -> level -> driver, in]
    #                              ^^ error format/not-an-arrow: A path is expected here, such as \`in -> level -> driver\`
`,
    'gear',
  );
});
