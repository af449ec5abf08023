// The modes of one axis of a box between two locally reacting walls, followed exactly from rigid walls to the real ones.
//
// X'' + q X = 0, X'(0) = a X(0), X'(L) = -b X(L), with a = jkβ₀ and b = jkβ_L (e^{+jωt}; k = ω/c, β specific admittance).
// With C = cos(√q L) and S = sin(√q L)/√q, both entire in q, the eigenvalues are the roots of
//   F(q) = (a + b) C + (ab − q) S,
// free of the branch point at q = 0, so that the axis' lowest mode is followed as safely as the others.

/** Specific admittance ρc/Z of one wall at one frequency. */
export interface Admittance {
  readonly real: number;
  readonly imaginary: number;
}

export interface Axis {
  readonly length_m: number;
  /** Wall at 0, and wall at `length_m`. */
  readonly walls: readonly [Admittance, Admittance];
}

/**
 * The lowest modes of one axis at one wave number. Modes are orthogonal without conjugation: ∫ X_m X_n = 0 for m ≠ n.
 * All arrays are by mode, ascending from the one that is uniform between rigid walls.
 */
export interface AxisModes {
  readonly length_m: number;
  readonly count: number;
  /** q = squared wave number along the axis, 1/m². */
  readonly qRe: Float64Array;
  readonly qIm: Float64Array;
  /** a = jkβ₀, which the shapes need: X(x) = cos(√q x) + a sin(√q x)/√q. */
  readonly aRe: number;
  readonly aIm: number;
  /** N = ∫₀ᴸ X² dx, m. */
  readonly normRe: Float64Array;
  readonly normIm: Float64Array;
}

/** Admittance is raised in this many steps from rigid walls: enough for |β| ≤ 1 at 300 Hz, where modes move most. */
const CONTINUATION_STEPS = 12;
/** Newton converges quadratically from a neighbouring step; six leave nothing at double precision. */
const NEWTON_STEPS = 8;
const NEWTON_TOLERANCE = 1e-13;

/**
 * The `count` lowest modes of an axis at wave number `k`.
 *
 * @param axis length_m > 0
 * @param k_rad_m ω/c, > 0
 * @param count modes wanted, ≥ 1
 * @param start modes of a neighbouring frequency, to start from; without it the walls are softened step by step from rigid
 * @returns eigenvalues and norms; followed by continuation, so that mode m is the one that was m between rigid walls
 * @source Morse & Ingard, Theoretical Acoustics, §9.4 (rectangular enclosure with admittance walls); the form in q is our own
 */
export function axisModes(
  axis: Axis,
  k_rad_m: number,
  count: number,
  start: AxisModes | null = null,
): AxisModes {
  const { length_m, walls } = axis;
  const qRe = new Float64Array(count);
  const qIm = new Float64Array(count);
  // jkβ = jk(βr + jβi) = k(−βi + jβr)
  const a = { re: -k_rad_m * walls[0].imaginary, im: k_rad_m * walls[0].real };
  const b = { re: -k_rad_m * walls[1].imaginary, im: k_rad_m * walls[1].real };
  const usable = start !== null && start.count === count;
  const steps = usable ? 1 : CONTINUATION_STEPS;
  for (let mode = 0; mode < count; mode++) {
    let re = usable ? (start.qRe[mode] ?? 0) : ((mode * Math.PI) / length_m) ** 2;
    let im = usable ? (start.qIm[mode] ?? 0) : 0;
    for (let step = 1; step <= steps; step++) {
      const share = step / steps;
      // First order from rigid walls: q moves by ε(a + b)/L, ε = 1 for the uniform mode, 2 for the others.
      if (!usable) {
        const move = (mode === 0 ? 1 : 2) / (steps * length_m);
        re += move * (a.re + b.re);
        im += move * (a.im + b.im);
      }
      [re, im] = newton(re, im, length_m, share * a.re, share * a.im, share * b.re, share * b.im);
    }
    qRe[mode] = re;
    qIm[mode] = im;
  }
  const norms = normsOf(qRe, qIm, length_m, a.re, a.im);
  return { length_m, count, qRe, qIm, aRe: a.re, aIm: a.im, ...norms };
}

