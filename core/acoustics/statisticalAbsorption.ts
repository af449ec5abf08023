// Between random-incidence absorption, as tables print it, and the real wall admittance that modes need (Paris' formula).

import { notNegative } from './guard.ts';

/** An admittance that stands for an absorption, and whether it can. */
export interface AdmittanceMatch {
  /** specific admittance β = ρc/Z, real */
  readonly admittance_ratio: number;
  /** the absorption that it gives: as asked, or the greatest possible */
  readonly absorption_ratio: number;
  /** false if no real admittance absorbs that much */
  readonly reached: boolean;
}

/** The greatest random-incidence absorption of a locally reacting surface of real admittance, at β = 0.638. */
export const GREATEST_ABSORPTION: AdmittanceMatch = greatestAbsorption();

/**
 * Absorption at one angle from a locally reacting surface of real admittance.
 *
 * @param angle_rad from the normal, 0 … π/2
 * @returns 0 … 1, 4β cos θ/(cos θ + β)²
 */
export function obliqueAbsorption_ratio(admittance_ratio: number, angle_rad: number): number {
  const cos = Math.cos(angle_rad);
  return admittance_ratio === 0 ? 0 : (4 * admittance_ratio * cos) / (cos + admittance_ratio) ** 2;
}

/**
 * Random-incidence absorption of a locally reacting surface of real admittance:
 * α = 8β [1 + β/(1 + β) − 2β ln(1 + 1/β)]; about 8β while β is small.
 *
 * @param admittance_ratio β >= 0
 * @returns 0 … 0.951
 * @source Paris 1928; Kuttruff, Room Acoustics, ch. 2, closed form for a real impedance
 */
export function statisticalAbsorption_ratio(admittance_ratio: number): number {
  const b = notNegative('admittance_ratio', admittance_ratio);
  if (b === 0) return 0;
  if (50 < b) return farAbsorption_ratio(b);
  return 8 * b * (1 + b / (1 + b) - 2 * b * Math.log1p(1 / b));
}

/**
 * The real admittance whose random-incidence absorption is as asked, on the side of the harder wall.
 *
 * @param absorption_ratio >= 0; table values above the greatest possible 0.951 give that one, `reached` false
 * @returns β from 0 to 0.638; `statisticalAbsorption_ratio` of it is the absorption to 1e-12
 * @source inversion of Paris' formula by bisection
 */
export function admittanceOf(absorption_ratio: number): AdmittanceMatch {
  const asked = notNegative('absorption_ratio', absorption_ratio);
  if (GREATEST_ABSORPTION.absorption_ratio <= asked) {
    const reached = asked === GREATEST_ABSORPTION.absorption_ratio;
    return { ...GREATEST_ABSORPTION, reached };
  }
  let low = 0;
  let high = GREATEST_ABSORPTION.admittance_ratio;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (statisticalAbsorption_ratio(middle) < asked) low = middle;
    else high = middle;
  }
  return { admittance_ratio: (low + high) / 2, absorption_ratio: asked, reached: true };
}

/** Series for soft surfaces, where the closed form is a small difference of large numbers. */
function farAbsorption_ratio(b: number): number {
  // ∫ 8 cos² θ sin θ /(b (1 + cos θ/b)²) dθ, expanded in 1/b
  let sum = 0;
  for (let k = 0; k < 12; k++) sum += ((-1) ** k * (k + 1)) / ((k + 3) * b ** k);
  return (8 / b) * sum;
}

function greatestAbsorption(): AdmittanceMatch {
  let low = 0.3;
  let high = 1.2;
  for (let i = 0; i < 100; i++) {
    const third = (high - low) / 3;
    const rising =
      statisticalAbsorption_ratio(low + third) < statisticalAbsorption_ratio(high - third);
    if (rising) low += third;
    else high -= third;
  }
  const admittance_ratio = (low + high) / 2;
  const absorption_ratio = statisticalAbsorption_ratio(admittance_ratio);
  return { admittance_ratio, absorption_ratio, reached: true };
}
