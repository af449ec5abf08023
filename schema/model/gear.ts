// A model of gear in SI, as `resolve` hands it to the computations: what a device can do and which settings it offers.

import type { Path } from './path.ts';
import type { Spectrum } from './quantities.ts';

export type GearKind =
  | 'loudspeaker'
  | 'subwoofer'
  | 'interface'
  | 'controller'
  | 'processor'
  | 'amplifier'
  | 'switch';

export type FilterFamily = 'butterworth' | 'linkwitz_riley' | 'bessel';

export interface Gear {
  readonly id: string;
  readonly kind: GearKind;
  readonly maker: string | null;
  readonly size: {
    readonly width_m: number;
    readonly depth_m: number;
    readonly height_m: number;
  } | null;
  readonly mass_kg: number | null;
  /** The natural high-pass of the loudspeaker; null for devices and where nothing was recorded. */
  readonly lowEnd: LowEnd | null;
  /** The upper end of a subwoofer's range. */
  readonly highEnd: {
    readonly minus6db_hz: number;
    readonly slope_db_oct: number;
    /** As its response file tells it; absent where none is named or read. */
    readonly response?: GearResponse;
  } | null;
  readonly maxLevel: MaxLevel | null;
  /** RMS volts at an input that drive a loudspeaker, amplifier or device to full output. */
  readonly fullLevelInput_v: number | null;
  /** RMS volts at an output for digital full scale (or the device's own maximum). */
  readonly fullLevelOutput_v: number | null;
  /** RMS volts, A-weighted, at each output without a signal; absent where not recorded. */
  readonly outputNoise_v?: number;
  /** Of a loudspeaker or subwoofer without a signal at 1 m, A-weighted; absent where not recorded. */
  readonly selfNoise_dba?: number;
  readonly gain_db: number | null;
  readonly power: {
    readonly idle_w: number | null;
    readonly rated_w: number | null;
    readonly inrush_a: number | null;
  } | null;
  /** Latency from any input to the named output (`driver` for a loudspeaker), seconds; `*` where one figure holds for all. */
  readonly latency_s: readonly { readonly port: string; readonly latency_s: number }[];
  readonly sampleRate_hz: number | null;
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
  readonly buses: readonly { readonly name: string; readonly sum_db: number }[];
  readonly paths: readonly GearPath[];
  readonly controls: readonly Control[];
  /** Response files that the model names; absent where it names none. */
  readonly responseFiles?: readonly ResponseFile[];
}

/** A response file that a model names: its path from the gear file's folder, and what of the model it tells. */
export interface ResponseFile {
  readonly file: string;
  /** Where the gear file names it. */
  readonly path: Path;
  readonly of:
    | { readonly kind: 'low_end' | 'high_end' }
    | { readonly kind: 'control'; readonly control: string; readonly choice: string };
}

/** A response as a file tells it, on the grid of `core/acoustics/sampledResponse.ts`. */
export interface GearResponse {
  /** Re the pass band; of a switch's position: re the neutral one. */
  readonly level_db: readonly number[];
  /** e^{+jωt}, unwrapped. */
  readonly phase_rad: readonly number[];
  /** `minimum` where the file has none: the least that the level asks for. */
  readonly phaseFrom: 'file' | 'minimum';
  /** What the file covers of the grid; beyond, it is continued as it falls. */
  readonly known_hz: readonly [number, number];
  /** Its lower and upper end, where the file reaches 6 dB below the pass band. */
  readonly low: RollOff | null;
  readonly high: RollOff | null;
}

export interface RollOff {
  readonly minus6db_hz: number;
  /** To the next 6 dB/octave. */
  readonly slope_db_oct: number;
}

export interface LowEnd {
  readonly minus6db_hz: number;
  /** 6, 12, 18, 24 …; what stands for it when only `kind` is known: sealed 12, vented 24. */
  readonly slope_db_oct: number;
  readonly kind: 'sealed' | 'vented' | null;
  readonly protection: { readonly frequency_hz: number; readonly slope_db_oct: number } | null;
  /** A response file was named; with phase in it, phase is more than a guess. */
  readonly responseFile: string | null;
  /** What it tells; absent where none is named or read. */
  readonly response?: GearResponse;
}

export interface MaxLevel {
  readonly distance_m: number;
  readonly space: 'full' | 'half';
  /** dB SPL, peak. */
  readonly peak_db: Spectrum;
}

/** One internal route, port or bus through stages to port, bus or `driver`, as the gear file draws it. */
export interface GearPath {
  readonly from: string;
  readonly stages: readonly string[];
  readonly to: string;
}

/** The stages that the format knows; every other stage is a switch that the model's controls name. */
export const STAGES = [
  'input_sensitivity',
  'gain',
  'level',
  'high_pass',
  'low_pass',
  'delay',
  'phase',
  'polarity',
  'eq',
  'limiter',
  'lfe_gain',
  'lfe_low_pass',
] as const;

export type StageKind = (typeof STAGES)[number] | 'switch';

/** How a number is really taken: a range with a step, or choices. SI; ascending. */
export interface Steps {
  readonly min: number | null;
  readonly max: number | null;
  readonly step: number | null;
  readonly choices: readonly number[] | null;
}

/**
 * One control of a device. `name` is its key under `settings`; `stages` are the stages on the paths that it sets
 * (a crossover sets two); `eachPort` where every port has one of its own.
 */
export type Control = {
  readonly name: string;
  readonly stages: readonly string[];
  readonly eachPort: boolean;
} & (
  | {
      readonly kind: 'filter';
      readonly family: FilterFamily;
      readonly frequency_hz: Steps;
      readonly slope_db_oct: Steps;
      readonly bypass: boolean;
    }
  | { readonly kind: 'delay'; readonly toldAs: DelayTelling; readonly delay_s: Steps }
  | { readonly kind: 'level'; readonly level_db: Steps }
  /** Volts RMS at the input for full output. */
  | { readonly kind: 'sensitivity'; readonly input_v: Steps }
  | { readonly kind: 'phase'; readonly phase_rad: Steps; readonly at_hz: number | null }
  | { readonly kind: 'polarity'; readonly choices: readonly string[] }
  | {
      readonly kind: 'eq';
      readonly bands: number;
      readonly frequency_hz: Steps;
      readonly gain_db: Steps;
      readonly q: Steps;
    }
  | {
      readonly kind: 'switch';
      readonly choices: readonly string[];
      /** What positions do to the response; absent where no file tells. */
      readonly responses?: readonly {
        readonly choice: string;
        readonly response: GearResponse;
      }[];
    }
);

/**
 * How a device is told a delay. For `samples` a step of one sample at `rate_hz`; for `added_path` a length that the device
 * turns into time with its own speed of sound; for `own_distance` the loudspeaker's distance, from which it works out all delays.
 */
export type DelayTelling =
  | { readonly as: 'time' }
  | { readonly as: 'samples'; readonly rate_hz: number | null }
  | { readonly as: 'added_path'; readonly speedOfSound_m_s: number }
  | { readonly as: 'own_distance'; readonly speedOfSound_m_s: number };
