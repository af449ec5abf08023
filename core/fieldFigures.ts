// FieldFigures: the room's low end as predicted: what each source and each channel comes to at each seat, and how far to trust it.
//
// Plain data, SI units, worked out in a second phase (`withField`), since it takes longer than a keystroke. Levels are dB SPL (RMS)
// for the drive that `level` tells; phases go with e^{+jωt}, flight and latencies included.

import type { Path } from '../schema/model/path.ts';
import type { FilterChoice, Note } from './setup.ts';

export interface FieldFigures {
  /** The grid of all curves that name no other. */
  readonly frequency_hz: readonly number[];
  readonly method: FieldMethod;
  /** Where single curves stop meaning anything: above it the room is statistics. null where no decay is known. */
  readonly schroeder_hz: number | null;
  readonly damping: {
    readonly from: 'measured' | 'surfaces';
    /** Surfaces of which nothing is known, and that were taken as ordinary ones. */
    readonly assumed: readonly string[];
  };
  readonly level: LevelBasis;
  readonly seats: readonly SeatField[];
  /** One entry a subwoofer and set of monitors, at the reference seat. */
  readonly polarity: readonly PolarityFigures[];
  /** One entry a channel and set; rooms with two seats or more. */
  readonly spread: readonly SpreadFigures[];
  /** Rooms that are no box: their modes by finite elements. Box rooms have theirs in `space.modes`. */
  readonly modes: readonly FieldMode[] | null;
  /** What the nearest surfaces do to each loudspeaker at the reference seat; free-standing and built-in ones alike. */
  readonly boundaries: readonly BoundaryCurve[];
  readonly uncertainty: UncertaintyFigures | null;
  /** The crossovers' sums in the room, at the reference seat; absent while curves only follow a hand. */
  readonly crossovers?: readonly CrossoverInRoom[];
  readonly notes: readonly Note[];
}

/** `box`: exact for uniform admittance of each surface. The others by finite elements. */
export type FieldMethod = 'box' | 'flat ceiling' | 'sloped ceiling';

export interface LevelBasis {
  /**
   * `absolute`: from gear and gains, for `input_dbfs` at the source's output. `matched`: not enough is recorded; each source's own
   * pass band is taken to reach `level_dbspl` at the reference seat in a free field, as levels are set in practice.
   */
  readonly kind: 'absolute' | 'matched';
  readonly input_dbfs: number;
  /** null where the levels are absolute. */
  readonly level_dbspl: number | null;
}

export interface SeatField {
  readonly seat: string;
  readonly sources: readonly SourceField[];
  readonly channels: readonly ChannelField[];
}

/** One loudspeaker or subwoofer by itself, through everything on its way. */
export interface SourceField extends FieldCurve {
  readonly source: string;
  readonly set: string | null;
  /** The channel that drives it here; null where nothing is wired to it: then it is the bare loudspeaker. */
  readonly channel: string | null;
}

/** All that one channel drives, together. */
export interface ChannelField extends FieldCurve {
  readonly channel: string;
  readonly set: string | null;
  readonly sources: readonly string[];
}

export interface FieldCurve {
  readonly level_db: readonly number[];
  readonly phase_rad: readonly number[];
  /** The envelope of what is not known; null until it is worked out. */
  readonly lower_db: readonly number[] | null;
  readonly upper_db: readonly number[] | null;
  /** null where the source plays nothing within the grid. */
  readonly extremes: CurveExtremes | null;
}

/** Over the part of 20–200 Hz in which the source or channel plays. */
export interface CurveExtremes {
  readonly from_hz: number;
  readonly to_hz: number;
  readonly median_db: number;
  /** Re the median; a dip that is nothing but the curve's end does not count. */
  readonly dip: Extreme;
  readonly peak: Extreme;
  /** Half the span of the third-octave means: the usual "± dB". */
  readonly plusMinus_db: number;
}

export interface Extreme {
  readonly frequency_hz: number;
  readonly level_db: number;
}

export interface PolarityFigures {
  readonly sub: string;
  readonly set: string | null;
  /** The channels over which it is averaged: those that drive this sub and a loudspeaker. */
  readonly channels: readonly string[];
  /** Where both count: levels within 10 dB, by filters and roll-offs. */
  readonly overlap_hz: readonly [number, number];
  /** Mean power of the sum in the overlap with the polarity as it is, and turned, dB SPL. */
  readonly asSet_db: number;
  readonly turned_db: number;
  /** The same at the other seats. */
  readonly elsewhere?: readonly {
    readonly seat: string;
    readonly asSet_db: number;
    readonly turned_db: number;
  }[];
  /** The same over the grid, mean power over the channels: for drawing side by side. */
  readonly curve: { readonly asSet_db: readonly number[]; readonly turned_db: readonly number[] };
}

