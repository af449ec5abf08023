// DriftFigures: what has moved between two dated sessions, take by take. Plain data, SI units; later minus earlier throughout.

import type { Path } from '../../schema/model/path.ts';
import type { SetupPart } from './setupParts.ts';

export interface DriftFigures {
  /** Each session against the one before it, in the order of their days; the newest against the oldest too, where they are not that. */
  readonly pairs: readonly SessionDrift[];
  /** What a response, or a level against the other takes, may have moved, dB, and who says so. */
  readonly limit_db: number;
  readonly limitFrom: 'policy' | 'practice';
}

export interface SessionDrift {
  readonly earlier: string;
  readonly later: string;
  readonly earlierDate: string;
  readonly laterDate: string;
  /** The later session's. */
  readonly path: Path;
  /** The parts of the set-up that changed in between; null where a fingerprint is missing or too short to tell. */
  readonly changed: readonly SetupPart[] | null;
  /** Taken off all levels: microphones, gains and monitor controls are set anew each time. 0 where all takes tell sound pressure. */
  readonly commonOffset_db: number;
  readonly takes: readonly TakeDrift[];
}

export interface TakeDrift {
  readonly earlierTake: string;
  readonly laterTake: string;
  /** The later take's. */
  readonly path: Path;
  readonly response: ResponseDrift | null;
  /** Beyond the common offset; null where there is nothing to hold it against. */
  readonly level_db: number | null;
  readonly arrival: {
    readonly moved_s: number;
    /** What the two sessions' temperatures explain of it; null where a temperature is not known. */
    readonly byAir_s: number | null;
    readonly limit_s: number;
  } | null;
  readonly isPolarityTurned: boolean;
  /** Octaves with a T20 in both; the limit is what two measurements of one decay may differ by. */
  readonly decay: readonly {
    readonly frequency_hz: number;
    readonly earlier_s: number;
    readonly later_s: number;
    readonly limit_s: number;
  }[];
  /** What has moved by more than its limit. Nothing is judged where the set-up is known to have changed. */
  readonly moved: readonly Moved[];
}

export type Moved = 'response' | 'level' | 'arrival' | 'polarity' | 'decay';

/** Third-octave levels, the take's own mean difference taken off. */
export interface ResponseDrift {
  readonly frequency_hz: readonly number[];
  readonly moved_db: readonly number[];
  readonly rms_db: number;
  readonly worst: { readonly frequency_hz: number; readonly moved_db: number };
}
