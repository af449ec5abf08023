// Octave and third-octave filters: Butterworth band passes of the sixth order, forwards or reversed in time.

import type { FrequencyBand } from '../acoustics/thirdOctave.ts';

const SECTIONS = 3;

/** b0, b1, b2, a1, a2 of each of three sections; gain in the first. */
export type BandFilter = readonly (readonly [number, number, number, number, number])[];

/**
 * Third-order Butterworth low-pass turned into a band pass between the band's edges, by the bilinear transform.
 *
 * @returns null where the upper edge reaches half the sample rate
 * @source IEC 61260-1 asks for no design; Butterworth of this order keeps its class 1 mask (from memory)
 */
export function bandFilter(
  { lower_hz, upper_hz }: FrequencyBand,
  sampleRate_hz: number,
): BandFilter | null {
  if (sampleRate_hz / 2 <= upper_hz) return null;
  const low = Math.tan((Math.PI * lower_hz) / sampleRate_hz);
  const high = Math.tan((Math.PI * upper_hz) / sampleRate_hz);
  const width = high - low;
  const middle2 = low * high;
  // Prototype poles at 180° and ±120°; each gives two by p → s: s² − p·width·s + middle² = 0.
  const real = { re: -width / 2, im: 0 };
  const complex = { re: (-width * 0.5) / 2, im: (width * Math.sqrt(3)) / 4 };
  const [r1, r2] = roots(real, middle2);
  const [c1, c2] = roots(complex, middle2);
  const conjugate = (z: Pole): Pole => ({ re: z.re, im: -z.im });
  const pairs: readonly (readonly [Pole, Pole])[] = [
    [r1, r2],
    [c1, conjugate(c1)],
    [c2, conjugate(c2)],
  ];
  return pairs.map(([one, other]) => section(one, other, width));
}

interface Pole {
  readonly re: number;
  readonly im: number;
}

/** Roots of s² − 2 h s + m². */
function roots(h: Pole, m2: number): readonly [Pole, Pole] {
  const re = h.re * h.re - h.im * h.im - m2;
  const im = 2 * h.re * h.im;
  const size = Math.sqrt(Math.hypot(re, im));
  const angle = Math.atan2(im, re) / 2;
  const root = { re: size * Math.cos(angle), im: size * Math.sin(angle) };
  return [
    { re: h.re + root.re, im: h.im + root.im },
    { re: h.re - root.re, im: h.im - root.im },
  ];
}

/** width·s/((s − p)(s − q)) with s = (1 − z⁻¹)/(1 + z⁻¹). */
function section(
  p: Pole,
  q: Pole,
  width: number,
): readonly [number, number, number, number, number] {
  const sum = p.re + q.re;
  const product = p.re * q.re - p.im * q.im;
  const a0 = 1 - sum + product;
  return [width / a0, 0, -width / a0, (2 * product - 2) / a0, (1 + sum + product) / a0];
}

/** A signal through any number of sections. */
export function filtered(filter: BandFilter, signal: Float64Array): Float64Array {
  const out = signal.slice();
  for (const [b0, b1, b2, a1, a2] of filter) {
    let s1 = 0;
    let s2 = 0;
    for (let i = 0; i < out.length; i++) {
      const x = out[i] as number;
      const y = b0 * x + s1;
      s1 = b1 * x - a1 * y + s2;
      s2 = b2 * x - a2 * y;
      out[i] = y;
    }
  }
  return out;
}

/**
 * The energy of a decay in a band: filtered from its end to its start, so that the filter's own ringing comes before the sound and
 * does not lengthen the decay, and squared.
 *
 * All three sections sample by sample: what is between them is not written to memory.
 *
 * @param ringCount samples before the sound in which the filter rings; their energy is added to the first one
 * @source ISO 3382-2: time-reversed filtering
 */
export function energyReversed(
  filter: BandFilter,
  signal: Float64Array,
  ringCount = 0,
): Float64Array {
  const [first, second, third] = filter;
  if (filter.length !== SECTIONS || !first || !second || !third)
    throw new RangeError(`a filter of ${filter.length} sections`);
  const [b0, b1, b2, a1, a2] = first;
  const [c0, c1, c2, d1, d2] = second;
  const [e0, e1, e2, f1, f2] = third;
  const energy = new Float64Array(signal.length);
  let p1 = 0;
  let p2 = 0;
  let q1 = 0;
  let q2 = 0;
  let r1 = 0;
  let r2 = 0;
  let ahead = 0;
  for (let i = signal.length - 1; -ringCount <= i; i--) {
    const w = i < 0 ? 0 : (signal[i] as number);
    const x = b0 * w + p1;
    p1 = b1 * w - a1 * x + p2;
    p2 = b2 * w - a2 * x;
    const y = c0 * x + q1;
    q1 = c1 * x - d1 * y + q2;
    q2 = c2 * x - d2 * y;
    const z = e0 * y + r1;
    r1 = e1 * y - f1 * z + r2;
    r2 = e2 * y - f2 * z;
    if (i < 0) ahead += z * z;
    else energy[i] = z * z;
  }
  energy[0] = (energy[0] ?? 0) + ahead;
  return energy;
}
