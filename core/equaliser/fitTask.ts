// What an equaliser is to be fitted to, and what comes out: plain data, SI units, levels in dB.

import type { Control } from '../../schema/model/gear.ts';

/** What the device's equaliser can be told. */
export type EqualiserDevice = Pick<
  Extract<Control, { readonly kind: 'eq' }>,
  'bands' | 'frequency_hz' | 'gain_db' | 'q'
>;

/** The response at one seat, without the bands that are to be found. */
export interface FitSeat {
  readonly seat: string;
  /** By frequency of the task's grid. */
  readonly level_db: ArrayLike<number>;
  /** How much the seat counts, > 0. */
  readonly weight: number;
}

export interface FitTask {
  /** Evenly spaced in octaves, so that every octave counts alike; ascending, each > 0. */
  readonly frequency_hz: ArrayLike<number>;
  /** One or more, each on the grid. */
  readonly seats: readonly FitSeat[];
  /** How many places of a head the seats' responses are of; as many as seats where absent. */
  readonly placeCount?: number;
  /** By frequency of the grid, absolute as the seats' levels are. */
  readonly target_db: ArrayLike<number>;
  readonly device: EqualiserDevice;
  readonly limits: FitLimits;
  /** The rate at which the device makes its bands; null where it does not matter or is not known. */
  readonly sampleRate_hz: number | null;
}

export interface FitLimits {
  /** Where the response is fitted and bells may stand. */
  readonly from_hz: number;
  readonly to_hz: number;
  /** Above `to_hz` and up to here only broad cuts; null for none. */
  readonly broadTo_hz: number | null;
  /** null where nothing may be raised. */
  readonly boost: {
    readonly most_db: number;
    /** The drivers' −6 dB point: below it nothing is raised. */
    readonly from_hz: number;
  } | null;
  /** Bells are no narrower than this, whatever the device can do; absent where its own range counts. */
  readonly most_q?: number;
  /** Whether dips that interference makes are left out. */
  readonly leaveNulls: boolean;
  /** A band that takes less than this share off what is left is not worth its place; 0 to use all bands. */
  readonly leastGain_ratio: number;
}

export interface FitBand {
  readonly frequency_hz: number;
  readonly gain_db: number;
  readonly q: number;
}

export interface EqualiserFit {
  /** In the device's steps, ascending in frequency; at most as many as it has. */
  readonly bands: readonly FitBand[];
  /** By frequency of the grid. */
  readonly correction_db: Float64Array;
  /** RMS distance to the target over seats and frequencies that count. */
  readonly before_db: number;
  readonly after_db: number;
  /** The same before the bands were rounded to the device's steps. */
  readonly exact: { readonly bands: readonly FitBand[]; readonly after_db: number };
  readonly seats: readonly SeatFit[];
  readonly headroom: HeadroomCost;
  readonly warnings: readonly FitWarning[];
}

export interface SeatFit {
  readonly seat: string;
  readonly before_db: number;
  readonly after_db: number;
  readonly level_db: Float64Array;
  readonly nulls: readonly Null[];
}

export interface Null {
  readonly frequency_hz: number;
  /** Below the mean power of the octave around it, > 0. */
  readonly depth_db: number;
  readonly from_hz: number;
  readonly to_hz: number;
}

export interface HeadroomCost {
  /** What the bands together add at most; that much earlier everything clips. 0 where nothing is raised. */
  readonly boost_db: number;
  readonly boostAt_hz: number | null;
  /** What they take away at most: bass that the mains' level must not be raised to make up for. */
  readonly cut_db: number;
  readonly cutAt_hz: number | null;
}

export type FitWarning =
  /** Fitted to one place: a head moves by more than that. */
  | { readonly kind: 'one seat' }
  | { readonly kind: 'worse at a seat'; readonly seat: string; readonly by_db: number }
  | { readonly kind: 'null left'; readonly seat: string; readonly null: Null }
  | {
      readonly kind: 'boost in a null';
      readonly seat: string;
      readonly frequency_hz: number;
      readonly level_db: number;
    }
  | { readonly kind: 'nothing to cut' }
  | { readonly kind: 'bands too few'; readonly left_db: number };
