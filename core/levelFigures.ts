// LevelFigures, the longer part: gain along each way, what reaches the seat by band, pairs, calibration, named references.
//
// Plain data, SI units and decibels. Levels at the seat are free-field ones: the room adds to them in the bass.

/** One way's gain structure: where its level is bounded, from the source's full scale to the driver. */
export interface GainChain {
  readonly source: string;
  readonly channel: string | null;
  readonly target: string;
  readonly set: string | null;
  readonly points: readonly GainPoint[];
  /** The point that clips first, and the level at the source that does it; > 0 dBFS where the source clips before. */
  readonly firstToClip: { readonly at: string; readonly source_dbfs: number } | null;
  /** Level at the driver's input re what drives it to full output, source at full scale; null where not known. */
  readonly driver_db: number | null;
  /** What is not recorded and ends the chain; null where all is known. */
  readonly missing: string | null;
}

export interface GainPoint {
  /** `desk.main_left`, `sub.in_left`; a driver by its loudspeaker's id. */
  readonly at: string;
  readonly kind: 'output' | 'input' | 'driver';
  /** What passes here with the source at full scale (a sine's RMS); null where it travels as numbers or is not known. */
  readonly level_dbu: number | null;
  /** The most that this point takes or gives. */
  readonly limit_dbu: number | null;
  /** The limit above the level: < 0 clips before the source does. */
  readonly margin_db: number | null;
}

/** How loud one loudspeaker or subwoofer can be at the reference seat, by third octaves. */
export interface ReachFigures {
  readonly source: string;
  readonly set: string | null;
  readonly isSubwoofer: boolean;
  /** As part of the LFE channel, 10 dB above a main channel. */
  readonly isLfe: boolean;
  /** Other subwoofers that get the same signal: their levels add, and count in the headroom. */
  readonly together: readonly string[];
  readonly seat: string;
  readonly distance_m: number;
  /** What a peak must reach: the reference level and 20 dB, 10 dB more for the LFE; null where no reference level is known. */
  readonly wanted_db: number | null;
  /** Where it carries its channel. */
  readonly range_hz: readonly [number, number];
  readonly bands: readonly BandReach[];
  /** The band of its range with the least headroom; null where none is known. */
  readonly worst: { readonly frequency_hz: number; readonly headroom_db: number } | null;
  /** The data sheet says nothing of the most that it makes below this; null where it reaches the range's end. */
  readonly unknownBelow_hz: number | null;
}

export interface BandReach {
  /** Nominal. */
  readonly frequency_hz: number;
  /** Peak level at the seat that the driver can make; null where the data sheet does not reach. */
  readonly driver_db: number | null;
  /** Peak level at the seat of the source's full scale (or of the level at which something on the way clips), as dialled in. */
  readonly signal_db: number | null;
  /** What the equaliser asks of the driver on top; 0 for cuts. */
  readonly boost_db: number;
  /** The lesser of driver and signal. */
  readonly max_db: number | null;
  readonly limitedBy: 'driver' | 'signal' | null;
  /** What the driver, with those that play together, has left at peaks: driver − boost − wanted; null outside its range, too. */
  readonly headroom_db: number | null;
}

/** What all that a channel drives can make together. */
export interface ChannelReach {
  readonly channel: string;
  readonly set: string | null;
  readonly bands: readonly {
    readonly frequency_hz: number;
    /** Peak, taken as aligned. */
    readonly max_db: number;
    readonly limitedBy: string;
    readonly headroom_db: number | null;
  }[];
  readonly worst: { readonly frequency_hz: number; readonly headroom_db: number } | null;
}

/** Left and right of a pair at the reference seat. */
export interface PairLevel {
  readonly left: string;
  readonly right: string;
  readonly set: string | null;
  /** Level of the left one above the right one, gains and distances counted. */
  readonly difference_db: number;
}

/** How far a main channel lies above the reference level at the seat with nothing turned down. */
export interface Attenuation {
  readonly target: string;
  readonly set: string | null;
  /** Pass-band level at the seat for noise at the calibration's signal level, above the reference level. */
  readonly surplus_db: number;
  /** Negative levels dialled in while the signal is numbers, as a sum > 0. */
  readonly trims_db: number;
  /** What is taken away as numbers at the reference level: the trims, and the surplus where only the source can take it. */
  readonly digital_db: number;
}

/** What a meter should read for one channel. */
export interface CalibrationTarget {
  readonly channel: string;
  readonly set: string | null;
  readonly kind: 'main' | 'bass' | 'lfe';
  readonly sources: readonly string[];
  readonly band_hz: readonly [number, number];
  /** RMS of the noise re a full-scale sine (AES17). */
  readonly signal_dbfs: number;
  readonly weighting: 'A' | 'C';
  /** For noise of that band at that RMS level. */
  readonly reading_db: number;
  /** For the same band cut out of wide pink noise of that RMS level. */
  readonly cut_db: number;
  readonly tolerance_db: number;
  readonly source: string;
}

/** A reference level that a document names for a room like this one. */
export interface NamedReference {
  readonly name: string;
  readonly level_db: number;
  readonly weighting: 'A' | 'C';
  readonly signal_dbfs: number;
  readonly about: string;
  readonly source: string;
}

/** What the subwoofers' sum asks for, and what is left. */
export interface BassSum {
  readonly sub: string;
  readonly set: string | null;
  /** The same bass in all its channels and the LFE, re one channel. */
  readonly sum_db: number;
  /** Level of that sum in the device that adds, re its full scale, all channels at full scale; > 0 can clip. */
  readonly atBus_db: number;
  /** Least headroom of the subwoofer with the whole sum in it; null where its levels are not known. */
  readonly headroom_db: number | null;
  readonly frequency_hz: number | null;
}
