// Where a decay sinks into the noise, how high the noise is, and what it would have gone on to.

import type { Knee } from './decay.ts';

/** Blocks a 10 dB of decay, in which energy is averaged. @source Lundeby et al. (1995): 3 to 10 */
const BLOCKS = 6;
/** The late decay is read from so far above the noise, over so much. @source Lundeby et al.: 5–10 dB, 10–20 dB */
const ABOVE_DB = 7;
const RANGE_DB = 20;
const MOST_ROUNDS = 6;

/**
 * Truncation point and compensation of a decay, by iteration between slope and noise.
 *
 * @param energy squared samples from the arrival on
 * @param sampleRate_hz of them
 * @returns null where no decay stands out from the noise
 * @source Lundeby, Vigran, Bietz, Vorländer, Acustica 81 (1995) 344–355
 */
export function kneeOf(energy: Float64Array, sampleRate_hz: number): Knee | null {
  let block = Math.max(1, Math.round(0.01 * sampleRate_hz));
  if (energy.length < 8 * block) return null;
  const peaks = peaksFrom(energy);
  const least = 1e-20 * Math.max(1e-290, peaks[0] as number);
  let noise = Math.max(least, meanOf(energy, Math.floor(0.9 * energy.length), energy.length));
  let knee = energy.length;
  let line: Line | null = null;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const levels = blockLevels_db(energy, block, peaks, noise * 10 ** (ABOVE_DB / 10));
    const noise_db = 10 * Math.log10(noise);
    const next = lateLine(levels, block, noise_db, round === 0);
    if (next === null) break;
    line = next;
    const crossing = (noise_db - line.start_db) / line.slope_db;
    if (!(crossing < energy.length)) {
      knee = energy.length;
      break;
    }
    const moved = Math.abs(crossing - knee);
    knee = Math.max(1, Math.round(crossing));
    block = Math.max(1, Math.round(-10 / line.slope_db / BLOCKS));
    // Noise is read from where the decay lies 10 dB below it on, or in the last tenth.
    const from = Math.min(Math.round(knee - 10 / line.slope_db), Math.floor(0.9 * energy.length));
    noise = Math.max(least, meanOf(energy, from, energy.length));
    if (moved < 0.001 * sampleRate_hz) break;
  }
  if (line === null) return null;
  const fine = Math.max(1, Math.min(block, Math.round(0.01 * sampleRate_hz)));
  const levels = blockLevels_db(energy, fine, peaks, Number.POSITIVE_INFINITY);
  const tail_ratio =
    10 ** ((line.start_db + line.slope_db * knee) / 10) / (1 - 10 ** (line.slope_db / 10));
  return {
    kneeIndex: knee,
    tail_ratio,
    noise_ratio: noise,
    peakToNoise_db: highest(levels) - 10 * Math.log10(noise),
  };
}

/** Level at the first sample, and its change per sample (< 0). */
interface Line {
  readonly start_db: number;
  readonly slope_db: number;
}

/** The line through the blocks of the late decay: the first time all that is well above the noise. */
function lateLine(
  levels: Float64Array,
  block: number,
  noise_db: number,
  all: boolean,
): Line | null {
  let peak = 0;
  for (let i = 0; i < levels.length; i++)
    if ((levels[peak] as number) < (levels[i] as number)) peak = i;
  let last = peak;
  while (last + 1 < levels.length && noise_db + ABOVE_DB < (levels[last + 1] as number)) last++;
  let first = peak;
  if (!all)
    while (first < last && (levels[last] as number) + RANGE_DB < (levels[first] as number)) first++;
  if (last - first < 2) first = Math.max(peak, last - 2);
  if (last - first < 1) return null;
  const count = last - first + 1;
  const middle = (first + last) / 2;
  let sum = 0;
  let xy = 0;
  for (let i = first; i <= last; i++) {
    sum += levels[i] as number;
    xy += (i - middle) * (levels[i] as number);
  }
  const slope = xy / ((count * (count * count - 1)) / 12);
  if (!(slope < 0)) return null;
  const slope_db = slope / block;
  return { start_db: sum / count - slope_db * ((middle + 0.5) * block), slope_db };
}

/**
 * Levels of blocks from the start on. They end where one lies below a bound and no later one can be the highest: nobody looks at what
 * comes then, which is most of a recording.
 */
function blockLevels_db(
  energy: Float64Array,
  block: number,
  peaks: Float64Array,
  bound_ratio: number,
): Float64Array {
  const levels = new Float64Array(Math.floor(energy.length / block));
  let highest = 0;
  for (let i = 0; i < levels.length; i++) {
    const mean = meanOf(energy, i * block, (i + 1) * block);
    levels[i] = 10 * Math.log10(Math.max(1e-300, mean));
    if (highest < mean) highest = mean;
    const later = peaks[Math.floor(((i + 1) * block) / CHUNK)] ?? 0;
    if (mean < bound_ratio && later < highest) return levels.subarray(0, i + 1);
  }
  return levels;
}

/** Samples for which one peak is kept. */
const CHUNK = 256;

/** The highest energy from each chunk on. */
function peaksFrom(energy: Float64Array): Float64Array {
  const peaks = new Float64Array(Math.ceil(energy.length / CHUNK));
  let highest = 0;
  for (let i = energy.length - 1; 0 <= i; i--) {
    const value = energy[i] as number;
    if (highest < value) highest = value;
    if (i % CHUNK === 0) peaks[i / CHUNK] = highest;
  }
  return peaks;
}

function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i] as number;
  return to <= from ? 0 : sum / (to - from);
}

function highest(values: Float64Array): number {
  let best = Number.NEGATIVE_INFINITY;
  for (const value of values) if (best < value) best = value;
  return best;
}
