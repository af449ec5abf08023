// One axis of a box in closed form: its Green's function between two places, for any wave number along it.

import type { Axis } from './axisModes.ts';

/** Decay beyond e^-36 is below double precision beside 1. */
export const ENOUGH_NEPERS = 36;

/**
 * Green's function of one axis, G'' + qG = −δ, as a function of q: −u(z<) v(z>)/W with the growing exponentials taken out,
 * G = −e^{jκ(z> − z<)} Ũ Ṽ / W̃ with Im κ ≥ 0. Exactly 0 once it has decayed by `nepers`, as a rule below double precision.
 *
 * @param axis length and wall admittances
 * @param k_rad_m ω/c
 * @param one_m @param other_m the two places, in either order
 * @param nepers decay from which on it counts as nothing
 * @returns a function of q = k² − q_other axes (1/m², real and imaginary part) that gives G in m
 */
export function axisLine(
  axis: Axis,
  k_rad_m: number,
  one_m: number,
  other_m: number,
  nepers: number = ENOUGH_NEPERS,
): (qRe: number, qIm: number) => readonly [number, number] {
  const low = Math.min(one_m, other_m);
  const high = axis.length_m - Math.max(one_m, other_m);
  const apart = Math.abs(one_m - other_m);
  const [start, end] = axis.walls;
  const a = { re: -k_rad_m * start.imaginary, im: k_rad_m * start.real };
  const b = { re: -k_rad_m * end.imaginary, im: k_rad_m * end.real };
  return (qRe, qIm) => {
    const size = Math.sqrt(qRe * qRe + qIm * qIm);
    const kRe = (qIm < 0 ? -1 : 1) * Math.sqrt((size + qRe) / 2);
    const kIm = Math.sqrt((size - qRe) / 2);
    if (nepers < kIm * apart) return [0, 0];
    const [aRe, aIm] = overKappa(a.re, a.im, kRe, kIm, size);
    const [bRe, bIm] = overKappa(b.re, b.im, kRe, kIm, size);
    const [uRe, uIm] = fromWall(aRe, aIm, kRe, kIm, low);
    const [vRe, vIm] = fromWall(bRe, bIm, kRe, kIm, high);
    // W̃/κ = (1 − αβ)(E² − 1)/(2j) − (α + β)(E² + 1)/2 with α = a/κ, β = b/κ, E² = e^{2jκL}
    const grow = Math.exp(-2 * kIm * axis.length_m);
    const eRe = grow * Math.cos(2 * kRe * axis.length_m);
    const eIm = grow * Math.sin(2 * kRe * axis.length_m);
    const pRe = 1 - (aRe * bRe - aIm * bIm);
    const pIm = -(aRe * bIm + aIm * bRe);
    const dRe = (eRe - 1) / 2;
    const dIm = eIm / 2;
    const sRe = aRe + bRe;
    const sIm = aIm + bIm;
    const hRe = (eRe + 1) / 2;
    const hIm = eIm / 2;
    // (p d)/j = Im(pd) − j Re(pd)
    const ratioRe = pRe * dIm + pIm * dRe - (sRe * hRe - sIm * hIm);
    const ratioIm = -(pRe * dRe - pIm * dIm) - (sRe * hIm + sIm * hRe);
    // κ W̃/κ
    const WRe = ratioRe * kRe - ratioIm * kIm;
    const WIm = ratioRe * kIm + ratioIm * kRe;
    const decay = Math.exp(-kIm * apart);
    const cRe = -decay * Math.cos(kRe * apart);
    const cIm = -decay * Math.sin(kRe * apart);
    const uvRe = uRe * vRe - uIm * vIm;
    const uvIm = uRe * vIm + uIm * vRe;
    const nRe = cRe * uvRe - cIm * uvIm;
    const nIm = cRe * uvIm + cIm * uvRe;
    const W2 = WRe * WRe + WIm * WIm;
    return [(nRe * WRe + nIm * WIm) / W2, (nIm * WRe - nRe * WIm) / W2];
  };
}

function overKappa(re: number, im: number, kRe: number, kIm: number, k2: number): [number, number] {
  return [(re * kRe + im * kIm) / k2, (im * kRe - re * kIm) / k2];
}

/** ½[(1 + jα) + (1 − jα) e^{2jκt}], the solution that fits a wall, t away from it, less its growing exponential. */
function fromWall(aRe: number, aIm: number, kRe: number, kIm: number, t: number): [number, number] {
  const grow = Math.exp(-2 * kIm * t);
  const eRe = grow * Math.cos(2 * kRe * t);
  const eIm = grow * Math.sin(2 * kRe * t);
  const plusRe = 1 - aIm;
  const plusIm = aRe;
  const minusRe = 1 + aIm;
  const minusIm = -aRe;
  return [
    (plusRe + minusRe * eRe - minusIm * eIm) / 2,
    (plusIm + minusRe * eIm + minusIm * eRe) / 2,
  ];
}
