// Plans at the edge of what a mesh can bear: they work as the plain room that they nearly are, or say why not.

import { expect, test } from 'vitest';
import { roomModes } from '../../core/elements/roomModes.ts';
import { withField } from '../../core/withField.ts';
import { createWorkOut } from '../../core/workOut.ts';
import { resolvedText } from '../support/resolvedText.ts';

const C_m_s = 343;
const LEVEL = { height_m: 2.6, slopeX: 0, slopeY: 0 };
const LIMIT_HZ = 130;

/** f = c/2 √((l/X)² + (m/Y)² + (n/Z)²). @source Rayleigh, Theory of Sound, §267 */
function boxModes_hz(x_m: number, y_m: number, z_m: number): readonly number[] {
  const found: number[] = [];
  for (let l = 0; l < 20; l++)
    for (let m = 0; m < 20; m++)
      for (let n = 0; n < 20; n++) found.push((C_m_s / 2) * Math.hypot(l / x_m, m / y_m, n / z_m));
  return found.filter((f_hz) => f_hz <= LIMIT_HZ).sort((one, other) => one - other);
}

test.each([
  ['a corner in the middle of a wall', [[2.5, 0]], 1, 0.002],
  ['two corners a millimetre apart', [[5, 0.001]], 2, 0.002],
  // What the walls take away or add is a thousandth of the room.
  [
    'a step of five millimetres',
    [
      [5, 2],
      [4.995, 2],
      [4.995, 4],
    ],
    2,
    0.004,
  ],
  [
    'an arm a centimetre wide',
    [
      [5, 4],
      [3, 4],
      [3, 4.5],
      [2.99, 4.5],
      [2.99, 4],
    ],
    2,
    0.006,
  ],
  [
    'a needle of a fifth of a degree',
    [
      [5, 4],
      [2.51, 4],
      [2.5, 9],
      [2.49, 4],
    ],
    2,
    0.02,
  ],
] as const)('%s: the modes of the plain room', (_, more, at, tolerance) => {
  const plain: (readonly [number, number])[] = [
    [0, 0],
    [5, 0],
    [5, 4],
    [0, 4],
  ];
  const replaced = 3 <= more.length ? 1 : 0; // the corner (5, 4) is among the new ones
  plain.splice(at, replaced, ...more);
  const plan = plain.map(([x_m, y_m]) => ({ x_m, y_m }));
  const got = roomModes({ plan, ceiling: LEVEL }, C_m_s, LIMIT_HZ).frequency_hz;
  const want = boxModes_hz(5, 4, 2.6);
  // A needle brings modes of its own; each of the plain room's is there all the same.
  for (const f_hz of want) {
    const apart = Math.min(...got.map((one) => Math.abs(one - f_hz)));
    expect(apart, `${f_hz} Hz`).toBeLessThanOrEqual(Math.max(0.05, tolerance * f_hz));
  }
});

test('a sliver is a pipe: whole multiples of its first mode', () => {
  const plan = [
    { x_m: 0, y_m: 0 },
    { x_m: 5, y_m: 0 },
    { x_m: 5, y_m: 0.01 },
    { x_m: 0, y_m: 0.01 },
  ];
  const { frequency_hz } = roomModes({ plan, ceiling: LEVEL }, C_m_s, 62);
  expect(frequency_hz.map((f_hz) => Number(f_hz.toFixed(1)))).toEqual([0, 34.3]);
});

const PLACES = `seats: { mix: { at: { x: 2 m, y: 2 m, z: 1.2 m }, role: reference } }
speakers: { left: { channel: L, at: { x: 1 m, y: 1 m, z: 1.2 m } } }
`;

function told(corners: readonly (readonly [number, number])[], ceiling: string) {
  const plan = corners.map(([x, y], i) => `    w${i}: { x: ${x} m, y: ${y} m }`).join('\n');
  const { room, codes } = resolvedText(
    `room: 1\nspace:\n  plan:\n${plan}\n  ${ceiling}\n${PLACES}`,
  );
  const setup = createWorkOut()(room, { today: null, defaultTemperature_k: 293.15 });
  return { codes, field: withField(setup, { today: null, envelope: false }).field };
}

test.each([
  [
    'crosses itself',
    [
      [0, 0],
      [4, 5],
      [4, 0],
      [0, 5],
    ],
    'geometry/plan-crosses',
  ],
  [
    'touches itself',
    [
      [0, 0],
      [5, 0],
      [5, 4],
      [2.5, 0],
      [0, 4],
    ],
    'geometry/plan-crosses',
  ],
  [
    'runs out and back',
    [
      [0, 0],
      [5, 0],
      [5, 4],
      [5, 6],
      [5, 4],
      [0, 4],
    ],
    'geometry/plan-crosses',
  ],
  [
    'is flat',
    [
      [0, 0],
      [5, 0],
      [2.5, 0],
    ],
    'geometry/plan-crosses',
  ],
  [
    'has one corner twice',
    [
      [0, 0],
      [5, 0],
      [5, 0],
      [5, 4],
      [0, 4],
    ],
    'geometry/plan-corner-twice',
  ],
] as const)('a plan that %s is told at once, and no field is made of it', (_, corners, code) => {
  for (const ceiling of ['height: 2.6 m', 'ceiling: { left: 2.2 m, right: 3.0 m }']) {
    const { codes, field } = told(corners, ceiling);
    expect(codes).toContain(code);
    expect(field).toBeNull();
  }
});

test('a ceiling that meets the floor has no field, and what it is asked of stands', () => {
  const corners = [
    [0, 0],
    [5, 0],
    [5, 4],
    [0, 4],
  ] as const;
  const { field } = told(corners, 'ceiling: { left: 0 m, right: 3.0 m }');
  expect(field).toBeNull();
});
