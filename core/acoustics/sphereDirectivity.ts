// Directivity of a small source in a box, modelled as a point source on a rigid sphere as large as the baffle: omni in the bass,
// growing forward from where the circumference comes near a wavelength.

import { positive } from './guard.ts';

/** How many terms past ka still count: each is smaller by a large factor. */
const MORE_TERMS = 12;

/**
 * Far-field pressure of a point source on a rigid sphere re the pressure straight ahead.
 *
 * p(θ) ∝ Σ (2m + 1) j^m P_m(cos θ)/h_m′(ka)
 *
 * @param size_rad ka, circumference over wavelength, > 0
 * @param angle_rad from the axis, 0 … π
 * @returns amplitude ratio, 1 straight ahead, about 1 everywhere for small ka
 * @source Morse & Ingard, Theoretical Acoustics, §7.2 (radiation from a small area of a rigid sphere)
 */
export function sphereDirectivity_ratio(size_rad: number, angle_rad: number): number {
  return sphereDirectivity(size_rad)(angle_rad);
}

/** The same for many angles at one size: the series is made ready once. */
export function sphereDirectivity(size_rad: number): (angle_rad: number) => number {
  const ka = positive('size_rad', size_rad);
  const slopes = hankelSlopes(ka, Math.ceil(ka) + MORE_TERMS);
  const ahead = farField(slopes, 1);
  return (angle_rad) => farField(slopes, Math.cos(angle_rad)) / ahead;
}

/** Radius of the sphere that stands for a baffle: the one of the same frontal area. Common practice, no source. */
export function baffleRadius_m(width_m: number, height_m: number): number {
  return Math.sqrt((positive('width_m', width_m) * positive('height_m', height_m)) / Math.PI);
}

/** 1/h_m′(x) for the outgoing wave, as [re, im] by order. */
function hankelSlopes(x: number, count: number): readonly (readonly [number, number])[] {
  const j = besselJ(x, count + 1);
  const y = besselY(x, count + 1);
  return Array.from({ length: count }, (_, m) => {
    // f_m′ = (m/x) f_m − f_{m+1}
    const re = (m / x) * (j[m] ?? 0) - (j[m + 1] ?? 0);
    const im = (m / x) * (y[m] ?? 0) - (y[m + 1] ?? 0);
    const size = re * re + im * im;
    return [re / size, -im / size] as const;
  });
}

function farField(slopes: readonly (readonly [number, number])[], cos: number): number {
  let [re, im] = [0, 0];
  let [before, here] = [0, 1];
  slopes.forEach(([sRe, sIm], m) => {
    const weight = (2 * m + 1) * here;
    // times (−j)^m, the far field of h_m
    const turn = m % 4;
    const [tRe, tIm] =
      turn === 0 ? [sRe, sIm] : turn === 1 ? [sIm, -sRe] : turn === 2 ? [-sRe, -sIm] : [-sIm, sRe];
    re += weight * tRe;
    im += weight * tIm;
    [before, here] = [here, ((2 * m + 1) * cos * here - m * before) / (m + 1)];
  });
  return Math.hypot(re, im);
}

/** Spherical Bessel functions of the first kind by downward recurrence. @source Abramowitz & Stegun 10.5 */
function besselJ(x: number, highest: number): readonly number[] {
  const start = highest + 20;
  const values = new Array<number>(start + 2).fill(0);
  values[start] = 1e-30;
  for (let m = start; 0 < m; m--)
    values[m - 1] = ((2 * m + 1) / x) * (values[m] ?? 0) - (values[m + 1] ?? 0);
  const scale = Math.sin(x) / x / (values[0] ?? 1);
  return values.slice(0, highest + 1).map((value) => value * scale);
}

/** And of the second kind, upwards. */
function besselY(x: number, highest: number): readonly number[] {
  const values = [-Math.cos(x) / x, -Math.cos(x) / (x * x) - Math.sin(x) / x];
  for (let m = 1; m < highest; m++)
    values.push(((2 * m + 1) / x) * (values[m] ?? 0) - (values[m - 1] ?? 0));
  return values;
}
