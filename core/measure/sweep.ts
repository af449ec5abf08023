// The exponential sweep of a measurement and its inverse.

import { positive } from '../acoustics/guard.ts';
import { fade } from './fade.ts';
import { sineAmplitude_ratio } from './level.ts';

/** A sine that rises by the same number of octaves in each second. */
export interface SweepDesign {
  readonly sampleRate_hz: number;
  readonly from_hz: number;
  readonly to_hz: number;
  readonly length_s: number;
  readonly level_dbfs: number;
  readonly fadeIn_s: number;
  readonly fadeOut_s: number;
  /** Silence before the first sweep: the room's noise is read there. */
  readonly lead_s: number;
  /** Silence after each sweep: the room decays there. */
  readonly gap_s: number;
  readonly repeatCount: number;
}

/** The growth of the frequency is worked out anew so often. */
const RENEW = 64;

/**
 * One sweep, without silence: x(t) = A sin(2π f₁ L (e^{t/L} − 1)), L = T/ln(f₂/f₁).
 *
 * @throws RangeError where the frequencies are not in order or reach half the sample rate
 * @source Farina, AES 108th Convention (2000), preprint 5093, Eq. (6)
 */
export function sweep(design: SweepDesign): Float64Array {
  const signal = new Float64Array(sweepCount(design));
  writeSweep(signal, design);
  return signal;
}

/** One sweep with the silence before it. */
export function leadAndSweep(design: SweepDesign): Float64Array {
  const lead = leadCount(design);
  const signal = new Float64Array(lead + sweepCount(design));
  writeSweep(signal.subarray(lead), design);
  return signal;
}

function writeSweep(signal: Float64Array, design: SweepDesign): void {
  const { sampleRate_hz, from_hz, level_dbfs } = design;
  const L = risePerE_s(design);
  const A = sineAmplitude_ratio(level_dbfs);
  const turns = 2 * Math.PI * from_hz * L;
  const step = Math.exp(1 / sampleRate_hz / L);
  let grown = 1;
  for (let i = 0; i < signal.length; i++) {
    // Errors of the repeated multiplication stay below 10⁻¹³.
    if (i % RENEW === 0) grown = Math.exp(i / sampleRate_hz / L);
    signal[i] = A * Math.sin(turns * (grown - 1));
    grown *= step;
  }
  fadeEnds(signal, design);
}

/**
 * The inverse: what the sweep must be convolved with to give an impulse of height 1 between its frequencies, late by the
 * sweep's length. The sweep reversed in time, falling by 6 dB an octave.
 *
 * @source Farina (2000), Eq. (8); its height from the stationary phase: |X(f)| = (A/2) √(L/f)
 */
export function inverseSweep(design: SweepDesign): Float64Array {
  const { sampleRate_hz, to_hz, level_dbfs } = design;
  const L = risePerE_s(design);
  const A = sineAmplitude_ratio(level_dbfs);
  const forward = sweep(design);
  const last = forward.length - 1;
  const height = (4 * to_hz) / (A * A * L * sampleRate_hz * sampleRate_hz);
  return forward.map(
    (_, i) => (forward[last - i] as number) * height * Math.exp(-i / sampleRate_hz / L),
  );
}

/** What is played: silence, then each sweep with the silence after it. */
export function sweepTrain(design: SweepDesign): Float64Array {
  const one = sweep(design);
  const lead = leadCount(design);
  const period = periodCount(design);
  const train = new Float64Array(lead + period * design.repeatCount);
  for (let index = 0; index < design.repeatCount; index++) train.set(one, lead + index * period);
  return train;
}

/** Time in which the frequency rises by the factor e. */
export function risePerE_s({ from_hz, to_hz, length_s, sampleRate_hz }: SweepDesign): number {
  if (!(positive('from_hz', from_hz) < to_hz && to_hz <= sampleRate_hz / 2))
    throw new RangeError(`a sweep from ${from_hz} to ${to_hz} at ${sampleRate_hz}`);
  return positive('length_s', length_s) / Math.log(to_hz / from_hz);
}

/** How long before the linear response that of a harmonic (2, 3, …) comes out of the deconvolution. */
export function harmonicLead_s(design: SweepDesign, order: number): number {
  return risePerE_s(design) * Math.log(order);
}

export function sweepCount({ length_s, sampleRate_hz }: SweepDesign): number {
  return Math.round(length_s * sampleRate_hz);
}

export function leadCount({ lead_s, sampleRate_hz }: SweepDesign): number {
  return Math.round(lead_s * sampleRate_hz);
}

/** Samples from the start of one sweep to that of the next. */
export function periodCount(design: SweepDesign): number {
  return sweepCount(design) + Math.round(design.gap_s * design.sampleRate_hz);
}

function fadeEnds(signal: Float64Array, { fadeIn_s, fadeOut_s, sampleRate_hz }: SweepDesign): void {
  fade(signal, Math.round(fadeIn_s * sampleRate_hz), Math.round(fadeOut_s * sampleRate_hz));
}
