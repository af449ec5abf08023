// Modes of a box: exact sets, coincidences, symmetry, and the criteria built on them.
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bonello } from '../../core/acoustics/bonello.ts';
import {
  type BoxSize,
  boxModes,
  coincidences,
  modeCount,
  modeDensity_per_hz,
  modeKind,
  modeShape_ratio,
  modeSpacings_hz,
} from '../../core/acoustics/boxModes.ts';
import {
  axialSpacing,
  NAMED_RATIOS,
  nearestNamedRatios,
  proportionInequality,
  proportions,
  wholeNumberRatios,
} from '../../core/acoustics/proportions.ts';
import { feet, metres } from '../accuracy/cases/boxModes.ts';
import { expectNear } from '../support/expectNear.ts';

const HANDBOOK_C_M_S = 1130 * 0.3048;
const side_m = fc.double({ min: 2, max: 12, noNaN: true });
const box: fc.Arbitrary<BoxSize> = fc.record({ x_m: side_m, y_m: side_m, z_m: side_m });

describe('16 × 12 × 8 ft (Handbook for Sound Engineers, Table 6-4 and text)', () => {
  const modes = boxModes(feet(16, 12, 8), HANDBOOK_C_M_S, 290);
  const pileUps = coincidences(modes, 0);

  test('three axial modes at 141.25 Hz', () => {
    const axial = modes.filter(({ kind }) => kind === 'axial');
    const [first, ...more] = coincidences(axial, 0).filter((group) => group.length === 3);
    expect(first?.map(({ order }) => order.join()).sort()).toEqual(['0,0,2', '0,3,0', '4,0,0']);
    expectNear(first?.[0]?.frequency_hz ?? 0, 141.25, 0.01, 'Hz');
    expect(more.length).toBe(1); // at 282.5 Hz again
  });

  test('pile-ups at 70, 141, 211 and 282 Hz are among the coincidences', () => {
    const at_hz = pileUps.map(([mode]) => Math.floor(mode?.frequency_hz ?? 0));
    expect(at_hz).toEqual(expect.arrayContaining([70, 141, 211, 282]));
  });

  test("fails both of Bonello's criteria, and says where", () => {
    const verdict = bonello(modes, 0.01);
    expect(verdict.passes).toBe(false);
    expect(verdict.bands.filter(({ falls }) => falls).map(({ nominal_hz }) => nominal_hz)).toEqual([
      40,
    ]);
    // by hand: (2,0,0) with (0,0,1) at 70.6 Hz, (2,1,0) with (0,1,1) at 84.9 Hz, three modes in either band
    expect(verdict.bands.filter(({ exposed }) => exposed).map((band) => band.nominal_hz)).toEqual([
      63, 80,
    ]);
    expect(verdict.rises || verdict.covered).toBe(false);
  });

  test('axial modes crowd (less than 5 Hz apart) and gape (more than 20 Hz)', () => {
    const { crowded, wide } = axialSpacing(modes, 5, 20);
    expect(crowded.map(({ gap_hz }) => gap_hz).every((gap_hz) => gap_hz < 1e-9)).toBe(true);
    expect(wide[0]?.below.order).toEqual([0, 1, 0]);
    expectNear(wide[0]?.gap_hz ?? 0, 70.63 - 47.08, 0.01, 'Hz');
  });
});

test('23 × 17 × 9 ft meets both of Bonello’s criteria (Handbook for Sound Engineers p. 133)', () => {
  const verdict = bonello(boxModes(feet(23, 17, 9), HANDBOOK_C_M_S, 230), 0.01);
  expect(verdict).toMatchObject({ rises: true, covered: true, passes: true });
});

test('a 10 ft cube fails both of Bonello’s criteria (enumeration elsewhere)', () => {
  const verdict = bonello(boxModes(feet(10, 10, 10), HANDBOOK_C_M_S, 230), 0.01);
  expect(verdict).toMatchObject({ rises: false, covered: false, passes: false });
});

