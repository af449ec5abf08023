// Materials and admittances: every figure possible, names that read well, and the way from absorption to admittance and back.
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  absorptionAt_ratio,
  MATERIAL_BANDS_HZ,
  MATERIALS,
} from '../../core/acoustics/materials.ts';
import { diffuseAbsorption_ratio, porousAdmittance } from '../../core/acoustics/porousLayer.ts';
import {
  admittanceOf,
  statisticalAbsorption_ratio,
} from '../../core/acoustics/statisticalAbsorption.ts';
import { expectNear } from '../support/expectNear.ts';

describe('materials', () => {
  test.each([...MATERIALS])(
    '%s',
    (name, { title, absorptions_ratio, extrapolated_hz, status, source }) => {
      expect(name).toMatch(/^[a-z][a-z0-9]*(_[a-z0-9]+)*$/);
      expect(absorptions_ratio.length).toBe(MATERIAL_BANDS_HZ.length);
      expect(absorptions_ratio.every((alpha) => 0 < alpha && alpha <= 1)).toBe(true);
      expect(title.length * source.length).toBeGreaterThan(0);
      if (status === 'table') {
        expect(extrapolated_hz).toEqual([63]);
        expect(absorptions_ratio[0]).toBe(absorptions_ratio[1]);
      } else {
        expect(source).toMatch(/^estimate/);
      }
    },
  );

  test('there are at least 35, and none is found by the name of an object’s own parts', () => {
    expect(MATERIALS.size).toBeGreaterThanOrEqual(35);
    expect(MATERIALS.get('constructor')).toBeUndefined();
  });

  test('13 mm gypsum board on studs (Master Handbook of Acoustics, printed)', () => {
    const board = MATERIALS.get('gypsum_board_on_studs');
    expect(board?.absorptions_ratio.slice(1)).toEqual([0.29, 0.1, 0.05, 0.04, 0.07, 0.09]);
  });

  test('between bands straight over log frequency, beyond the ends held', () => {
    const rising = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6];
    const at = (frequency_hz: number) => absorptionAt_ratio(rising, frequency_hz);
    expectNear(
      [at(20), at(125), at(125 * Math.SQRT2), at(4000), at(16_000)],
      [0, 0.1, 0.15, 0.6, 0.6],
      1e-9,
      '',
    );
  });
});

describe('porous layers', () => {
  test('absorb more the thicker they are, at every low band', () => {
    const low = [50, 100, 200].map(
      (thickness_mm) =>
        MATERIALS.get(`porous_${thickness_mm}mm`)?.absorptions_ratio.slice(0, 3) ?? [],
    );
    const [thin = [], middle = [], thick = []] = low;
    expect(thin.length).toBe(3);
    expect(thin.every((alpha, band) => alpha < (middle[band] ?? 0))).toBe(true);
    expect(middle.every((alpha, band) => alpha < (thick[band] ?? 0))).toBe(true);
  });

  test('the layer model is near the printed glass-fibre mat of 50 mm (Audio Engineering handbook, Table 3.4)', () => {
    const printed = MATERIALS.get('glass_fibre_mat_50mm')?.absorptions_ratio ?? [];
    const layer = { thickness_m: 0.05, flowResistivity_pa_s_m2: 20_000 };
    const model = MATERIAL_BANDS_HZ.map((frequency_hz) =>
      diffuseAbsorption_ratio(porousAdmittance(layer, frequency_hz, 343)),
    );
    // laboratories differ by 0.1 and the mat's flow resistivity is not printed
    expectNear(model.slice(1), printed.slice(1), 0.16, '');
  });

  test('absorb and never amplify, at any thickness and frequency', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        fc.double({ min: 20, max: 5000, noNaN: true }),
        fc.double({ min: 2000, max: 60_000, noNaN: true }),
        (thickness_m, frequency_hz, flowResistivity_pa_s_m2) => {
          const admittance = porousAdmittance(
            { thickness_m, flowResistivity_pa_s_m2 },
            frequency_hz,
            343,
          );
          const absorption = diffuseAbsorption_ratio(admittance);
          expect(0 <= admittance.re && 0 <= absorption && absorption <= 1).toBe(true);
        },
      ),
    );
  });
});

describe('absorption and real admittance', () => {
  test('come back from each other below the greatest possible', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.95, noNaN: true }), (alpha) => {
        const { admittance_ratio, reached } = admittanceOf(alpha);
        expect(reached).toBe(true);
        expectNear(statisticalAbsorption_ratio(admittance_ratio), alpha, 1e-10, '');
      }),
    );
  });

  test('0.99, as tables print it, is out of reach and says so', () => {
    const { reached, absorption_ratio, admittance_ratio } = admittanceOf(0.99);
    expect(reached).toBe(false);
    expectNear([absorption_ratio, 1 / admittance_ratio], [0.951, 1.567], 0.001, '');
  });

  test('a hard wall has none, a negative absorption is refused', () => {
    expectNear(admittanceOf(0).admittance_ratio, 0, 1e-12, '');
    expect(() => admittanceOf(-0.1)).toThrow('absorption_ratio must be >= 0, got -0.1');
  });
});
