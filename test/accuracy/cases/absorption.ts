// Random-incidence absorption held against its defining integral and known limits.
import { diffuseAbsorption_ratio, porousAdmittance } from '../../../core/acoustics/porousLayer.ts';
import {
  admittanceOf,
  GREATEST_ABSORPTION,
  obliqueAbsorption_ratio,
  statisticalAbsorption_ratio,
} from '../../../core/acoustics/statisticalAbsorption.ts';
import type { Comparison } from '../comparison.ts';

const ADMITTANCES = [0.001, 0.01, 0.05, 0.1, 0.3, 0.638, 1, 3, 20, 49, 51, 200];

/** ∫ α(θ) sin 2θ dθ by the midpoint rule in fine steps: the definition of random incidence. */
function byIntegral(admittance_ratio: number): number {
  const stepCount = 20_000;
  const step_rad = Math.PI / 2 / stepCount;
  let sum = 0;
  for (let i = 0; i < stepCount; i++) {
    const angle_rad = (i + 0.5) * step_rad;
    sum +=
      obliqueAbsorption_ratio(admittance_ratio, angle_rad) * Math.sin(2 * angle_rad) * step_rad;
  }
  return sum;
}

export const absorptionCases: readonly Comparison[] = [
  {
    computation: 'random-incidence absorption of a real admittance',
    source: "Paris' integral ∫ α(θ) sin 2θ dθ, summed in 20 000 steps",
    unit: '',
    tolerance: 1e-7,
    because: 'error of the sum',
    count: ADMITTANCES.length,
    pairs: () =>
      ADMITTANCES.map((admittance) => ({
        what: `β ${admittance}`,
        actual: statisticalAbsorption_ratio(admittance),
        expected: byIntegral(admittance),
      })),
  },
  {
    computation: 'greatest random-incidence absorption',
    source: 'Kuttruff, Room Acoustics, ch. 2: 0.951 at an impedance of 1.567 ρc (from memory)',
    unit: '',
    tolerance: 5.1e-4,
    because: 'three decimals',
    count: 2,
    pairs: () => [
      { what: 'α', actual: GREATEST_ABSORPTION.absorption_ratio, expected: 0.951 },
      { what: 'ζ', actual: 1 / GREATEST_ABSORPTION.admittance_ratio, expected: 1.567 },
    ],
  },
  {
    computation: 'admittance of an absorption',
    source: 'small-α limit β = α/8 (Kuttruff, Room Acoustics, ch. 2)',
    unit: '',
    tolerance: 0.02,
    relative: true,
    because: 'the next term of the series is of the order of β ln(1/β)',
    count: 2,
    pairs: () =>
      [0.001, 0.005].map((alpha) => ({
        what: `α ${alpha}`,
        actual: admittanceOf(alpha).admittance_ratio,
        expected: alpha / 8,
      })),
  },
  {
    computation: 'absorption of a thick porous layer',
    source:
      'limit: an endless layer has the admittance 1/Zc of the material, Miki 1990, worked by hand for 10 kPa·s/m² at 1 kHz',
    unit: '',
    tolerance: 0.0005,
    because: 'three decimals',
    count: 2,
    pairs: () => {
      // Zc = 1 + 0.07·0.1^−0.632 − j·0.107·0.1^−0.632 = 1.3000 − j 0.4586; 1/Zc = 0.6841 + j 0.2413
      const layer = { thickness_m: 3, flowResistivity_pa_s_m2: 10_000 };
      const { re, im } = porousAdmittance(layer, 1000, 343);
      return [
        { what: 'real', actual: re, expected: 0.6841 },
        { what: 'imaginary', actual: im, expected: 0.2413 },
      ];
    },
  },
  {
    computation: 'absorption of a complex admittance',
    source: 'the closed form for a real one',
    unit: '',
    tolerance: 1e-6,
    because: 'error of the rule over angles',
    count: 3,
    pairs: () =>
      [0.1, 0.3, 1].map((re) => ({
        what: `β ${re}`,
        actual: diffuseAbsorption_ratio({ re, im: 0 }),
        expected: statisticalAbsorption_ratio(re),
      })),
  },
];