describe('any box', () => {
  test('turned round it has the same modes', () => {
    fc.assert(
      fc.property(box, ({ x_m, y_m, z_m }) => {
        const one = boxModes({ x_m, y_m, z_m }, 343, 120);
        const other = boxModes({ x_m: z_m, y_m: x_m, z_m: y_m }, 343, 120);
        expectNear(
          one.map(({ frequency_hz }) => frequency_hz),
          other.map((m) => m.frequency_hz),
          1e-9,
          'Hz',
        );
      }),
    );
  });

  test('twice as large it has every frequency at half', () => {
    fc.assert(
      fc.property(box, ({ x_m, y_m, z_m }) => {
        const one = boxModes({ x_m, y_m, z_m }, 343, 150);
        const twice = boxModes({ x_m: 2 * x_m, y_m: 2 * y_m, z_m: 2 * z_m }, 343, 75);
        expectNear(
          twice.map((m) => 2 * m.frequency_hz),
          one.map((m) => m.frequency_hz),
          1e-9,
          'Hz',
        );
      }),
    );
  });

  test('modes are ascending, within the limit, none twice, and the count formula is near', () => {
    fc.assert(
      fc.property(box, (size) => {
        const modes = boxModes(size, 343, 250);
        expect(modeSpacings_hz(modes).every((spacing_hz) => 0 <= spacing_hz)).toBe(true);
        expect(modes.every(({ frequency_hz }) => 0 < frequency_hz && frequency_hz <= 250)).toBe(
          true,
        );
        expect(new Set(modes.map(({ order }) => order.join())).size).toBe(modes.length);
        expect(Math.abs(modes.length / modeCount(size, 343, 250) - 1)).toBeLessThan(0.2);
      }),
    );
  });

  test('the density is the slope of the count', () => {
    fc.assert(
      fc.property(box, fc.double({ min: 20, max: 400, noNaN: true }), (size, f_hz) => {
        const slope =
          (modeCount(size, 343, f_hz + 0.01) - modeCount(size, 343, f_hz - 0.01)) / 0.02;
        expectNear(modeDensity_per_hz(size, 343, f_hz) / slope, 1, 1e-6, '');
      }),
    );
  });
});

test('a first width mode is silent in the middle and whole at the walls', () => {
  const size = metres(4, 5, 3);
  expectNear(modeShape_ratio([1, 0, 0], size, { x_m: 2, y_m: 1, z_m: 1 }), 0, 1e-12, '');
  expect(modeShape_ratio([1, 0, 0], size, { x_m: 4, y_m: 1, z_m: 1 })).toBe(-1);
});

test('kinds follow the number of orders that are not zero', () => {
  expect([modeKind([0, 3, 0]), modeKind([1, 0, 2]), modeKind([1, 1, 1])]).toEqual([
    'axial',
    'tangential',
    'oblique',
  ]);
  expect(() => modeKind([0, 0, 0])).toThrow(RangeError);
});

test('a box that cannot be is refused, and a limit below the first mode gives none', () => {
  expect(() => boxModes(metres(0, 3, 3), 343, 100)).toThrow('x_m must be > 0, got 0');
  expect(() => boxModes(metres(3, 3, 3), 343, -1)).toThrow('limit_hz');
  expect(boxModes(metres(3, 3, 3), 343, 20)).toEqual([]);
});

describe('proportions', () => {
  test.each([
    { name: 'Sepmeyer A (1965)', passes: false },
    { name: 'Sepmeyer B (1965)', passes: true },
    { name: 'Sepmeyer C (1965)', passes: true },
    { name: 'Louden 1 (1971)', passes: true },
    { name: 'Louden 2 (1971)', passes: false },
    { name: 'Volkmann 2 : 3 : 5 (1942)', passes: true },
    { name: 'Boner 1 : 2^(1/3) : 4^(1/3) (1942)', passes: true },
  ])(
    '$name against the inequality of BS.1116-3 §8.2.2.3 (by hand): $passes',
    ({ name, passes }) => {
      const named = NAMED_RATIOS.find((ratio) => ratio.name === name);
      expect(named && proportionInequality(named).passes).toBe(passes);
    },
  );

  test.each([
    { sides: [4, 4, 3], broken: ['too_short'] },
    { sides: [9, 4, 3], broken: ['too_long', 'length_over_3'] },
    { sides: [6.36, 4.44, 3], broken: [] },
    { sides: [10, 9, 3], broken: ['length_over_3', 'width_over_3'] },
  ])('$sides breaks $broken (by hand)', ({ sides: [x = 0, y = 0, z = 0], broken }) => {
    expect(proportionInequality(proportions(x, y, z)).broken).toEqual(broken);
    expect(proportionInequality(proportions(y, x, z)).broken).toEqual(broken);
  });

  test('ratios within 5 % of a whole number (EBU Tech 3276 App. 2, from memory)', () => {
    const found = wholeNumberRatios(proportions(6, 3.1, 2.9), 0.05);
    expect(found.map(({ of, wholeCount }) => `${of} ${wholeCount}`)).toEqual([
      'length/height 2',
      'length/width 2',
    ]);
    expectNear(found[0]?.deviation_ratio ?? 0, 6 / 2.9 / 2 - 1, 1e-12, '');
  });

  test('the nearest named ratio of 5.7 × 4.2 × 3 m is 1 : 1.4 : 1.9', () => {
    expect(nearestNamedRatios(proportions(5.7, 4.2, 3))[0]?.name).toBe('Louden 1 (1971)');
  });
});
