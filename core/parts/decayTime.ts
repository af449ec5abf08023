// Decay time of the room, measured or from its surfaces, as one broad-band figure and by bands.

import type { Spectrum } from '../../schema/model/quantities.ts';
import type { SpaceFigures } from '../setup.ts';

export type DecayTime = NonNullable<SpaceFigures['decayTime']>;

/** Sound crosses a cupboard in this time: nothing that decays faster is a room, and 1/T would run out of numbers. */
const LEAST_s = 1e-3;

/** Bands over which the mean decay time is taken. @source EBU Tech 3276; ITU-R BS.1116-3 §8.2.3.1: 200 Hz to 4 kHz */
const MEAN_FROM_HZ = 200;
const MEAN_TO_HZ = 4000;

/** From measured times; null where there are none that are > 0. */
export function measuredDecayTime(measured: Spectrum | null): DecayTime | null {
  if (measured === null) return null;
  const bands = measured.frequency_hz.flatMap((frequency_hz, index) => {
    const decayTime_s = measured.value[index];
    return decayTime_s !== undefined && LEAST_s <= decayTime_s
      ? [{ frequency_hz, decayTime_s }]
      : [];
  });
  return decayTimeOf(bands, 'measured');
}

/** The broad-band figure is the mean of the bands from 200 Hz to 4 kHz; of all bands where none lies there. */
export function decayTimeOf(bands: DecayTime['bands'], from: DecayTime['from']): DecayTime | null {
  const middle = bands.filter(
    ({ frequency_hz }) => MEAN_FROM_HZ <= frequency_hz && frequency_hz <= MEAN_TO_HZ,
  );
  const averaged = 0 < middle.length ? middle : bands;
  if (averaged.length === 0) return null;
  const sum_s = averaged.reduce((sum, { decayTime_s }) => sum + decayTime_s, 0);
  return { decayTime_s: sum_s / averaged.length, from, bands };
}

/**
 * Decay time at any frequency: in a straight line over the logarithm of frequency, level beyond the outermost bands.
 *
 * @param frequency_hz > 0
 */
export function decayTimeAt_s({ bands, decayTime_s }: DecayTime, frequency_hz: number): number {
  const above = bands.findIndex((band) => frequency_hz <= band.frequency_hz);
  const upper = bands[above] ?? bands.at(-1);
  const lower = 0 < above ? bands[above - 1] : undefined;
  if (upper === undefined) return decayTime_s;
  if (lower === undefined) return upper.decayTime_s;
  const share =
    Math.log(frequency_hz / lower.frequency_hz) / Math.log(upper.frequency_hz / lower.frequency_hz);
  return lower.decayTime_s + share * (upper.decayTime_s - lower.decayTime_s);
}
