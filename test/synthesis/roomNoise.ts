// The background noise of a demo room, and the tone of a sound calibrator, as a microphone would have recorded both: pascals at a gain.

import { chanceFrom } from '../../core/measure/chance.ts';

/** A level in an octave band, or of one tone. */
export interface NoisePart {
  readonly frequency_hz: number;
  readonly level_db: number;
}

const REFERENCE_PA = 20e-6;
/** Sines in each octave: so many that they are noise. */
const SINES = 60;
const OCTAVE = 10 ** 0.3;

/** Sines of random place and phase, evenly over each octave, and tones that stand out. */
export function noise_pa(
  octaves: readonly NoisePart[],
  tones: readonly NoisePart[],
  sampleRate_hz: number,
  length_s: number,
  seed: number,
): Float64Array {
  const chance = chanceFrom(seed);
  const sines = [
    ...tones.map(({ frequency_hz, level_db }) => ({ frequency_hz, peak_pa: peak_pa(level_db) })),
    ...octaves.flatMap(({ frequency_hz, level_db }) =>
      Array.from({ length: SINES }, () => ({
        frequency_hz: frequency_hz * OCTAVE ** (chance() - 0.5),
        peak_pa: peak_pa(level_db) / Math.sqrt(SINES),
      })),
    ),
  ].map((sine) => ({ ...sine, phase_rad: 2 * Math.PI * chance() }));
  return Float64Array.from({ length: Math.round(length_s * sampleRate_hz) }, (_, i) =>
    sines.reduce(
      (sum, sine) =>
        sum +
        sine.peak_pa *
          Math.sin((2 * Math.PI * sine.frequency_hz * i) / sampleRate_hz + sine.phase_rad),
      0,
    ),
  );
}

/** The microphone is put into it, it sounds, and it is taken off. */
export function calibrator_pa(
  { frequency_hz, level_db }: NoisePart,
  sampleRate_hz: number,
  length_s: number,
): Float64Array {
  const seated_s = 0.4;
  return Float64Array.from({ length: Math.round(length_s * sampleRate_hz) }, (_, i) => {
    const time_s = i / sampleRate_hz;
    const left_s = Math.min(time_s, length_s - time_s);
    const share = left_s < seated_s ? 0.3 + 0.2 * Math.sin(40 * time_s) : 1;
    return share * peak_pa(level_db) * Math.sin(2 * Math.PI * frequency_hz * time_s);
  });
}

/** Pascals as samples, where a sine of so many dB SPL is full scale. */
export function recorded(signal_pa: Float64Array, fullScale_dbspl: number): Float64Array {
  return signal_pa.map((pressure_pa) => pressure_pa / peak_pa(fullScale_dbspl));
}

function peak_pa(level_db: number): number {
  return Math.SQRT2 * REFERENCE_PA * 10 ** (level_db / 20);
}
