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
   * `agrees`: nothing differs by more than the takes can show, and nothing that they could not show is left. `explained`: likely causes
   * are named. `undecided`: it differs, and the takes cannot tell why; or nothing differs, but would not either if a pair were swapped or
   * a polarity turned over.
   */
  readonly verdict: 'agrees' | 'explained' | 'undecided';
  /** Whether anything differs by more than the takes can show: tells both kinds of `undecided` apart. */
  readonly differs?: boolean;
  /** Ranked, likeliest explanation first; only causes large enough to be seen in these takes. */
  readonly causes: readonly LikelyCause[];
  /** Causes that these takes cannot tell apart, and the take that would. */
  readonly cannotTell: readonly string[];
  /** Other sessions of the same set-up whose takes were needed for this. */
  readonly pooledWith?: readonly string[];
  /** What other sessions' takes say to it, a sentence each. */
  readonly elsewhere?: readonly string[];
  /** Sessions of the same set-up that contradict what is named here, a sentence each. */
  readonly contradicted?: readonly Contradiction[];
}

export interface Contradiction {
  readonly by: string;
  /** The other session is the later one, and agrees with the file: it seems to have been put right. */
  readonly isPutRight: boolean;
  readonly message: string;
}

export interface LikelyCause {
  /** `swapped`, `polarity`, `delay`, `port`, `distance`, `air`, `dimension`, `moved`, `level`. */
  readonly kind: string;
  readonly path: Path;
  /** A sentence: what seems to be otherwise than the file says, with its figure. */
  readonly message: string;
  /** What recomputing with it explains: misfit before and after, in the same measure; of several causes at once, without and with this one. */
  readonly before: number;
  readonly after: number;
  /** Causes of one explanation have the same number, 1 the likeliest: only together do they explain the takes. */
  readonly explanation?: number;
  /** The others of its explanation, as after "together with"; absent where it explains alone. */
  readonly togetherWith?: readonly string[];
  /** Part of every explanation that comes into question, where these takes cannot tell which it is. */
  readonly isCertain?: boolean;
  /** Evidence, a sentence each. */
  readonly evidence: readonly string[];
  /** The edit that would make the file say what is there; null where the room is to be changed, not the file. */
  readonly fix: Fix | null;
  /** The edits of all causes of its explanation as one; null where fewer than two are edits of the file. */
  readonly allFix?: Fix | null;
}
