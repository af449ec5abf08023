// The grids on which the field is worked out: evenly spaced in octaves, from below hearing to where single modes stop to matter.

import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import type { FieldMethod } from '../fieldFigures.ts';

const FROM_HZ = 15;
/** Finite elements cost the fourth power of the highest frequency or so; each method goes as far as it stays quick. */
const TO_HZ: Readonly<Record<FieldMethod, number>> = {
  box: 300,
  'flat ceiling': 200,
  'sloped ceiling': 150,
};
/** Steps of 0.4 Hz at 20 Hz and 3.5 Hz at 200 Hz: half a mode's bandwidth or finer. 180 points from 15 to 300 Hz. */
const POINTS_PER_OCTAVE = 41.4;

export function fieldGrid_hz(method: FieldMethod): readonly number[] {
  return [...logGrid_hz(FROM_HZ, TO_HZ[method], POINTS_PER_OCTAVE)];
}
