// The room's background noise: its rating, the band that decides it, and each octave beside the curves of the standards.

import type { Path } from '../schema/model/path.ts';

export interface BackgroundFigures {
  /** What the file gives. */
  readonly from: 'nr' | 'nc' | 'level' | 'bands';
  /** Where it stands in the file. */
  readonly path: Path;
  /** Noise rating, as given or of the bands, not rounded; null where one other figure leaves it open. */
  readonly nr: number | null;
  /** The octave that decides it, nominal; null without bands. */
  readonly governing_hz: number | null;
  /** The noise ratings that a criterion or a level in dBA leaves possible, least and most; null for the others. */
  readonly nrRange: readonly [number, number] | null;
  /** Noise criterion, as given or of the bands. */
  readonly nc: number | null;
  readonly ncGoverning_hz: number | null;
  /** The whole noise, as given in dBA or the sum of the bands. */
  readonly level_dba: number | null;
  /** The level of the NR curve that is the most the standards allow: a louder noise exceeds it somewhere. */
  readonly limit_dba: number;
  /** Octaves, ascending; empty where the file gives no bands. */
  readonly bands: readonly NoiseBand[];
}

export interface NoiseBand {
  /** Nominal. */
  readonly frequency_hz: number;
  readonly level_db: number;
  /** The NR curve that this level lies on. */
  readonly nr: number;
  /** The curves that the standards prefer and allow, in this band. */
  readonly preferred_db: number;
  readonly limit_db: number;
  /** Beyond the limit as both are told, to a tenth of a decibel. */
  readonly isBeyond: boolean;
  /** Where it stands in the file; of third octaves the loudest of the three. */
  readonly path: Path;
}
