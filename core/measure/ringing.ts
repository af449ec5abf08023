// How long single resonances ring in a band that is too narrow for a decay time: damped sines fitted to its signal.
//
// The band is cut out of the spectrum and moved down to zero, which keeps each damping and leaves few samples to fit.

import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import { decayTime_s } from '../acoustics/modalDecay.ts';
import type { FrequencyBand } from '../acoustics/thirdOctave.ts';
import { createFourier, powerOfTwoFrom } from './fourier.ts';

export interface Ringing {
  readonly frequency_hz: number;
  readonly decayTime_s: number;
  /** Energy against the strongest of the band. */
  readonly energy_db: number;
}

/** Beyond the band's edges, so that what lies on them is seen whole; as a share of the bandwidth. */
const MARGIN_RATIO = 0.25;
/** Longest part that is fitted. */
const MOST_S = 1.5;
const MOST_SAMPLES = 160;
/** Singular values below this share of the first are noise. */
const NOISE_RATIO = 0.01;
const MOST_RESONANCES = 12;
/** Weaker ones are not told. */
const WEAKEST_DB = -20;
const LONGEST_S = 5;

/** What the fits of all bands share: worked out when the first asks. */
export interface RingingView {
  readonly spectrum: () => Float64Array;
  readonly binWidth_hz: number;
}

/** @param decay the impulse response from the arrival on */
export function ringingView(decay: Float64Array, sampleRate_hz: number): RingingView {
  const count = powerOfTwoFrom(Math.ceil(2 * MOST_S * sampleRate_hz));
  let spectrum: Float64Array | null = null;
  return {
    spectrum: () => {
      spectrum ??= createFourier(count).spectrumOf(decay.subarray(0, count));
      return spectrum;
    },
    binWidth_hz: sampleRate_hz / count,
  };
}

/**
 * Resonances of a band by the matrix pencil.
 *
 * @param knee_s where the decay meets the noise: what comes after rings for ever
 * @returns strongest first; empty where nothing rings
 * @source Hua & Sarkar, IEEE Trans. ASSP 38 (1990) 814–824
 */
export function ringings(
  view: RingingView,
  band: FrequencyBand,
  knee_s: number,
): readonly Ringing[] {
  const { samples, rate_hz, shift_hz } = movedDown(view, band, knee_s);
  const poles = polesOf(samples);
  const found = strengths(samples, poles).map(({ re, im, energy }) => ({
    frequency_hz: shift_hz + (Math.abs(Math.atan2(im, re)) * rate_hz) / (2 * Math.PI),
    damping_per_s: -Math.log(Math.hypot(re, im)) * rate_hz,
    energy,
  }));
  const inBand = found.filter(
    ({ frequency_hz, damping_per_s }) =>
      band.lower_hz <= frequency_hz &&
      frequency_hz < band.upper_hz &&
      decayTime_s(Math.max(1e-9, damping_per_s)) < LONGEST_S,
  );
  const most = Math.max(...inBand.map(({ energy }) => energy), 1e-300);
  return inBand
    .map(({ frequency_hz, damping_per_s, energy }) => ({
      frequency_hz,
      decayTime_s: decayTime_s(damping_per_s),
      energy_db: 10 * Math.log10(energy / most),
    }))
    .filter(({ energy_db }) => WEAKEST_DB < energy_db)
    .sort((one, other) => other.energy_db - one.energy_db);
}

/** The band as a signal of its own, at a low rate. */
function movedDown(
  view: RingingView,
  { lower_hz, upper_hz }: FrequencyBand,
  knee_s: number,
): { readonly samples: Float64Array; readonly rate_hz: number; readonly shift_hz: number } {
  const spectrum = view.spectrum();
  const perHz = 1 / view.binWidth_hz;
  const margin = (upper_hz - lower_hz) * MARGIN_RATIO;
  const first = Math.max(0, Math.round((lower_hz - margin) * perHz));
  const wished = Math.round((upper_hz - lower_hz + 2 * margin) * perHz);
  const small = createFourier(2 * wished);
  const half = small.count / 2;
  const part = new Float64Array(small.count + 2);
  const edge = Math.max(1, Math.round(margin * perHz));
  for (let k = 0; k < wished; k++) {
    const from = Math.min(k, wished - 1 - k);
    const gain = edge <= from ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * from) / edge);
    part[2 * k] = (spectrum[2 * (first + k)] ?? 0) * gain;
    part[2 * k + 1] = (spectrum[2 * (first + k) + 1] ?? 0) * gain;
  }
  const rate_hz = (2 * half) / perHz;
  // The first two samples hold the filter's own start.
  const count = Math.min(MOST_SAMPLES, Math.floor(Math.min(MOST_S, knee_s) * rate_hz));
  return {
    samples: small.signalOf(part).slice(2, 2 + count),
    rate_hz,
    shift_hz: first / perHz,
  };
}

interface Pole {
  readonly re: number;
  readonly im: number;
}

/** Poles of the damped sines, inside the unit circle, one of each conjugate pair. */
function polesOf(samples: Float64Array): readonly Pole[] {
  const pencil = Math.floor(samples.length / 3);
  const rows = samples.length - pencil;
  if (pencil < 3) return [];
  const hankel = Matrix.zeros(rows, pencil + 1);
  for (let i = 0; i < rows; i++)
    for (let j = 0; j <= pencil; j++) hankel.set(i, j, samples[i + j] as number);
  // Right singular vectors by the smaller symmetric matrix: what lies below 1 % is not looked at, so squares do no harm.
  const decomposed = new EigenvalueDecomposition(hankel.transpose().mmul(hankel), {
    assumeSymmetric: true,
  });
  const squares = decomposed.realEigenvalues;
  const least = (squares.at(-1) ?? 0) * NOISE_RATIO ** 2;
  const order = Math.min(
    squares.filter((square) => least < square).length,
    2 * MOST_RESONANCES,
    pencil - 1,
  );
  if (order === 0) return [];
  const right = decomposed.eigenvectorMatrix.subMatrix(0, pencil, pencil + 1 - order, pencil);
  const upper = right.subMatrix(0, pencil - 1, 0, order - 1);
  const lower = right.subMatrix(1, pencil, 0, order - 1);
  const values = new EigenvalueDecomposition(solve(upper, lower, true));
  return values.realEigenvalues
    .map((re, i) => ({ re, im: values.imaginaryEigenvalues[i] ?? 0 }))
    .filter(({ re, im }) => 0 < im && Math.hypot(re, im) < 1);
}

/** Energy of each damped sine, amplitudes by least squares. */
function strengths(
  samples: Float64Array,
  poles: readonly Pole[],
): readonly (Pole & { readonly energy: number })[] {
  if (poles.length === 0) return [];
  const basis = Matrix.zeros(samples.length, 2 * poles.length);
  poles.forEach(({ re, im }, column) => {
    let x = 1;
    let y = 0;
    for (let row = 0; row < samples.length; row++) {
      basis.set(row, 2 * column, x);
      basis.set(row, 2 * column + 1, y);
      [x, y] = [x * re - y * im, x * im + y * re];
    }
  });
  const amplitudes = solve(basis, Matrix.columnVector([...samples]), true);
  return poles.map(({ re, im }, index) => {
    const size2 = amplitudes.get(2 * index, 0) ** 2 + amplitudes.get(2 * index + 1, 0) ** 2;
    return { re, im, energy: size2 / (1 - (re * re + im * im)) };
  });
}
