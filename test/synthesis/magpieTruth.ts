// The truth behind the measurements of Magpie, the badly set-up room: invented, not read off its file, one delay not dialled in and the subwoofer turned.
//
// Sides, places, air and loudspeakers are a little otherwise than the file has them, as with a tape and data sheets; its decay times are
// what a survey of this room reads.

import type { RoomTruth } from './roomTruth.ts';

const WALL = [0.3, 0.3, 0.28, 0.26, 0.24, 0.24, 0.26, 0.28, 0.3] as const;

export const MAGPIE: RoomTruth = {
  size_m: [4.204, 5.693, 2.754],
  temperature_k: 294.95,
  absorption: [
    [0.32, 0.3, 0.27, 0.25, 0.24, 0.24, 0.24, 0.26, 0.28],
    WALL,
    WALL,
    WALL,
    [0.06, 0.07, 0.08, 0.1, 0.12, 0.14, 0.16, 0.2, 0.25],
    WALL,
  ],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: a place in metres, near a constant by chance
  seats: { mix: [2.102, 2.303, 1.218] },
  at: { left: [1.102, 0.572, 1.22], right: [3.097, 0.568, 1.222], sub: [2.102, 0.298, 0.25] },
  playsAt: { left: 'left', right: 'right', sub: 'sub' },
  // The file has its polarity as normal: whoever took out the delay has turned the switch beside it.
  inverted: { left: false, right: false, sub: true },
  // The file has 3 ms for the output that feeds the right one: somebody has taken them out again.
  delay_s: { left: 0.0002, right: 0, sub: 0 },
  level_db: { left: -6, right: -3, sub: 6 },
  // As with Heron; the subwoofer's inputs are set 8 dB too sensitive.
  full_db: { left: 86.9, right: 87.1, sub: 89.1 },
  crossover_hz: 120,
  quarterTurn_hz: null,
};
