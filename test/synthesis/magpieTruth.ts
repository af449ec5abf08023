// The truth behind the measurements of Magpie, the badly set-up room: as its file has it, but for one delay that is not dialled in.

import type { RoomTruth } from './roomTruth.ts';

const SIZE_M = [4.2, 5.7, 2.75] as const;

export const MAGPIE: RoomTruth = {
  size_m: SIZE_M,
  builtSize_m: SIZE_M,
  temperature_k: 295.15,
  decay_s: [0.36, 0.33, 0.42, 0.4, 0.37, 0.34, 0.3, 0.26, 0.22],
  // Parquet on the floor, gypsum and glass around. A guess of our own.
  weights: [1, 1, 1, 1, 0.3, 1],
  trebleWeights: [1, 1, 1, 1, 0.7, 1],
  seats: { mix: [2.1, 2.3, 1.22] },
  at: { left: [1.1, 0.57, 1.22], right: [3.1, 0.57, 1.22], sub: [2.1, 0.3, 0.25] },
  playsAt: { left: 'left', right: 'right', sub: 'sub' },
  inverted: { left: false, right: false, sub: false },
  // The file has 3 ms for the output that feeds the right one: somebody has taken them out again.
  delay_s: { left: 0.0002, right: 0, sub: 0 },
  level_db: { left: -6, right: -3, sub: 6 },
  // The subwoofer's inputs are set 8 dB too sensitive.
  full_db: { left: 87, right: 87, sub: 88.97 },
  crossover_hz: 120,
  quarterTurn_hz: null,
};
