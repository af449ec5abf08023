// The truth behind the measurements of the mix room Heron: invented, and not read off its room file, which tells what a surveyor found.
//
// Sides, places, air and loudspeakers are a little otherwise than the file has them, by less than a tape, a thermometer and a data sheet
// tell; what the walls absorb was chosen by itself, and the file's decay times are what a survey of this room reads.

import type { RoomTruth } from './roomTruth.ts';

const SIDE = [0.3, 0.33, 0.34, 0.34, 0.38, 0.38, 0.38, 0.4, 0.42] as const;

export const HERON: RoomTruth = {
  size_m: [4.624, 6.191, 2.936],
  temperature_k: 295.45,
  absorption: [
    SIDE,
    SIDE,
    [0.28, 0.3, 0.32, 0.32, 0.32, 0.32, 0.34, 0.36, 0.38],
    [0.36, 0.44, 0.54, 0.62, 0.66, 0.66, 0.66, 0.66, 0.66],
    [0.08, 0.1, 0.1, 0.12, 0.2, 0.26, 0.32, 0.4, 0.46],
    [0.3, 0.34, 0.36, 0.36, 0.36, 0.36, 0.36, 0.38, 0.4],
  ],
  seats: { mix: [2.311, 2.437, 1.223], producer: [2.308, 3.904, 1.218] },
  at: { left: [1.262, 0.618, 1.221], right: [3.357, 0.622, 1.219], sub: [1.752, 0.617, 0.25] },
  playsAt: { left: 'left', right: 'right', sub: 'sub' },
  inverted: { left: false, right: false, sub: true },
  delay_s: { left: 0, right: 0, sub: 0.001 },
  level_db: { left: -6, right: -6, sub: -3.25 },
  // By data sheet and hand. Mains: peak 110 dB, 3 dB less as RMS, 18 dBu in and out, −20 dB: 87 dB. Subwoofer: peak 116 dB on a floor, so
  // 6 dB less, 3 dB less as RMS, −20 dB, −6 dB of its bus: 80.97 dB. These three single ones are a little off their sheets.
  full_db: { left: 87.1, right: 86.9, sub: 80.8 },
  crossover_hz: 75,
  quarterTurn_hz: 80,
};
