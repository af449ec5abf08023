// A response known at samples: level and phase on an even grid of octaves, read in between by straight lines.

import type { Complex } from './complex.ts';

/** Level and phase at `FROM_HZ · 2^(i / AN_OCTAVE)`; held beyond both ends. Phase is unwrapped. */
export interface SampledResponse {
  readonly level_db: ArrayLike<number>;
  readonly phase_rad: ArrayLike<number>;
}

/** From below hearing to where no low end matters any more. */
export const SAMPLES = { from_hz: 5, anOctave: 24, count: 193 } as const;

/** The grid of all sampled responses, Hz. */
export function sampleGrid_hz(): Float64Array {
  const { from_hz, anOctave, count } = SAMPLES;
  return Float64Array.from({ length: count }, (_, i) => from_hz * 2 ** (i / anOctave));
}

/** @param frequency_hz >= 0 */
export function sampledAt({ level_db, phase_rad }: SampledResponse, frequency_hz: number): Complex {
  const { from_hz, anOctave, count } = SAMPLES;
  const last = count - 1;
  const place = Math.min(last, Math.max(0, anOctave * Math.log2(frequency_hz / from_hz)));
  const low = Math.min(last - 1, Math.floor(place));
  const share = place - low;
  const between = (values: ArrayLike<number>) => {
    const here = values[low] as number;
    return here + share * ((values[low + 1] as number) - here);
  };
  const size = 10 ** (between(level_db) / 20);
  const phase = between(phase_rad);
  return { re: size * Math.cos(phase), im: size * Math.sin(phase) };
}

/** Group delay −dφ/dω at one frequency, from the straight line that it lies on. */
export function sampledDelay_s({ phase_rad }: SampledResponse, frequency_hz: number): number {
  const { from_hz, anOctave, count } = SAMPLES;
  const place = anOctave * Math.log2(frequency_hz / from_hz);
  if (!(0 <= place && place <= count - 1)) return 0;
  const low = Math.min(count - 2, Math.floor(place));
  const turn = (phase_rad[low + 1] as number) - (phase_rad[low] as number);
  // d(log2 f) = df / (f ln 2)
  return (-turn * anOctave) / (2 * Math.PI * frequency_hz * Math.LN2);
}
