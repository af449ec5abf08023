// VerificationFigures: the measurements held against the plan, and what would explain where they differ. Plain data, SI units.

import type { Path } from '../../schema/model/path.ts';
import type { Fix } from '../finding.ts';

export interface VerificationFigures {
  /** One entry a take that could be compared, in the file's order. */
  readonly takes: readonly TakeComparison[];
  /** One entry a session with a take that could be compared. */
  readonly sessions: readonly SessionVerdict[];
}

/** Measured minus planned throughout; null where either side is not known. */
export interface TakeComparison {
  readonly session: string;
  readonly take: string;
  readonly path: Path;
  readonly arrival: {
    readonly planned_s: number;
    readonly measured_s: number;
    readonly off_s: number;
  } | null;
  readonly polarity: {
    readonly planned: 'upright' | 'inverted';
    readonly measured: 'upright' | 'inverted' | 'undecided';
    readonly agrees: boolean | null;
  } | null;
  /** Levels of takes without calibration are compared after the session's common offset is taken out. */
  readonly level: {
    readonly off_db: number;
    readonly from_hz: number;
    readonly to_hz: number;
    readonly basis: 'spl' | 'relative';
  } | null;
  readonly response: {
    readonly frequency_hz: readonly number[];
    readonly planned_db: readonly number[];
    readonly lower_db: readonly number[] | null;
    readonly upper_db: readonly number[] | null;
    readonly measured_db: readonly (number | null)[];
    /** Mean removed, over the band that both cover. */
    readonly rms_db: number;
    readonly worst: { readonly frequency_hz: number; readonly off_db: number };
    /** Share of the compared frequencies inside the envelope; null without one. */
    readonly inside: number | null;
  } | null;
  readonly decay: readonly {
    readonly frequency_hz: number;
    readonly planned_s: number;
    readonly measured_s: number;
  }[];
  /** A few words: "agrees", "0.52 ms late", "polarity turned". */
  readonly summary: string;
}

export interface SessionVerdict {
  readonly session: string;
  /**
   * `agrees`: nothing differs by more than the takes can show. `explained`: a likely cause is named. `undecided`: it differs, and the takes
   * cannot tell why.
   */
  readonly verdict: 'agrees' | 'explained' | 'undecided';
  /** Ranked, likeliest first; only causes large enough to be seen in these takes. */
  readonly causes: readonly LikelyCause[];
  /** Causes that these takes cannot tell apart, and the take that would. */
  readonly cannotTell: readonly string[];
}

export interface LikelyCause {
  /** `swapped`, `polarity`, `delay`, `port`, `distance`, `air`, `dimension`, `moved`, `level`. */
  readonly kind: string;
  readonly path: Path;
  /** A sentence: what seems to be otherwise than the file says, with its figure. */
  readonly message: string;
  /** What recomputing with it explains: misfit before and after, in the same measure. */
  readonly before: number;
  readonly after: number;
  /** Evidence, a sentence each. */
  readonly evidence: readonly string[];
  /** The edit that would make the file say what is there; null where the room is to be changed, not the file. */
  readonly fix: Fix | null;
}
