// The field of an L-shaped room with soft walls against an independent finite-element solution (test/elements/data/forced_lshape_*.json).
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { boxTransfer_pa_s_m3 } from '../../core/acoustics/field/boxTransfer.ts';
import { preparePrismField } from '../../core/elements/prismField.ts';

interface Forced {
  readonly inputs: {
    readonly plan_polygon_m: readonly (readonly [number, number])[];
    readonly height_m: number;
    readonly beta: number;
    readonly source_m: readonly [number, number, number];
    readonly receivers_m: readonly (readonly [number, number, number])[];
    readonly f_hz: readonly number[];
    readonly c_m_s: number;
    readonly rho_kg_m3: number;
  };
  readonly expected: Record<string, readonly { readonly re: number[]; readonly im: number[] }[]>;
}

const point = ([x_m, y_m, z_m]: readonly [number, number, number]) => ({ x_m, y_m, z_m });
const level_db = (re: number, im: number) => 20 * Math.log10(Math.hypot(re, im));

describe.each(['forced_lshape_uniform_0p02', 'forced_lshape_uniform_0p05'])('%s', (name) => {
  const { inputs, expected }: Forced = JSON.parse(
    readFileSync(new URL(`data/${name}.json`, import.meta.url), 'utf8'),
  );
  test('20–200 Hz within 0.3 dB RMS (1 dB is asked)', () => {
    const wall = { real: inputs.beta, imaginary: 0 };
    const plan = inputs.plan_polygon_m.map(([x_m, y_m]) => ({ x_m, y_m }));
    const field = preparePrismField(
      plan,
      inputs.height_m,
      () => ({ walls: plan.map(() => wall), floor: wall, ceiling: wall }),
      { speedOfSound_m_s: inputs.c_m_s, density_kg_m3: inputs.rho_kg_m3 },
      inputs.f_hz,
    );
    const got = field.listenAt(inputs.receivers_m.map(point))(point(inputs.source_m));
    const want = expected.p ?? expected.p_exact ?? [];
    expect(want.length).toBe(3);
    let square = 0;
    let count = 0;
    got.forEach(({ re, im }, r) => {
      re.forEach((x, i) => {
        const off = level_db(x, im[i] ?? 0) - level_db(want[r]?.re[i] ?? 0, want[r]?.im[i] ?? 0);
        square += off * off;
        count++;
      });
    });
    expect(count).toBe(3 * inputs.f_hz.length);
    expect(Math.sqrt(square / count)).toBeLessThan(0.3);
  });
});

test('a rectangle drawn as a plan has the field of the box', () => {
  const beta = { real: 0.03, imaginary: 0 };
  const medium = { speedOfSound_m_s: 343, density_kg_m3: 1.204 };
  const frequency_hz = [25, 41, 63, 88, 110];
  const plan = [
    { x_m: 0, y_m: 0 },
    { x_m: 4.7, y_m: 0 },
    { x_m: 4.7, y_m: 6.2 },
    { x_m: 0, y_m: 6.2 },
  ];
  const [transfer] = preparePrismField(
    plan,
    2.9,
    () => ({ walls: plan.map(() => beta), floor: beta, ceiling: beta }),
    medium,
    frequency_hz,
  ).listenAt([{ x_m: 2.35, y_m: 3.9, z_m: 1.2 }])({ x_m: 0.6, y_m: 0.45, z_m: 0.35 });
  const axis = (length_m: number) => ({ length_m, walls: [beta, beta] as const });
  frequency_hz.forEach((f_hz, i) => {
    const [re, im] = boxTransfer_pa_s_m3(
      [axis(4.7), axis(6.2), axis(2.9)],
      medium,
      f_hz,
      [0.6, 0.45, 0.35],
      [2.35, 3.9, 1.2],
    );
    const off = level_db(transfer?.re[i] ?? 0, transfer?.im[i] ?? 0) - level_db(re, im);
    expect(Math.abs(off)).toBeLessThan(0.3);
  });
});
