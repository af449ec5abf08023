// A response from a text on an even grid, smoothed.

import { logGrid_hz } from '../../core/acoustics/frequencyGrid.ts';
import { type LevelCurve, levelAt_db } from '../../core/measure/correction.ts';
import { smoothed_db } from '../../core/measure/smoothing.ts';

const POINTS_PER_OCTAVE = 48;

/** @param smoothingCount n of 1/n octave */
export function smoothedCurve(curve: LevelCurve, smoothingCount: number): LevelCurve {
  const from_hz = curve.frequencies_hz[0] as number;
  const to_hz = curve.frequencies_hz.at(-1) as number;
  const frequencies_hz = logGrid_hz(from_hz, to_hz, POINTS_PER_OCTAVE);
  const levels_db = frequencies_hz.map((f) => levelAt_db(curve, f));
  return { frequencies_hz, levels_db: smoothed_db(frequencies_hz, levels_db, smoothingCount) };
}
