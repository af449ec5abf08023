// A porous layer on a hard wall: its surface admittance and absorption from thickness and flow resistivity.

import { type Complex, over } from './complex.ts';
import { positive } from './guard.ts';

export interface PorousLayer {
  readonly thickness_m: number;
  /** static air-flow resistivity, Pa·s/m²; mineral wool for absorbers about 5 000 to 20 000 */
  readonly flowResistivity_pa_s_m2: number;
}

/**
 * Specific admittance ρc/Z of a porous layer straight on a hard wall, normal incidence; e^{+jωt}.
 *
 * @param frequency_hz > 0
 * @returns real part >= 0 (it absorbs); a positive imaginary part is a spring. Far below the model's range (thin layers,
 *          f/σ under 0.001) the real part would come out slightly negative and is held at 0.
 * @source Miki, J. Acoust. Soc. Jpn. (E) 11 (1990) 19 (coefficients from memory), meant for 0.01 < f/σ < 1
 */
export function porousAdmittance(
  { thickness_m, flowResistivity_pa_s_m2 }: PorousLayer,
  frequency_hz: number,
  speedOfSound_m_s: number,
): Complex {
  const x = positive('frequency_hz', frequency_hz) / positive('σ', flowResistivity_pa_s_m2);
  const k0 = (2 * Math.PI * frequency_hz) / positive('speedOfSound_m_s', speedOfSound_m_s);
  const impedance = { re: 1 + 0.07 * x ** -0.632, im: -0.107 * x ** -0.632 };
  const wave = { re: k0 * (1 + 0.109 * x ** -0.618), im: -k0 * 0.16 * x ** -0.618 };
  const d = positive('thickness_m', thickness_m);
  // β = 1/(−j Zc cot kd) = j tan(kd)/Zc
  const tangent = tan({ re: wave.re * d, im: wave.im * d });
  const { re, im } = over({ re: -tangent.im, im: tangent.re }, impedance);
  return { re: Math.max(0, re), im };
}

/**
 * Random-incidence absorption of a locally reacting surface of complex admittance.
 *
 * @returns 0 … 1, by Simpson's rule over cos θ
 * @source Paris 1928; Kuttruff, Room Acoustics, ch. 2
 */
export function diffuseAbsorption_ratio(admittance: Complex): number {
  const stepCount = 400;
  let sum = 0;
  for (let i = 0; i <= stepCount; i++) {
    const cos = i / stepCount;
    const norm = (cos + admittance.re) ** 2 + admittance.im ** 2;
    const value = norm === 0 ? 0 : (8 * admittance.re * cos * cos) / norm;
    sum += value * (i === 0 || i === stepCount ? 1 : i % 2 === 1 ? 4 : 2);
  }
  return sum / (3 * stepCount);
}

/** tan z for im z <= 0, as (1 − w)/(j (1 + w)) with w = e^{−2jz}, which cannot overflow there. */
function tan(z: Complex): Complex {
  const decay = Math.exp(2 * z.im);
  const w = { re: decay * Math.cos(2 * z.re), im: -decay * Math.sin(2 * z.re) };
  const ratio = over({ re: 1 - w.re, im: -w.im }, { re: 1 + w.re, im: w.im });
  return { re: ratio.im, im: -ratio.re };
}
