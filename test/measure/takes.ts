// Takes with known answers: what a microphone would have recorded of a system that is written down here.

import { type BiquadKind, biquad } from '../../core/acoustics/biquad.ts';
import { filtered } from '../../core/measure/bandFilter.ts';
import { chanceFrom } from '../../core/measure/chance.ts';
import { convolved } from '../../core/measure/fourier.ts';
import { recordedSweep } from '../../core/measure/recording.ts';
import { type SweepDesign, sweepTrain } from '../../core/measure/sweep.ts';
import { type TakeOptions, takeFigures } from '../../core/measure/take.ts';
import type { TakeFigures } from '../../core/measure/takeFigures.ts';

export const RATE_HZ = 48000;

export const DESIGN: SweepDesign = {
  sampleRate_hz: RATE_HZ,
  from_hz: 10,
  to_hz: 22000,
  length_s: 3,
  level_dbfs: -20,
  fadeIn_s: 0.1,
  fadeOut_s: 0.02,
  lead_s: 0.5,
  gap_s: 1.5,
  repeatCount: 1,
};

export const OPTIONS: TakeOptions = { smoothingCount: 6, window: { before_s: 0.02, after_s: 0.5 } };

/** An impulse between samples: a windowed sinc. */
export function impulseAt(delay_s: number, height: number, length_s = 1.4): Float64Array {
  const place = delay_s * RATE_HZ;
  return Float64Array.from({ length: Math.round(length_s * RATE_HZ) }, (_, i) => {
    const x = i - place;
    if (64 < Math.abs(x)) return 0;
    const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    return height * sinc * (0.5 + 0.5 * Math.cos((Math.PI * x) / 65));
  });
}

/** Gaussian noise of a seed, RMS 1. */
export function hiss(seed: number, count: number): Float64Array {
  const chance = chanceFrom(seed);
  return Float64Array.from(
    { length: count },
    () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance()),
  );
}

/** A diffuse tail of a decay time behind a delay. */
export function tail(
  seed: number,
  decayTime_s: number,
  height: number,
  from_s: number,
  length_s = 1.4,
): Float64Array {
  const noise = hiss(seed, Math.round(length_s * RATE_HZ));
  return noise.map((v, i) => {
    const t = i / RATE_HZ - from_s;
    return t < 0 ? 0 : height * v * 10 ** ((-3 * t) / decayTime_s);
  });
}

export function through(
  signal: Float64Array,
  ...filters: readonly (readonly [BiquadKind, number, number])[]
): Float64Array {
  const sections = filters.map(([kind, frequency_hz, q]) => {
    const { b, a } = biquad({ kind, frequency_hz, q, gain_db: 0 }, RATE_HZ);
    return [b[0], b[1], b[2], a[1], a[2]] as const;
  });
  return filtered(sections, signal);
}

export function sum(...signals: readonly Float64Array[]): Float64Array {
  const [first = new Float64Array(0), ...others] = signals;
  return first.map((v, i) => others.reduce((all, one) => all + (one[i] ?? 0), v));
}

export interface Recorded {
  readonly noise_dbfs?: number;
  readonly seed?: number;
  /** What the loudspeaker makes of the voltage. */
  readonly bend?: (value: number) => number;
  readonly isLooped?: boolean;
  readonly design?: SweepDesign;
}

/** The sweep through a system, recorded with noise, analysed. */
export function takeOf(system: Float64Array, how: Recorded = {}): TakeFigures {
  const { noise_dbfs = -90, seed = 1, bend = (v) => v, isLooped = true, design = DESIGN } = how;
  const played = sweepTrain(design);
  const heard = convolved(played.map(bend), system).slice(0, played.length);
  const noise = hiss(seed, heard.length);
  const level = 10 ** (noise_dbfs / 20) / Math.SQRT2;
  const recording = heard.map((v, i) => v + level * (noise[i] as number));
  const { impulse } = recordedSweep(recording, { design }, isLooped ? played : null);
  const take = takeFigures(impulse, OPTIONS);
  if (take === null) throw new Error('silent');
  return take;
}
