// Noise of the electronics: what it comes to at the reference seat with no signal, and the trims that would lower it.
//
// Plain data. Levels at the seat are free-field ones, A-weighted; powers of all sources are added.

import type { Path } from '../schema/model/path.ts';

/** The noise of all that sounds in one set of monitors. */
export interface SeatNoise {
  readonly set: string | null;
  /** All that is known, added. */
  readonly level_dba: number;
  /** Loudest first. */
  readonly sources: readonly NoiseSource[];
  /** Speakers and devices on the ways whose noise is not recorded: the sum is the least that there is. */
  readonly missing: readonly string[];
}

export interface NoiseSource {
  /** The output that it comes from (`sub.out_left`), or the loudspeaker that it is the own noise of. */
  readonly at: string;
  readonly kind: 'output' | 'driver';
  /** Where it is heard. */
  readonly target: string;
  /** A-weighted, as recorded: at the output in dBu; null for a loudspeaker's own. */
  readonly output_dbu: number | null;
  readonly level_dba: number;
}

/** Gain to take away late and to give early: level and clip points stay, the noise of what lies between falls. */
export interface NoiseTrim {
  readonly target: string;
  readonly set: string | null;
  readonly late: TrimPlace;
  /** null: the monitor control (a controller's, else the source's own), which at the reference level is turned down by more than the peaks need. */
  readonly early: TrimPlace | null;
  /** Gain that can be moved, > 0. */
  readonly by_db: number;
  /** Noise of this loudspeaker at the seat as it is, less what it would be; > 0. */
  readonly saves_db: number;
}

export interface TrimPlace {
  readonly device: string;
  readonly control: string;
  /** Where the setting stands or would stand. */
  readonly path: Path;
}
