// MeasuredFigures: what the takes of a room's sessions show, as plain data that crosses to the preview. SI units and decibels.
//
// Worked out in a third phase, from files; null or absent until they are read. A figure that a take does not support is null, with the
// reason among its `refusals`.

import type { Path } from '../../schema/model/path.ts';
import type { BackgroundFigures } from '../backgroundFigures.ts';
import type { Note } from '../setup.ts';

export interface MeasuredFigures {
  /** In the file's order. */
  readonly sessions: readonly MeasuredSession[];
  readonly notes: readonly Note[];
}

export interface MeasuredSession {
  readonly session: string;
  readonly path: Path;
  readonly date: string | null;
  readonly takes: readonly MeasuredTake[];
  /** Recordings in which nothing plays; absent only in figures made by hand. */
  readonly noise?: readonly MeasuredNoise[];
  readonly calibrator?: MeasuredCalibrator | null;
  readonly averages: readonly MeasuredAverage[];
}

export interface MeasuredTake {
  readonly take: string;
  readonly path: Path;
  /** As in the file: what was driven, what sounded, where the microphone was. */
  readonly drive: string | null;
  readonly sounding: readonly string[];
  readonly seat: string | null;
  readonly at: { readonly x_m: number; readonly y_m: number; readonly z_m: number } | null;
  /** What the file says that its times refer to. */
  readonly timing?: 'loopback' | 'acoustic' | 'none' | null;
  /** The file is still being read: nothing of it is known yet. */
  readonly isPending?: boolean;
  /** null where the file could not be read; `faults` says why. */
  readonly kind: 'text' | 'impulse' | 'recording' | null;
  readonly faults: readonly TakeFault[];
  /** null where the file could not be read. */
  readonly response: MeasuredResponse | null;
  /**
   * From the moment of playing; null without a timing reference. With `timing: acoustic` from the start of the file, which is the same
   * moment for all takes of the session but not that of playing: only differences between takes mean anything.
   */
  readonly arrival_s: number | null;
  /** `peak` of a full-range source, `slope` of the phase of a bass source. */
  readonly arrivalBy: 'peak' | 'slope' | null;
  readonly polarity: 'upright' | 'inverted' | 'undecided' | null;
  readonly level: {
    readonly level_db: number;
    readonly from_hz: number;
    readonly to_hz: number;
    /** `spl` where the file tells sound pressure levels; otherwise only differences between takes of one session mean anything. */
    readonly basis: 'spl' | 'relative';
  } | null;
  readonly octaves: readonly MeasuredDecay[];
  readonly thirdOctaves: readonly MeasuredDecay[];
  readonly signalToNoise: readonly {
    readonly frequency_hz: number;
    readonly signalToNoise_db: number;
  }[];
  /** Total harmonic distortion in the source's band, recordings only. */
  readonly distortion_ratio: number | null;
  /** Of the silence before a recorded sweep; null where there is too little of it. */
  readonly noise?: NoiseFigures | null;
  /** Sentences, ready to show: what this take cannot support, and why. */
  readonly refusals: readonly string[];
  readonly warnings: readonly string[];
  /** How it was read, for whoever wants to check; null where the file could not be read. */
  readonly how?: TakeHow | null;
}

export interface TakeHow {
  /** `24-bit integer` …; null for a text. */
  readonly encoding: string | null;
  readonly sampleRate_hz: number | null;
  readonly channelCount: number | null;
  /** Points of a text; null for a WAV file. */
  readonly pointCount: number | null;
  /** The part of the response of which the spectrum was taken, before and after the start of the sound. */
  readonly window: { readonly before_s: number; readonly after_s: number } | null;
  /** Where the source is within 10 dB of its strongest third octave. */
  readonly sourceBand: { readonly from_hz: number; readonly to_hz: number };
  /** Where in the file, or in what was deconvolved, the sound begins. */
  readonly placed_s: number | null;
  /** Arrival with the filters' own delay, of a bass source. */
  readonly withFilters_s: number | null;
  /** Way through the interface, taken off; of recordings with a wire. */
  readonly loopback_s: number | null;
  readonly recorded_dbfs: number | null;
  readonly noise_dbfs: number | null;
  /** Correction files that were taken off. */
  readonly corrections: readonly string[];
}

export interface TakeFault {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'information';
  /** A sentence that names no path of the machine. */
  readonly message: string;
  /** What of the take it is about; the take's `file` where absent. */
  readonly path?: Path;
}

/** The noise of a recording, or of the silence before a sweep. */
export interface NoiseFigures {
  /** Octaves, ascending, unweighted; those that the sample rate holds. */
  readonly octaves: readonly { readonly frequency_hz: number; readonly level_db: number }[];
  /** A-weighted mean level (L_Aeq); `spl` in dBA, `relative` against full scale. */
  readonly a_db: number;
  /** Unweighted, 20 Hz to 20 kHz. */
  readonly whole_db: number;
  readonly basis: 'spl' | 'relative';
  readonly length_s: number;
}

export interface MeasuredNoise {
  readonly recording: string;
  readonly path: Path;
  readonly seat: string | null;
  readonly at: MeasuredTake['at'];
  readonly isPending?: boolean;
  readonly faults: readonly TakeFault[];
  /** null where the file could not be read. */
  readonly noise: NoiseFigures | null;
  /** Against the noise curves; null where nothing tells sound pressure levels. */
  readonly background: BackgroundFigures | null;
  readonly refusals: readonly string[];
}

/** What the recording of a sound calibrator shows. */
export interface CalibratorFigures {
  readonly frequency_hz: number;
  readonly level_dbfs: number;
  /** The level that the calibrator makes, as the file tells it. */
  readonly level_dbspl: number;
  /** Sound pressure level of a sine at full scale. */
  readonly fullScale_dbspl: number;
  /** The longest stretch in which the tone is steady, and by how much it moves there. */
  readonly steady_s: number;
  readonly unsteady_db: number;
  /** What else there is, as a ratio of amplitudes. */
  readonly residual_ratio: number;
}

export interface MeasuredCalibrator {
  readonly path: Path;
  readonly isPending?: boolean;
  readonly faults: readonly TakeFault[];
  /** null where its file could not be read, or holds no steady tone. */
  readonly tone: CalibratorFigures | null;
}

/** Ascending; levels NaN-free: what the take does not support is null. */
export interface MeasuredResponse {
  readonly frequency_hz: readonly number[];
  readonly level_db: readonly (number | null)[];
  /** Against the moment of playing where that is known, otherwise against the arrival; null where the file has no phase. */
  readonly phase_rad: readonly (number | null)[] | null;
  readonly phaseFrom: 'playing' | 'arrival' | null;
  /** n of 1/n octave; null where the file was smoothed, or not, by whoever wrote it. */
  readonly smoothing: number | null;
}

export interface MeasuredDecay {
  readonly frequency_hz: number;
  readonly earlyDecay_s: number | null;
  readonly t20_s: number | null;
  readonly t30_s: number | null;
  /** Strongest modal ringing where the band is too narrow for a decay time. */
  readonly modalDecay_s: number | null;
}

export interface MeasuredAverage {
  readonly average: string;
  readonly path: Path;
  readonly takes: readonly string[];
  readonly by: 'power' | 'level' | 'vector';
  readonly response: MeasuredResponse | null;
  /** Why there is none, a sentence each. */
  readonly refusals?: readonly string[];
}
