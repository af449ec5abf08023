// The textbook's sum over a box's modes, from our own list of modes, their shapes and their damping.
import { boxModes, modeShape_ratio } from '../../../core/acoustics/boxModes.ts';
import { decayConstant_per_s } from '../../../core/acoustics/modalDecay.ts';
import type { Point3 } from '../../../core/acoustics/point.ts';
import type { Comparison } from '../comparison.ts';

const SIZE = { x_m: 5, y_m: 4, z_m: 3 };
const C_m_s = 343;
const LIMIT_HZ = 400;
const T_s = 0.5;
const CORNERS = [point(0, 0, 0), point(5, 4, 3)] as const;
const INSIDE = [point(0.3, 2, 0.3), point(3.2, 2, 1.2)] as const;

/** Frequency, places, and the level re the free field at 1 m. */
const ROWS: readonly (readonly [number, readonly [Point3, Point3], number])[] = [
  [34.3, CORNERS, 18.668],
  [80, CORNERS, 25.111],
  [60, INSIDE, 3.543],
  [42.875, INSIDE, -8.172],
];

function point(x_m: number, y_m: number, z_m: number): Point3 {
  return { x_m, y_m, z_m };
}

/**
 * |Σ Λ ψ(r) ψ(r₀) c²/V / (ω_n² − ω² + 2jδω)| · 4π, all modes alike in damping.
 * @source Kuttruff, Room Acoustics, ch. 3
 */
function level_db(frequency_hz: number, [from, to]: readonly [Point3, Point3]): number {
  const omega = 2 * Math.PI * frequency_hz;
  const damping = decayConstant_per_s(T_s);
  const modes = [
    { frequency_hz: 0, order: [0, 0, 0] as const },
    ...boxModes(SIZE, C_m_s, LIMIT_HZ),
  ];
  let [re, im] = [0, 0];
  for (const { frequency_hz: f_hz, order } of modes) {
    const weight = order.reduce<number>((product, n) => product * (n === 0 ? 1 : 2), 1);
    const shape = modeShape_ratio(order, SIZE, from) * modeShape_ratio(order, SIZE, to);
    const dRe = (2 * Math.PI * f_hz) ** 2 - omega ** 2;
    const dIm = 2 * damping * omega;
    const size = dRe * dRe + dIm * dIm;
    re += (weight * shape * dRe) / size;
    im -= (weight * shape * dIm) / size;
  }
  const scale = (4 * Math.PI * C_m_s ** 2) / (SIZE.x_m * SIZE.y_m * SIZE.z_m);
  return 20 * Math.log10(scale * Math.hypot(re, im));
}

export const modeSumCases: readonly Comparison[] = [
  {
    computation: 'modes, shapes and damping in a textbook sum',
    source:
      'Kuttruff ch. 3, mode sum (formula from memory), worked out in plain Python: 5 × 4 × 3 m, T 0.5 s, 501 terms',
    unit: 'dB',
    tolerance: 0.001,
    because: 'three decimals of the printed figures',
    count: ROWS.length,
    pairs: () =>
      ROWS.map(([frequency_hz, places, expected]) => ({
        what: `${frequency_hz} Hz`,
        actual: level_db(frequency_hz, places),
        expected,
      })),
  },
  {
    computation: 'terms of that sum',
    source: 'the same',
    unit: '',
    tolerance: 0,
    because: 'a count',
    count: 1,
    pairs: () => [
      {
        what: 'modes to 400 Hz with the uniform one',
        actual: boxModes(SIZE, C_m_s, LIMIT_HZ).length + 1,
        expected: 501,
      },
    ],
  },
];
