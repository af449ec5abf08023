// What can be told of one take: plain data, a figure that the take does not support is null with the reason beside it.

import type { FrequencyBand } from '../acoustics/thirdOctave.ts';
import type { BandDecay } from './bandDecay.ts';
import type { Distortion } from './distortion.ts';
import type { Ringing } from './ringing.ts';
import type { ResponseWindow } from './window.ts';

export interface TakeFigures {
  readonly sampleRate_hz: number;
  /** Where the source is within 10 dB of its strongest third octave. */
  readonly sourceBand: { readonly from_hz: number; readonly to_hz: number };
  readonly arrival: ArrivalFigures;
  readonly polarity: PolarityFigures;
  readonly level: LevelFigures;
  readonly response: ResponseFigures;
  /** Per third octave; empty where the response is too short for noise to be read at its end. */
  readonly signalToNoise: readonly BandSignalToNoise[];
  readonly octaves: readonly BandFigures[];
  readonly thirdOctaves: readonly BandFigures[];
  /** Only from the recording of a sweep. */
  readonly distortion: Distortion | null;
  readonly warnings: readonly TakeWarning[];
}

export interface ArrivalFigures {
  /** After playing began; null without a timing reference. */
  readonly arrival_s: number | null;
  readonly refusal: 'no-timing-reference' | null;
  /** From the first sample of the file, or of what was deconvolved. */
  readonly place_s: number;
  /** `peak` of a full-range source; `slope` of the phase of a bass source. */
  readonly method: 'peak' | 'slope';
  /** With the filters' own delay, of a bass source; null for the other. */
  readonly withFilters_s: number | null;
  readonly band: { readonly from_hz: number; readonly to_hz: number } | null;
}

export interface PolarityFigures {
  readonly polarity: 'upright' | 'inverted' | 'undecided';
  readonly method: 'peak' | 'slope';
}

export interface LevelFigures {
  /** Mean power of the response over the band; from a recorded sweep: output of the microphone's input over what was played. */
  readonly level_db: number;
  readonly from_hz: number;
  readonly to_hz: number;
}

export interface ResponseFigures {
  readonly frequencies_hz: Float64Array;
  /** NaN where the take does not support it (`refused`). */
  readonly levels_db: Float64Array;
  /** Against the arrival, in (−π, π]; NaN likewise. */
  readonly phase_rad: Float64Array;
  readonly minimumPhase_rad: Float64Array;
  /** n of 1/n octave, mean of power. */
  readonly smoothingCount: number;
  readonly window: ResponseWindow;
  /** Third octaves in which the signal is less than 20 dB above the noise. */
  readonly refused: readonly BandSignalToNoise[];
}

export interface BandSignalToNoise {
  readonly band: FrequencyBand;
  readonly signalToNoise_db: number;
}

export interface BandFigures extends BandDecay {
  /** Where the band is too narrow for a decay time: what rings in it, strongest first. */
  readonly ringings: readonly Ringing[];
}

export type TakeWarning =
  | { readonly kind: 'later-peak-higher'; readonly higher_db: number }
  | { readonly kind: 'short-response'; readonly length_s: number }
  | { readonly kind: 'window-coarse'; readonly lowest_hz: number }
  | { readonly kind: 'phase-scatter'; readonly scatter_rad: number }
  | { readonly kind: 'not-straight'; readonly count: number }
  | { readonly kind: 'double-slope'; readonly count: number };