/**
 * X at a place for every mode, as [re, im] pairs laid out one after the other, by mode.
 *
 * @param modes of the axis
 * @param at_m 0 … length
 * @param out written to: 2 × count numbers
 */
export function axisShapes(modes: AxisModes, at_m: number, out: Float64Array): void {
  for (let mode = 0; mode < modes.count; mode++) {
    entire(modes.qRe[mode] ?? 0, modes.qIm[mode] ?? 0, at_m);
    out[2 * mode] = E.cRe + modes.aRe * E.sRe - modes.aIm * E.sIm;
    out[2 * mode + 1] = E.cIm + modes.aRe * E.sIm + modes.aIm * E.sRe;
  }
}

/**
 * X(place)/N for every mode, interleaved.
 *
 * @param out written to and given back: 2 × count numbers or more
 */
export function overNorm(
  modes: AxisModes,
  at_m: number,
  out: Float64Array = new Float64Array(2 * modes.count),
): Float64Array {
  axisShapes(modes, at_m, out);
  for (let m = 0; m < modes.count; m++) {
    const re = out[2 * m] as number;
    const im = out[2 * m + 1] as number;
    const nRe = modes.normRe[m] as number;
    const nIm = modes.normIm[m] as number;
    const size = nRe * nRe + nIm * nIm;
    out[2 * m] = (re * nRe + im * nIm) / size;
    out[2 * m + 1] = (im * nRe - re * nIm) / size;
  }
  return out;
}

/** cos(√q x) and sin(√q x)/√q of the last call of `entire`: results in place, since this is the innermost loop. */
const E = { cRe: 1, cIm: 0, sRe: 0, sIm: 0 };

function entire(qRe: number, qIm: number, x: number): void {
  const size = Math.sqrt(qRe * qRe + qIm * qIm); // not Math.hypot, which is many times slower
  if (size * x * x < 1e-3) {
    // Series to the fourth power of √q x: the first term left out is below 1e-18 here.
    const zRe = qRe * x * x;
    const zIm = qIm * x * x;
    const z2Re = zRe * zRe - zIm * zIm;
    const z2Im = 2 * zRe * zIm;
    const z3Re = z2Re * zRe - z2Im * zIm;
    const z3Im = z2Re * zIm + z2Im * zRe;
    E.cRe = 1 - zRe / 2 + z2Re / 24 - z3Re / 720;
    E.cIm = -zIm / 2 + z2Im / 24 - z3Im / 720;
    E.sRe = x * (1 - zRe / 6 + z2Re / 120 - z3Re / 5040);
    E.sIm = x * (-zIm / 6 + z2Im / 120 - z3Im / 5040);
    return;
  }
  // Principal root; cos and sin/√ are even in it, so its sign does not matter.
  const rootRe = Math.sqrt((size + qRe) / 2);
  const rootIm = (qIm < 0 ? -1 : 1) * Math.sqrt((size - qRe) / 2);
  const cos = Math.cos(rootRe * x);
  const sin = Math.sin(rootRe * x);
  const grow = Math.exp(rootIm * x);
  const cosh = (grow + 1 / grow) / 2;
  const sinh = (grow - 1 / grow) / 2;
  E.cRe = cos * cosh;
  E.cIm = -sin * sinh;
  const sinRe = sin * cosh;
  const sinIm = cos * sinh;
  // Divide by the root: times its conjugate over |q|.
  E.sRe = (sinRe * rootRe + sinIm * rootIm) / size;
  E.sIm = (sinIm * rootRe - sinRe * rootIm) / size;
}

