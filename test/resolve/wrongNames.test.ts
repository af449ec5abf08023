// Wrong names in a room are told at the word, once, with what may have been meant.

import { expect, test } from 'vitest';
import { check, fixed } from './small.ts';

const OK = `
seats: { mix: { at: { x: 2 m, y: 2 m, z: 1.2 m } } }
`;

test('a room without faults has none told', () => {
  check(`
policy: mix
space: { size: { width: 4 m, depth: 5 m, height: 3 m } }
seats: { mix: { at: { x: 2 m, y: 2 m, z: 1.2 m }, role: reference } }
speakers: { left: { gear: heath_6, channel: L, at: { x: 1 m, y: 1 m, z: 1.2 m }, aim: mix } }
subwoofers: { sub: { item: moor_a, at: { x: 2 m, y: 1 m, z: 0.2 m } } }
devices: { desk: { gear: quay_8, channels: { main_left: L } } }
wiring: [desk.main_left -> sub.in_left, sub.out_left -> left.in]
circuits: { tech: { rating: 16 A, voltage: 230 V, feeds: [desk, sub, left] } }
sets: { far: { speakers: [left], subwoofers: [sub], layout: 0+2+0 } }
settings: { sub: { level: -3 dB, ports: { driver: { delay: 1 ms } } } }
`);
});

test('gear and items', () => {
  check(`
speakers:
  left: { gear: heath_66, channel: L, at: unknown }
  #             ^^^^^^^^ error: No gear model is called \`heath_66\`; did you mean \`heath_6\`?
subwoofers:
  sub: { item: moor_b, at: unknown }
  #            ^^^^^^ error: The facility has no item called \`moor_b\`; did you mean \`moor_a\`?
`);
});

test('a facility that is not there', () => {
  check(
    `
policy: mix
#       ^^^ error: \`mix\` cannot be looked up: no facility.yaml was found above this room
subwoofers:
  sub: { item: moor_a, at: unknown }
  #            ^^^^^^ error: \`moor_a\` cannot be looked up: no facility.yaml was found above this room
`,
    { facility: null },
  );
});

test('policy, seat, wall, surface, fixture', () => {
  check(
    `${OK}
policy: mixx
#       ^^^^ error: The facility has no policy called \`mixx\`; did you mean \`mix\`?
space:
  size: { width: 4 m, depth: 5 m, height: 3 m }
  surfaces:
    frnt: unknown
    # <- the next line marks the key above
    floor: unknown
speakers:
  left: { gear: heath_6, channel: L, at: unknown, aim: mixx }
  #                                                    ^^^^ error: No seat is called \`mixx\`; did you mean \`mix\`?
  right: { gear: heath_6, channel: R, at: unknown, mount: { flush_in: bakc } }
  #                                                                   ^^^^ error: No surface is called \`bakc\`; did you mean \`back\`?
`.replace(
      '    # <- the next line marks the key above',
      '#   ^^^^ error: No surface is called `frnt`; did you mean `front`?',
    ),
  );
});

test('walls are those of the plan', () => {
  check(`
space:
  plan: { a: { x: 0 m, y: 0 m }, b: { x: 4 m, y: 0 m }, c: { x: 0 m, y: 5 m } }
  height: 3 m
  fixtures:
    panel: { kind: panel, wall: front, along: [0 m, 1 m], z: [0 m, 1 m], surface: { material: x } }
    #                           ^^^^^ error: No wall is called \`front\`; walls here: \`a\`, \`b\` and \`c\`
`);
});

test('channels and layouts', () => {
  check(`
speakers:
  left: { gear: heath_6, channel: LL, at: unknown }
  #                               ^^ error: No channel is called \`LL\`; did you mean \`L\`, \`Ls\` or \`Lb\`?
  top: { gear: heath_6, channel: U+045, at: unknown }
targets:
  layout: 0+6+0
  #       ^^^^^ error: No layout of ITU-R BS.2051 is called \`0+6+0\`; did you mean \`0+2+0\`, \`0+5+0\` or \`0+7+0\`?
`);
});

test('circuits, sets and cables', () => {
  check(`
speakers: { left: { gear: heath_6, channel: L, at: unknown } }
subwoofers: { sub: { gear: moor_12, at: unknown } }
circuits:
  tech: { feeds: [left, subb] }
  #                     ^^^^ error: No speaker, subwoofer or device is called \`subb\`; did you mean \`sub\`?
sets:
  far: { speakers: [sub], subwoofers: [sub] }
  #                 ^^^ error: No speaker is called \`sub\`; speakers here: \`left\`
cables:
  a: { from: sub.out_lft, to: left }
  #              ^^^^^^^ error: \`sub\` (moor_12) has no port called \`out_lft\`; did you mean \`out_left\`?
`);
});

test('one name for two things', () => {
  check(`
speakers: { sub: { gear: heath_6, channel: L, at: unknown } }
subwoofers:
  sub: { gear: moor_12, at: unknown }
# ^^^ error: \`sub\` is a speaker already; speakers, subwoofers and devices share their names
`);
});

test('one item in two places', () => {
  check(`
subwoofers:
  sub: { item: moor_a, at: unknown }
  sub_2: { item: moor_a, at: unknown }
  #              ^^^^^^ error: \`moor_a\` is a single thing and is \`sub\` already
`);
});

test('measurements', () => {
  check(
    `${OK}
subwoofers: { sub: { gear: moor_12, at: unknown } }
sessions:
  autumn:
    date: 2026-11-03
    takes:
      a: { file: gone.wav, seat: mix, sounding: [sub, lefft] }
      #          ^^^^^^^^ error: There is no file \`gone.wav\`
      #                                               ^^^^^ error: No speaker or subwoofer is called \`lefft\`; speakers and subwoofers here: \`sub\`
      b: { file: here.wav, seat: mixx }
      #                          ^^^^ error: No seat is called \`mixx\`; did you mean \`mix\`?
    averages:
      area: { takes: [a, c], by: power }
      #                  ^ error: This session has no take called \`c\`; did you mean \`a\` or \`b\`?
`,
    { fileExists: (file) => file === 'here.wav' },
  );
});

test('accepted findings', () => {
  check(
    `
speakers: { left: { gear: heath_6, channel: L, at: unknown } }
accepted:
  a: { finding: layout/hight, about: speakers.left, because: fixed }
  #             ^^^^^^^^^^^^ error: No finding has the code \`layout/hight\`; did you mean \`layout/height\`?
  b: { finding: layout/height, about: speakers.lft, because: fixed }
  #                                            ^^^ error: \`speakers\` has no \`lft\`; did you mean \`left\`?
  c: { finding: layout/height, about: speakers.left.at.z, because: fixed }
`,
    { findingCodes: ['layout/height'] },
  );
});

test('materials, where they are known', () => {
  check(
    `
space:
  surfaces:
    floor: { material: carpit }
    #                  ^^^^^^ error: No material is called \`carpit\`; did you mean \`carpet\`?
    back: { shares: { carpet: 40 %, conkrete: 60 % } }
    #                               ^^^^^^^^ error: No material is called \`conkrete\`; did you mean \`concrete\`?
  size: { width: 4 m, depth: 5 m, height: 3 m }
`,
    { materials: ['carpet', 'concrete'] },
  );
});

test('the fix puts the near name in the place of the word alone', () => {
  const wrong = `${OK}speakers: { left: { gear: heath_6, channel: L, at: unknown, aim: "mixx" } } # kept`;
  expect(fixed(wrong)).toBe(wrong.replace('mixx', 'mix'));
});
