// Wiring: connections with their exact words, and what is wrong with a line told at its word.

import { expect, test } from 'vitest';
import { check, fixed, resolveText } from './small.ts';

const THINGS = `
speakers: { left: { gear: heath_6, channel: L, at: unknown } }
subwoofers: { sub: { gear: moor_12, at: unknown } }
devices: { desk: { gear: quay_8 }, amp: { gear: nothing_known } }
`.replace(', amp: { gear: nothing_known }', '');

test('lines become connections; the line number stays', () => {
  const { room } = resolveText(`${THINGS}
wiring:
  - desk.main_left   ->   sub.in_left
  - desk.nowhere -> sub.in_left
  - desk.net.12 -> left.in
`);
  expect(room.wiring).toEqual([
    {
      index: 0,
      from: { device: 'desk', port: 'main_left' },
      to: { device: 'sub', port: 'in_left' },
    },
    { index: 2, from: { device: 'desk', port: 'net.12' }, to: { device: 'left', port: 'in' } },
  ]);
});

test('unknown devices and ports', () => {
  check(`${THINGS}
wiring:
  - dsek.main_left -> sub.in_left
  # ^^^^ error: No speaker, subwoofer or device is called \`dsek\`; did you mean \`desk\`?
  - desk.main_left -> sub.in_lfet
  #                       ^^^^^^^ error: \`sub\` (moor_12) has no input called \`in_lfet\`; did you mean \`in_left\` or \`in_lfe\`?
  - "desk.main_lefft -> sub.in_left"
  #       ^^^^^^^^^^ error: \`desk\` (quay_8) has no output called \`main_lefft\`; did you mean \`main_left\`?
`);
});

test('arrows go from outputs to inputs', () => {
  check(`${THINGS}
wiring:
  - left.in -> sub.out_left
  #      ^^ error: \`in\` of \`left\` is an input; the arrow goes from an output to an input
  - sub.in_left -> left.in
  #     ^^^^^^^ error: \`in_left\` of \`sub\` is an input; the arrow goes from an output to an input
  - desk.main_left -> sub.out_left
  #                       ^^^^^^^^ error: \`out_left\` of \`sub\` is an output; the arrow goes from an output to an input
`);
});

test('an arrow the wrong way is turned round', () => {
  expect(fixed(`${THINGS}wiring: [left.in -> sub.out_left]\n`)).toBe(
    `${THINGS}wiring: [sub.out_left -> left.in]\n`,
  );
});

test('the same line twice counts once', () => {
  const twice = `${THINGS}
wiring:
  - desk.main_left -> sub.in_left
  - desk.main_left ->  sub.in_left
  # ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning: \`desk.main_left -> sub.in_left\` stands here twice
`;
  check(twice);
  expect(resolveText(twice).room.wiring).toHaveLength(1);
});

test('ports of gear that is not known are taken as they are, and nothing is told twice', () => {
  const text = `
speakers: { left: { gear: heath_6, channel: L, at: unknown } }
devices:
  amp: { gear: nothing }
  #            ^^^^^^^ error: No gear model is called \`nothing\`; gear models here: \`heath_6\`, \`moor_12\`, \`quay_8\` and \`sluice\`
wiring: [amp.out_1 -> left.in]
settings: { amp: { level: -3 dB } }
`;
  check(text);
  const { room } = resolveText(text);
  expect(room.wiring).toHaveLength(1);
  expect(room.settings[0]?.values[0]).toMatchObject({ control: 'level', level_db: -3 });
});

test('every word of a line refers to its definition', () => {
  const text = `${THINGS}wiring: [desk.net.12 -> sub.in_left]\n`;
  const whole = `room: 1${text}`;
  const words = resolveText(text)
    .references.filter(({ path }) => path[0] === 'wiring')
    .map(({ kind, range, target }) => [
      kind,
      whole.slice(range.start, range.end),
      target?.file ?? 'room',
      target?.path.join('.'),
    ]);
  expect(words).toEqual([
    ['device', 'desk', 'room', 'devices.desk'],
    ['port', 'net', 'small.gear.yaml', 'models.quay_8.outputs.2'],
    ['device', 'sub', 'room', 'subwoofers.sub'],
    ['port', 'in_left', 'small.gear.yaml', 'models.moor_12.inputs.0'],
  ]);
});
