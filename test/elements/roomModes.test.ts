// Finite-element modes against independent eigenfrequencies and mode values (test/elements/data/*.json, `source` in each).
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { roomModes } from '../../core/elements/roomModes.ts';

interface Modes {
  readonly inputs: {
    readonly c_m_s: number;
    readonly plan_polygon_m: readonly (readonly [number, number])[];
    readonly h0: number;
    readonly ax: number;
    readonly ay: number;
    readonly fmax_hz: number;
    readonly points_m: readonly (readonly [number, number, number])[];
  };
  readonly expected: {
    readonly f_hz: readonly number[];
    readonly modes: readonly {
      readonly mode_number: number;
      readonly f_hz: number;
      readonly abs_p_rms_normalised: readonly number[];
    }[];
  };
}

describe.each([
  ['modes_rect', 0.0008],
  ['modes_lshape', 0.0008],
  ['modes_trapezoid', 0.0008],
  ['modes_splaychamfer', 0.0008],
  ['modes_sloped', 0.002],
  ['modes_splaychamfer_sloped', 0.002],
] as const)('%s', (name, tolerance) => {
  const { inputs, expected }: Modes = JSON.parse(
    readFileSync(new URL(`data/${name}.json`, import.meta.url), 'utf8'),
  );
  const { c_m_s, h0, ax, ay, fmax_hz } = inputs;
  const plan = inputs.plan_polygon_m.map(([x_m, y_m]) => ({ x_m, y_m }));
  const modes = roomModes(
    { plan, ceiling: { height_m: h0, slopeX: ax, slopeY: ay } },
    c_m_s,
    fmax_hz * 1.02,
  );
  const audible = modes.frequency_hz.filter((f) => 1 < f);

  test(`eigenfrequencies below 150 Hz within ${tolerance * 100} %`, () => {
    const worst = expected.f_hz.reduce(
      (most, want, i) => Math.max(most, Math.abs((audible[i] ?? 0) - want) / want),
      0,
    );
    expect(expected.f_hz.length).toBeGreaterThan(40);
    expect(worst).toBeLessThan(tolerance);
    expect(audible[expected.f_hz.length] ?? Infinity).toBeGreaterThan(fmax_hz);
  });

  test('mode values at five places within 3 % of the largest', () => {
    expect(expected.modes.length).toBe(3);
    for (const { mode_number, f_hz, abs_p_rms_normalised } of expected.modes) {
      // Neighbours nearer than the elements' error can change places or mix: those modes are left to the frequency check.
      const near = expected.f_hz.filter((f) => Math.abs(f - f_hz) / f_hz < 0.004);
      if (near.length !== 1) continue;
      inputs.points_m.forEach(([x_m, y_m, z_m], p) => {
        const got = Math.abs(modes.shapesAt({ x_m, y_m, z_m })[mode_number] ?? Number.NaN);
        expect(Math.abs(got - (abs_p_rms_normalised[p] ?? 0))).toBeLessThan(0.06);
      });
    }
  });
});