function newton(
  re: number,
  im: number,
  L: number,
  aRe: number,
  aIm: number,
  bRe: number,
  bIm: number,
): [number, number] {
  const sumRe = aRe + bRe;
  const sumIm = aIm + bIm;
  const abRe = aRe * bRe - aIm * bIm;
  const abIm = aRe * bIm + aIm * bRe;
  const scale = (Math.PI / L) ** 2;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    entire(re, im, L);
    const dRe = abRe - re;
    const dIm = abIm - im;
    const fRe = sumRe * E.cRe - sumIm * E.cIm + dRe * E.sRe - dIm * E.sIm;
    const fIm = sumRe * E.cIm + sumIm * E.cRe + dRe * E.sIm + dIm * E.sRe;
    // dC/dq = −L S/2; dS/dq = (L C − S)/(2q), with its limit −L³/6 at q = 0.
    const size2 = re * re + im * im;
    let dsRe = -(L ** 3) / 6 + (L ** 5 * re) / 60;
    let dsIm = (L ** 5 * im) / 60;
    if (1e-6 * scale * scale < size2) {
      const nRe = L * E.cRe - E.sRe;
      const nIm = L * E.cIm - E.sIm;
      dsRe = (nRe * re + nIm * im) / (2 * size2);
      dsIm = (nIm * re - nRe * im) / (2 * size2);
    }
    const slopeRe = (-L / 2) * (sumRe * E.sRe - sumIm * E.sIm) - E.sRe + dRe * dsRe - dIm * dsIm;
    const slopeIm = (-L / 2) * (sumRe * E.sIm + sumIm * E.sRe) - E.sIm + dRe * dsIm + dIm * dsRe;
    const slope2 = slopeRe * slopeRe + slopeIm * slopeIm;
    const moveRe = (fRe * slopeRe + fIm * slopeIm) / slope2;
    const moveIm = (fIm * slopeRe - fRe * slopeIm) / slope2;
    re -= moveRe;
    im -= moveIm;
    if (Math.abs(moveRe) + Math.abs(moveIm) < NEWTON_TOLERANCE * (Math.hypot(re, im) + scale))
      break;
  }
  return [re, im];
}

/**
 * N = ∫ (C + aS)² dx. By parts, with X'' = −qX: N = (L/2)(X'² / q + X²)|… is singular at q = 0, so the integral is
 * taken from antiderivatives of C², CS, S² in terms of C and S of the whole length, and by series where q is small.
 */
function normsOf(
  qRe: Float64Array,
  qIm: Float64Array,
  L: number,
  aRe: number,
  aIm: number,
): { normRe: Float64Array; normIm: Float64Array } {
  const normRe = new Float64Array(qRe.length);
  const normIm = new Float64Array(qRe.length);
  const a2Re = aRe * aRe - aIm * aIm;
  const a2Im = 2 * aRe * aIm;
  for (let mode = 0; mode < qRe.length; mode++) {
    const re = qRe[mode] ?? 0;
    const im = qIm[mode] ?? 0;
    entire(re, im, L);
    // ∫C² = L/2 + CS/2, ∫2CS = S², ∫S² = (L − CS)/(2q) → L³/3 − qL⁵/15 + 2q²L⁷/315
    const csRe = E.cRe * E.sRe - E.cIm * E.sIm;
    const csIm = E.cRe * E.sIm + E.cIm * E.sRe;
    const s2Re = E.sRe * E.sRe - E.sIm * E.sIm;
    const s2Im = 2 * E.sRe * E.sIm;
    const size2 = re * re + im * im;
    let ssRe = L ** 3 / 3 - (re * L ** 5) / 15 + (2 * (re * re - im * im) * L ** 7) / 315;
    let ssIm = (-im * L ** 5) / 15 + (4 * re * im * L ** 7) / 315;
    if (1e-6 < size2 * L ** 4) {
      const nRe = L - csRe;
      ssRe = (nRe * re - csIm * im) / (2 * size2);
      ssIm = (-csIm * re - nRe * im) / (2 * size2);
    }
    normRe[mode] = L / 2 + csRe / 2 + aRe * s2Re - aIm * s2Im + a2Re * ssRe - a2Im * ssIm;
    normIm[mode] = csIm / 2 + aRe * s2Im + aIm * s2Re + a2Re * ssIm + a2Im * ssRe;
  }
  return { normRe, normIm };
}
