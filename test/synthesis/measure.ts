// What a microphone would have recorded: images, electronics, noise of a seed, an unknown gain; as an impulse response from the moment of playing.

import { chanceFrom } from '../../core/measure/chance.ts';
import type { Filter } from './electronics.ts';
import {
  frequencyOf_hz,
  type ImageRoom,
  imageSpectrum,
  samplesOf,
  type Triple,
} from './imageRoom.ts';

export interface Sounding {
  readonly at: Triple;
  readonly filter: Filter;
  /** Octave bands that it plays in; all where absent. */
  readonly bandCount?: number;
}

export interface MicrophoneOf {
  readonly seed: number;
  /** RMS below the response's own peak. */
  readonly noise_db: number;
  readonly gain_db: number;
}

const kept = new Map<string, Float64Array>();
/** More than the takes of one room. */
const MOST_KEPT = 24;

/** The same places in the same room are asked for by many takes. */
function spectrum(room: ImageRoom, { at, bandCount }: Sounding, to: Triple): Float64Array {
  const key = JSON.stringify([room, at, to, bandCount]);
  const found = kept.get(key) ?? imageSpectrum(room, at, to, bandCount);
  kept.delete(key);
  kept.set(key, found);
  const [oldest] = kept.keys();
  if (MOST_KEPT < kept.size && oldest !== undefined) kept.delete(oldest);
  return found;
}

/** What arrives, without noise: a spectrum like `imageSpectrum`'s. */
export function heardSpectrum(
  room: ImageRoom,
  sounding: readonly Sounding[],
  to: Triple,
): Float64Array {
  const parts = sounding.map((one) => ({ filter: one.filter, way: spectrum(room, one, to) }));
  const sum = new Float64Array(parts[0]?.way.length ?? 0);
  for (const { filter, way } of parts) {
    for (let k = 1; k < sum.length / 2; k++) {
      const { re, im } = filter(frequencyOf_hz(k));
      const [a, b] = [way[2 * k] ?? 0, way[2 * k + 1] ?? 0];
      sum[2 * k] = (sum[2 * k] ?? 0) + a * re - b * im;
      sum[2 * k + 1] = (sum[2 * k + 1] ?? 0) + a * im + b * re;
    }
  }
  return sum;
}

export function impulseResponse(
  room: ImageRoom,
  sounding: readonly Sounding[],
  to: Triple,
  { seed, noise_db, gain_db }: MicrophoneOf,
): Float64Array {
  const samples = samplesOf(heardSpectrum(room, sounding, to));
  const peak = samples.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
  const next = hissOf(seed);
  const gain = 10 ** (gain_db / 20);
  return samples.map((one) => gain * (one + peak * 10 ** (noise_db / 20) * next()));
}

/** Gaussian numbers of a seed, deviation 1. */
export function hissOf(seed: number): () => number {
  const chance = chanceFrom(seed);
  return () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());
}
