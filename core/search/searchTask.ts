// What is searched for and what is found: where subwoofers should stand and how they should be set, SI units.

import type { Steps } from '../../schema/model/gear.ts';
import type { ComplexResponse } from '../acoustics/complex.ts';
import type { Point3 } from '../acoustics/point.ts';
import type { PlacementCost } from './placementCost.ts';
import type { TransferMap } from './transferMap.ts';

/** What can be dialled in on one subwoofer, absolute. */
export interface SubSetting {
  readonly level_db: number;
  readonly delay_s: number;
  readonly inverted: boolean;
}

/** How far each setting may go; null where the device has none, or where it is not to be touched. */
export interface SettingRanges {
  readonly level_db: Steps | null;
  readonly delay_s: Steps | null;
  readonly canInvert: boolean;
}

export interface SearchedSub {
  readonly id: string;
  /** Where it may stand, and what that does at the seats. Subs that share one map are taken to be alike. */
  readonly map: TransferMap;
  /** What the sub makes of the signal, level, delay and polarity left out, by frequency: times a transfer it is its part at a seat. */
  readonly drive: ComplexResponse;
  readonly setting: SubSetting;
  readonly ranges: SettingRanges;
}

export interface PlacementTask {
  /** One to four, all maps on one grid of frequencies and for the same seats. */
  readonly subs: readonly SearchedSub[];
  /** What else sounds at each seat, as it is set: the mains through their filters; null where the subs are judgedCount alone. */
  readonly fixed: readonly ComplexResponse[] | null;
  /**
   * How many channels are judgedCount together: the seats of a map are then all seats for the first channel, all for the next … , and
   * spreads are taken within each. 1 where there is but one.
   */
  readonly channelCount: number;
  /** By frequency; null for flat. */
  readonly target_db: ArrayLike<number> | null;
  readonly cost: PlacementCost;
  /** The seat whose level and flatness are told. */
  readonly referenceSeatIndex: number;
  /** Centres of two subs are at least so far apart; 0 asks for different places only. */
  readonly apart_m: number;
  /** How many clearly different ones are wanted, and how far apart they have to be. */
  readonly candidateCount: number;
  readonly different_m: number;
  /** The planes that halve the room, for arrangements of four that mirror each other; null where it has none. */
  readonly halves: { readonly x_m: number; readonly y_m: number } | null;
  /** Where the crossover lies, for the first trials of delay; null where nothing is crossed over. */
  readonly crossover_hz: number | null;
}

export interface Placed {
  /** By sub. */
  readonly positions: readonly Point3[];
  readonly settings: readonly SubSetting[];
}

export interface PlacementCandidate extends Placed {
  readonly cost_db: number;
  /** At the reference seat: standard deviation over frequency of the level re the target, mean of the channels. */
  readonly flatness_db: number;
  /** Over the seats: standard deviation, averaged over frequency; 0 for one seat. */
  readonly spread_db: number;
  readonly variance_db2: number;
  /** Mean power over the grid at the reference seat, the channels' mean, dB re the drives' unit. */
  readonly output_db: number;
  /** By sub: how far it can be moved before the response changes by 3 dB; null where the map shows no such place. */
  readonly forgiveness_m: readonly (number | null)[];
  /** By seat and frequency, dB re the drives' unit. */
  readonly levels_db: readonly Float64Array[];
  /** In what it is the best of those shown. */
  readonly bestIn: readonly ('cost' | 'flatness' | 'spread' | 'output' | 'forgiveness')[];
}

export interface PlacementResult {
  /** Best first, clearly different ones. Empty where no place is allowed. */
  readonly candidates: readonly PlacementCandidate[];
  /** How many placements were judged. */
  readonly judgedCount: number;
  /** Whether every placement of the grid was judgedCount with the settings as given. */
  readonly exhaustive: boolean;
}