export interface SpreadFigures {
  readonly channel: string;
  readonly set: string | null;
  readonly from_hz: number;
  readonly to_hz: number;
  /** Mean spatial variance: the variance over the seats of the level in dB, averaged over frequency. */
  readonly variance_db2: number;
  /** Its square root. */
  readonly deviation_db: number;
  /** Where the seats differ most, and by how much from the lowest to the highest. */
  readonly worst: Extreme;
  readonly source: string;
}

export interface FieldMode {
  readonly frequency_hz: number;
  readonly decayTime_s: number | null;
  readonly bandwidth_hz: number | null;
  /** |mode shape|, 1 where the mode's mean square over the room lies. */
  readonly drivenBy: readonly { readonly source: string; readonly strength: number }[];
  readonly heardAt: readonly { readonly seat: string; readonly strength: number }[];
}

export interface BoundaryCurve {
  readonly source: string;
  readonly seat: string;
  readonly frequency_hz: readonly number[];
  /** Direct sound and first reflections together, re the direct sound. */
  readonly level_db: readonly number[];
}

/** One crossover with the room and everything on the way in its sum; mean over its mains. */
export interface CrossoverInRoom {
  /** Where the crossover's setting stands. */
  readonly path: Path;
  readonly set: string | null;
  /** The same ripple without the room, beside it. */
  readonly anechoicRipple_db: number;
  readonly current: RoomOutcome;
  /** The start that practice names. */
  readonly practice: RoomOutcome | null;
  /** What the anechoic sum suggests. */
  readonly suggested: RoomOutcome | null;
  /** The joint setting that a bounded search finds best by deviation and practice; `current` itself where none is better. */
  readonly best: RoomOutcome;
}

export interface RoomOutcome {
  readonly filter: FilterChoice;
  readonly polarity: 'normal' | 'inverted';
  readonly subDelay_s: number;
  /** Largest minus smallest third-octave mean within an octave of the crossover. */
  readonly ripple_db: number;
  /** Of the third-octave means from 40 Hz to 160 Hz, root mean square about their mean: what settings are compared by. */
  readonly deviation_db: number;
}

/** What the envelope is made of: half widths, as stated in the file or as documented. */
export interface UncertaintyFigures {
  readonly draws: number;
  readonly dimension_m: number;
  readonly sourcePosition_m: number;
  readonly seatPosition_m: number;
  readonly temperature_k: number;
  /** Surfaces absorb up to so many times more or less. */
  readonly absorption_ratio: number;
  /** Share by which walls that give way move the modes. */
  readonly construction_ratio: number;
}

/** Pressure over a horizontal plane at one frequency. */
export interface FieldMap {
  readonly frequency_hz: number;
  readonly height_m: number;
  readonly x_m: readonly number[];
  readonly y_m: readonly number[];
  /** `[row * x_m.length + column]`, dB SPL; null outside the plan. */
  readonly level_db: readonly (number | null)[];
}

export interface FieldMapRequest {
  /** A loudspeaker or subwoofer, or all that a channel drives. */
  readonly of:
    | { readonly source: string }
    | { readonly channel: string; readonly set: string | null };
  readonly frequency_hz: number;
  readonly height_m: number;
  /** Columns and rows, evenly over the plan. */
  readonly columns: number;
  readonly rows: number;
}

/** How the bass fades at a seat after the sound has stopped. */
export interface FieldDecay {
  readonly frequency_hz: readonly number[];
  /** Since the sound stopped. */
  readonly time_s: readonly number[];
  /** `[time][frequency]`, dB SPL. */
  readonly level_db: readonly (readonly number[])[];
}

export interface FieldDecayRequest {
  readonly of: FieldMapRequest['of'];
  readonly seat: string;
  /** From slice to slice, and how many. */
  readonly step_s: number;
  readonly count: number;
}

/** Room alone, per volume velocity, e^{+jωt}. */
export interface SeatTransfer {
  readonly seat: string;
  readonly source: string;
  readonly frequency_hz: readonly number[];
  readonly real_pa_s_m3: readonly number[];
  readonly imag_pa_s_m3: readonly number[];
}
