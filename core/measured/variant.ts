// A variant: in what one thing the room may be otherwise than the file says. What it does not name stays as it is.

import type { Spectrum } from '../../schema/model/quantities.ts';
import type { Point3 } from '../acoustics/point.ts';

export interface Variant {
  /** Where these loudspeakers stand, or from where their signal comes out. */
  readonly places?: ReadonlyMap<string, Point3>;
  /** How much farther each of these seats lies. */
  readonly seatOffset_m?: {
    readonly seat: string;
    readonly by_m: readonly [number, number, number];
  };
  /** Loudspeakers whose polarity is turned over. */
  readonly turned?: ReadonlySet<string>;
  readonly late_s?: ReadonlyMap<string, number>;
  readonly gain_db?: ReadonlyMap<string, number>;
  /** Added to width, depth and height. */
  readonly size_m?: readonly [number, number, number];
  /** Multiplies the speed of sound. */
  readonly speed_ratio?: number;
  /** Stands in place of the room's own decay times. */
  readonly decayTime_s?: Spectrum;
}

/** As the file says. */
export const AS_STATED: Variant = {};
