// What one measurement file says, whatever room names it. Plain data: it crosses from a thread.

import type { CalibratorFigures, MeasuredTake } from './measuredFigures.ts';

export type TakeReading = Required<
  Omit<
    MeasuredTake,
    'take' | 'path' | 'drive' | 'sounding' | 'seat' | 'at' | 'timing' | 'isPending'
  >
> & {
  /** Of the recording of a sound calibrator. */
  readonly calibrator: CalibratorFigures | null;
};

/** A take of whose file nothing is known. */
export const NOTHING_READ: TakeReading = {
  kind: null,
  faults: [],
  response: null,
  arrival_s: null,
  arrivalBy: null,
  polarity: null,
  level: null,
  octaves: [],
  thirdOctaves: [],
  signalToNoise: [],
  distortion_ratio: null,
  noise: null,
  calibrator: null,
  refusals: [],
  warnings: [],
  how: null,
};
