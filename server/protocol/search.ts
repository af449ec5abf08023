// Our own messages about what was searched for: candidates and fits that can be tried on, and the room as it would be with one.

import type { SemanticEdit } from '../../core/finding.ts';
import type { Point } from '../../schema/model/quantities.ts';
import type { SetupAnswer } from './setup.ts';

/** What can be searched for: places for a subwoofer, for the main pair, for the reference seat; EQ of a device. */
export interface Wanted {
  readonly what: 'places' | 'mains' | 'seat' | 'eq';
  readonly id: string;
  /** EQ: the session whose takes it is fitted to; the prediction where absent. */
  readonly session?: string;
  /** EQ from takes: to these seats alone, and checked at the others that were measured. */
  readonly seats?: readonly string[];
}

/** Request: the setup as it would be with these edits; the file stays. null where the text has moved on or cannot be edited so. */
export const TRY_REQUEST = 'groundbass/try';
export interface TryParams {
  readonly uri: string;
  readonly version: number;
  readonly edits: readonly SemanticEdit[];
}
export type TryAnswer = SetupAnswer | null;

/** Part of a setup's answer: what was searched for in this file and still holds. */
export interface Found {
  readonly places: readonly FoundPlaces[];
  readonly fits: readonly FoundFit[];
}

export interface FoundPlaces {
  readonly what: 'subwoofer' | 'mains' | 'seat';
  /** What a person calls it: `sub`, `main pair`, `mix`. */
  readonly name: string;
  /** More than one: how much they differ is told. */
  readonly seatCount: number;
  /** The room as it stood, by the same measure; null where it had no place. */
  readonly current: PlaceFigures | null;
  /** Best first. */
  readonly candidates: readonly FoundPlace[];
  /** Why there are none, and what was assumed. */
  readonly notes: readonly string[];
}

export interface PlaceFigures {
  /** Standard deviation over frequency at the reference seat, and over the seats. */
  readonly flatness_db: number;
  readonly spread_db: number;
  /** null where it is not told. */
  readonly level_dbspl: number | null;
  /** How far it can be moved before the response changes by 3 dB; null where nothing near changes it so much. */
  readonly forgiveness_m: number | null;
}

export interface FoundPlace extends PlaceFigures {
  readonly at: Point;
  /** The other one of a pair. */
  readonly otherAt: Point | null;
  readonly bestIn: readonly string[];
  /** Settings that go with it, in words ("level 2.75 dB, delay 0.50 ms"); null where the device has none. */
  readonly settings: string | null;
  /** A measured response at this place counts, not the predicted one. */
  readonly isMeasured: boolean;
  readonly edits: readonly SemanticEdit[];
}

/** One equaliser and the bands found for it. */
export interface FoundFit {
  readonly device: string;
  /** `sub`, `proc.out_3`. */
  readonly name: string;
  /** The takes that it was fitted to; null where it was to the prediction. */
  readonly from: { readonly session: string; readonly takes: readonly string[] } | null;
  /** What it was fitted to, and how far from the target that is before and after. */
  readonly summary: string;
  /** In the device's own steps. */
  readonly bands: readonly string[];
  /** The file has these very bands. */
  readonly isWritten: boolean;
  /** Those that it was fitted to, then those that it was only checked at. */
  readonly seats: readonly FoundFitSeat[];
  readonly frequency_hz: readonly number[];
  /** What it costs, whom it harms, and what is left alone, a sentence each. */
  readonly remarks: readonly string[];
  readonly edits: readonly SemanticEdit[];
}

export interface FoundFitSeat {
  /** `mix`; `mix (left)` where the equaliser serves several loudspeakers. */
  readonly seat: string;
  readonly isFitted: boolean;
  readonly from: 'prediction' | 'measurement';
  /** RMS distance from the target. */
  readonly before_db: number;
  readonly after_db: number;
  readonly beforeLevel_db: readonly number[];
  readonly afterLevel_db: readonly number[];
  readonly target_db: readonly number[];
  /** Nulls that are left alone, each from and to. */
  readonly nulls_hz: readonly (readonly [number, number])[];
}
