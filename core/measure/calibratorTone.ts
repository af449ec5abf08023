// The recording of a sound calibrator: its tone, whether it is one, and how high it stands against full scale.

import { hannWeights, powerSpectrum } from './powerSpectrum.ts';

export interface CalibratorTone {
  readonly frequency_hz: number;
  /** RMS of the tone, against a sine at full scale. */
  readonly level_dbfs: number;
  /** What else there is, as a ratio of amplitudes. */
  readonly residual_ratio: number;
  /** The longest stretch in which its level is steady. */
  readonly steady_s: number;
  /** From the lowest to the highest level in that stretch. */
  readonly unsteady_db: number;
  readonly length_s: number;
}

/** A calibrator's level is looked at so often. */
const BLOCK_S = 0.1;
/** Blocks so near to the usual level belong to the tone: not the putting on and taking off. Common practice, no source. */
const STEADY_DB = 0.25;
const LOWEST_HZ = 100;

/** @returns null for a recording that is shorter than half a second, or silent */
export function calibratorTone(signal: Float64Array, sampleRate_hz: number): CalibratorTone | null {
  const block = Math.round(BLOCK_S * sampleRate_hz);
  if (signal.length < 5 * block) return null;
  const frequency_hz = strongest_hz(signal, sampleRate_hz);
  if (frequency_hz === null) return null;
  const levels = blockLevels_dbfs(signal, block, frequency_hz / sampleRate_hz);
  const usual = levels.toSorted()[Math.floor(levels.length / 2)] as number;
  if (!Number.isFinite(usual)) return null;
  const [first, last] = longestNear(levels, usual);
  const steady = levels.slice(first, last);
  if (steady.length === 0) return null;
  const power = steady.reduce((sum, level) => sum + 10 ** (level / 10), 0) / steady.length;
  const part = signal.subarray(first * block, last * block);
  return {
    frequency_hz,
    level_dbfs: 10 * Math.log10(power),
    residual_ratio: Math.sqrt(Math.max(0, (2 * variance(part)) / power - 1)),
    steady_s: steady.length * BLOCK_S,
    unsteady_db: Math.max(...steady) - Math.min(...steady),
    length_s: signal.length / sampleRate_hz,
  };
}

/** The top of the spectrum's highest peak, between bins by the parabola through their logarithms. */
function strongest_hz(signal: Float64Array, sampleRate_hz: number): number | null {
  const { powers_ratio, binWidth_hz } = powerSpectrum(signal, sampleRate_hz);
  let best = Math.ceil(LOWEST_HZ / binWidth_hz);
  for (let k = best; k < powers_ratio.length - 1; k++)
    if ((powers_ratio[best] as number) < (powers_ratio[k] as number)) best = k;
  if (!(0 < (powers_ratio[best] ?? 0))) return null;
  const at = (k: number): number => Math.log(Math.max(1e-300, powers_ratio[k] ?? 0));
  const bend = at(best - 1) - 2 * at(best) + at(best + 1);
  const off = bend < 0 ? (at(best - 1) - at(best + 1)) / (2 * bend) : 0;
  return (best + off) * binWidth_hz;
}

/** The level of one sine in each block, under a Hann window. */
function blockLevels_dbfs(signal: Float64Array, block: number, cycles: number): Float64Array {
  const window = hannWeights(block);
  const turn = 2 * Math.PI * cycles;
  return Float64Array.from({ length: Math.floor(signal.length / block) }, (_, index) => {
    let re = 0;
    let im = 0;
    for (let i = 0; i < block; i++) {
      const value = (window[i] as number) * (signal[index * block + i] as number);
      re += value * Math.cos(turn * i);
      im += value * Math.sin(turn * i);
    }
    // The window's mean is a half, and a sine of height 1 correlates to half of that.
    return 20 * Math.log10((4 * Math.hypot(re, im)) / block);
  });
}

/** First and one past the last of the longest run of blocks near a level. */
function longestNear(levels: Float64Array, usual: number): readonly [number, number] {
  let best: readonly [number, number] = [0, 0];
  let first = 0;
  for (let i = 0; i <= levels.length; i++) {
    const isNear = i < levels.length && Math.abs((levels[i] as number) - usual) <= STEADY_DB;
    if (isNear) continue;
    if (best[1] - best[0] < i - first) best = [first, i];
    first = i + 1;
  }
  return best;
}

function variance(signal: Float64Array): number {
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < signal.length; i++) {
    sum += signal[i] as number;
    squares += (signal[i] as number) ** 2;
  }
  const mean = sum / signal.length;
  return squares / signal.length - mean * mean;
}
