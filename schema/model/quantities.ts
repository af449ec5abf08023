// Shapes that rooms, gear and facilities share, all in SI: points, spectra, ranges, what is missing and why.

import type { Path } from './path.ts';

/** Metres. x to the right along the front wall, y from the front wall to the back, z up from the floor. */
export interface Point {
  readonly x_m: number;
  readonly y_m: number;
  readonly z_m: number;
}

/** Values by frequency, ascending: `frequency_hz[i]` belongs to `value[i]`. The unit of `value` is told where it is used. */
export interface Spectrum {
  readonly frequency_hz: readonly number[];
  readonly value: readonly number[];
}

/** Why a value is not there: never recorded, looked at and not settled, or written in a way that cannot be read. */
export type GapReason = 'not recorded' | 'unknown' | 'in error';

/** A value that the computations would have used and that is not there. */
export interface Gap {
  readonly path: Path;
  readonly reason: GapReason;
}

/** How this file writes things; what is shown follows it. */
export interface Habits {
  readonly length: 'metre' | 'millimetre' | 'feet';
  readonly temperature: 'celsius' | 'fahrenheit';
  readonly mass: 'kilogram' | 'pound';
}
