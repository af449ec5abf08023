// The truth behind the measurements of the mix room Heron: invented, typed from its plan by hand, levels worked out on paper.

import type { RoomTruth } from './roomTruth.ts';

const SIZE_M = [4.62, 6.18, 2.94] as const;

export const HERON: RoomTruth = {
  size_m: SIZE_M,
  builtSize_m: SIZE_M,
  temperature_k: 295.15,
  // By these the walls absorb as much as decays of 0.42 to 0.24 s in the file ask for: grazing sound outlasts what the formula knows.
  decay_s: [0.34, 0.3, 0.28, 0.25, 0.19, 0.2, 0.18, 0.17, 0.15],
  // Gypsum on studs, more at the back, little on the floor. A guess of our own.
  weights: [1, 1, 1, 1.6, 0.15, 1],
  trebleWeights: [1, 1, 1, 1.6, 1.2, 1.2],
  seats: { mix: [2.31, 2.44, 1.22], producer: [2.31, 3.9, 1.22] },
  at: { left: [1.26, 0.62, 1.22], right: [3.36, 0.62, 1.22], sub: [1.75, 0.62, 0.25] },
  playsAt: { left: 'left', right: 'right', sub: 'sub' },
  inverted: { left: false, right: false, sub: true },
  delay_s: { left: 0, right: 0, sub: 0.001 },
  level_db: { left: -6, right: -6, sub: -3.25 },
  // Mains: peak 110 dB, 3 dB less as RMS, 18 dBu in and out, −20 dB: 87 dB. Subwoofer: peak 116 dB on a floor, so 6 dB less, 3 dB less
  // as RMS, −20 dB, −6 dB of its bus: 81 dB.
  full_db: { left: 87, right: 87, sub: 80.97 },
  crossover_hz: 75,
  quarterTurn_hz: 80,
};
