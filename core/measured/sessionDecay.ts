// A session's decay times by octave: the mean of its takes, as the standard on measuring them asks for.

import { bandName } from '../bandName.ts';
import type { MeasuredDecay, MeasuredSession, MeasuredTake } from './measuredFigures.ts';

export interface SessionDecay {
  readonly frequency_hz: number;
  readonly decayTime_s: number;
  readonly count: number;
}

/** @source ISO 3382-2: arithmetic mean of the decay times of all positions; T20, or T30 where only that is known */
export function sessionDecay({ takes }: Pick<MeasuredSession, 'takes'>): readonly SessionDecay[] {
  const bands = new Map<number, number[]>();
  for (const take of takes)
    for (const { frequency_hz, t20_s, t30_s } of octavesOf(take)) {
      const time_s = t20_s ?? t30_s;
      if (time_s !== null) bands.set(frequency_hz, [...(bands.get(frequency_hz) ?? []), time_s]);
    }
  return [...bands]
    .toSorted(([a], [b]) => a - b)
    .map(([frequency_hz, times_s]) => ({
      frequency_hz,
      decayTime_s: times_s.reduce((sum, one) => sum + one, 0) / times_s.length,
      count: times_s.length,
    }));
}

/** A take's octaves in which its loudspeaker plays: what it leaks into others decays as its filters do. */
export function octavesOf({ octaves, how }: MeasuredTake): readonly MeasuredDecay[] {
  const band = how?.sourceBand;
  return octaves.filter(
    ({ frequency_hz }) =>
      !band ||
      (band.from_hz <= frequency_hz * Math.SQRT1_2 * EDGE && frequency_hz <= band.to_hz * EDGE),
  );
}

/** Nominal and exact edges of bands differ by so much. */
const EDGE = 1.05;

/** As it may stand under `space.decay_time`. */
export function decayText(bands: readonly SessionDecay[]): string {
  const parts = bands.map(
    ({ frequency_hz, decayTime_s }) => `${bandName(frequency_hz)}: ${decayTime_s.toFixed(2)} s`,
  );
  return `{ ${parts.join(', ')} }`;
}
