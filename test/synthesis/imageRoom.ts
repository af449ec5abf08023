// A box room by image sources, written for tests and demos alone: it shares no line with the project's own field.
//
// Every image is a spherical wave, weakened at each wall by the plane wave's coefficient (cos θ − β)/(cos θ + β) at its own angle, in octave
// bands; the bands are joined by weights that add up to one. Source: Allen & Berkley, J. Acoust. Soc. Am. 65 (1979) 943; the coefficient
// as in Kuttruff, Room Acoustics, chapter 2.

import { createFourier } from '../../core/measure/fourier.ts';

export type Triple = readonly [number, number, number];

export interface ImageRoom {
  readonly size_m: Triple;
  readonly speedOfSound_m_s: number;
  /** By octave band of `BANDS_HZ`, then wall: left, right, front, back, floor, ceiling. */
  readonly admittance: readonly (readonly number[])[];
}

export const BANDS_HZ = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000] as const;
export const RATE_HZ = 48000;
/** A power of two: 0.68 s. Room for noise behind the sound. */
const COUNT = 32768;
/** Images farther away than sound travels in this time are left out: their sum is 60 dB down or more. */
const REACH_S = 0.32;
/** Images nearer than this get their own place between samples, later ones that of the nearest sample. */
const EXACT_S = 0.03;
const HALF_TAPS = 24;

/**
 * Admittances of walls that absorb so much of sound from everywhere: α = 8β (1 + 1/(1 + 1/β) − 2β ln(1 + 1/β)) turned round by halving.
 *
 * @param absorption by wall, then octave band; at most 0.95, the highest that a real admittance reaches
 * @returns by octave band, then wall
 * @source Kuttruff, Room Acoustics, chapter 2 (Paris' formula for a real impedance)
 */
export function admittanceOf(
  absorption: readonly (readonly number[])[],
): readonly (readonly number[])[] {
  return BANDS_HZ.map((_, band) => absorption.map((wall) => betaOf(wall[band] ?? 0)));
}

function betaOf(absorption: number): number {
  let [low, high] = [1e-6, 0.637];
  for (let step = 0; step < 50; step++) {
    const beta = (low + high) / 2;
    const hard = 1 / beta;
    const reached = 8 * beta * (1 + 1 / (1 + hard) - 2 * beta * Math.log(1 + hard));
    if (reached < absorption) low = beta;
    else high = beta;
  }
  return (low + high) / 2;
}

/** Spectrum from source to receiver re the free field at 1 m: interleaved, bins of RATE_HZ / COUNT, e^{+jωt}. */
export function imageSpectrum(
  room: ImageRoom,
  from: Triple,
  to: Triple,
  bandCount: number = BANDS_HZ.length,
): Float64Array {
  const tracks = BANDS_HZ.slice(0, bandCount).map(() => new Float64Array(COUNT));
  eachImage(room, from, to, bandCount, (away_m, amplitudes) => {
    const place = (away_m / room.speedOfSound_m_s) * RATE_HZ;
    if (away_m / room.speedOfSound_m_s < EXACT_S)
      tracks.forEach((track, band) => {
        addBetween(track, place, amplitudes[band] ?? 0);
      });
    else {
      const index = Math.round(place);
      tracks.forEach((track, band) => {
        track[index] = (track[index] ?? 0) + (amplitudes[band] ?? 0);
      });
    }
  });
  const sum = new Float64Array(COUNT + 2);
  tracks.forEach((track, band) => {
    const spectrum = spectrumOf(track);
    for (let k = 0; k <= COUNT / 2; k++) {
      const weight = weightOf(band, (k * RATE_HZ) / COUNT);
      sum[2 * k] = (sum[2 * k] ?? 0) + weight * (spectrum[2 * k] ?? 0);
      sum[2 * k + 1] = (sum[2 * k + 1] ?? 0) + weight * (spectrum[2 * k + 1] ?? 0);
    }
  });
  return sum;
}

