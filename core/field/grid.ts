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
/** Below this a grid says nothing about monitoring. */
const LEAST_TO_HZ = 40;

/** What decides how many modes there are. */
export interface FieldSize {
  readonly volume_m3: number;
  readonly floorArea_m2: number;
  readonly speedOfSound_m_s: number;
}

/** @returns empty where the room is so large that its modes are past counting */
export function fieldGrid_hz(method: FieldMethod, size: FieldSize): readonly number[] {
  const to_hz = Math.min(TO_HZ[method], countable_hz(method, size));
  return to_hz < LEAST_TO_HZ ? [] : grid(to_hz);
}

/** To the millihertz, so that what is told of a frequency of the grid is found there again. */
function grid(to_hz: number): readonly number[] {
  return Array.from(
    logGrid_hz(FROM_HZ, to_hz, POINTS_PER_OCTAVE),
    (f_hz) => Math.round(f_hz * 1000) / 1000,
  );
}

/** Up to where a method's modes stay within what a second or two can sum. @source leading terms of Weyl's law */
function countable_hz(
  method: FieldMethod,
  { volume_m3, floorArea_m2, speedOfSound_m_s: c }: FieldSize,
): number {
  const inRoom = (count: number, beyond: number) =>
    (Math.cbrt((6 * Math.PI ** 2 * count) / volume_m3) * c) / (2 * Math.PI * beyond);
  switch (method) {
    case 'box':
      return inRoom(5000, 1.3);
    case 'flat ceiling':
      return (Math.sqrt((4 * Math.PI * 300) / floorArea_m2) * c) / (2 * Math.PI * 1.6);
    case 'sloped ceiling':
      return inRoom(120, 1.2);
  }
}