function eachImage(
  { size_m, speedOfSound_m_s, admittance }: ImageRoom,
  from: Triple,
  to: Triple,
  bandCount: number,
  visit: (away_m: number, amplitudes: Float64Array) => void,
): void {
  const reach_m = REACH_S * speedOfSound_m_s;
  const axes = [0, 1, 2].map((axis) =>
    axisImages(size_m[axis] ?? 1, from[axis] ?? 0, to[axis] ?? 0, reach_m),
  );
  const [xs = [], ys = [], zs = []] = axes;
  const amplitudes = new Float64Array(BANDS_HZ.length);
  for (const x of xs) {
    for (const y of ys) {
      const plan_m2 = x.off_m ** 2 + y.off_m ** 2;
      if (reach_m ** 2 < plan_m2) continue;
      for (const z of zs) {
        const away_m = Math.sqrt(plan_m2 + z.off_m ** 2);
        if (reach_m < away_m) continue;
        const cx = Math.max(Math.abs(x.off_m) / away_m, 1e-6);
        const cy = Math.max(Math.abs(y.off_m) / away_m, 1e-6);
        const cz = Math.max(Math.abs(z.off_m) / away_m, 1e-6);
        for (let band = 0; band < bandCount; band++) {
          const [left = 0, right = 0, front = 0, back = 0, floor = 0, ceiling = 0] =
            admittance[band] ?? [];
          amplitudes[band] =
            (reflection(cx, left) ** x.low *
              reflection(cx, right) ** x.high *
              reflection(cy, front) ** y.low *
              reflection(cy, back) ** y.high *
              reflection(cz, floor) ** z.low *
              reflection(cz, ceiling) ** z.high) /
            away_m;
        }
        visit(away_m, amplitudes);
      }
    }
  }
}

function reflection(cosine: number, beta: number): number {
  return (cosine - beta) / (cosine + beta);
}

interface AxisImage {
  readonly off_m: number;
  /** Hits of the wall at 0 and of the one at the far end. */
  readonly low: number;
  readonly high: number;
}

function axisImages(
  length_m: number,
  from_m: number,
  to_m: number,
  reach_m: number,
): readonly AxisImage[] {
  const most = Math.ceil(reach_m / (2 * length_m)) + 1;
  const images: AxisImage[] = [];
  for (let n = -most; n <= most; n++) {
    images.push({ off_m: 2 * n * length_m + from_m - to_m, low: Math.abs(n), high: Math.abs(n) });
    images.push({
      off_m: 2 * n * length_m - from_m - to_m,
      low: Math.abs(n - 1),
      high: Math.abs(n),
    });
  }
  return images.filter(({ off_m }) => Math.abs(off_m) <= reach_m);
}

/** A windowed sinc. */
function addBetween(track: Float64Array, place: number, amplitude: number): void {
  const middle = Math.round(place);
  for (let i = middle - HALF_TAPS; i <= middle + HALF_TAPS; i++) {
    const x = i - place;
    const sinc = Math.abs(x) < 1e-9 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    const window = 0.5 + 0.5 * Math.cos((Math.PI * x) / (HALF_TAPS + 1));
    if (0 <= i && i < track.length) track[i] = (track[i] ?? 0) + amplitude * sinc * window;
  }
}

/** Straight between the middles of octave bands over the logarithm of frequency; the outermost hold beyond. */
function weightOf(band: number, frequency_hz: number): number {
  const place = Math.min(
    BANDS_HZ.length - 1,
    Math.max(0, Math.log2(Math.max(frequency_hz, 1) / BANDS_HZ[0])),
  );
  return Math.max(0, 1 - Math.abs(place - band));
}

const FOURIER = createFourier(COUNT);

export function spectrumOf(samples: Float64Array): Float64Array {
  return FOURIER.spectrumOf(samples);
}

export function samplesOf(spectrum: Float64Array): Float64Array {
  return FOURIER.signalOf(spectrum);
}

export function frequencyOf_hz(bin: number): number {
  return (bin * RATE_HZ) / COUNT;
}
