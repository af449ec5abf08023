// Setup: everything computed about one room. Hints, hovers, findings, the sheet and the JSON figures only read it.
//
// Plain data (it crosses to the preview as JSON), SI units. A figure that cannot be computed is null and `notes` says why.

import type { FilterFamily, StageKind } from '../schema/model/gear.ts';
import type { Path } from '../schema/model/path.ts';
import type { Room } from '../schema/model/room.ts';
import type { BackgroundFigures } from './backgroundFigures.ts';
import type { FieldFigures } from './fieldFigures.ts';
import type { Finding, Fix } from './finding.ts';
import type {
  Attenuation,
  BassSum,
  CalibrationTarget,
  ChannelReach,
  GainChain,
  NamedReference,
  PairLevel,
  ReachFigures,
} from './levelFigures.ts';
import type { MeasuredFigures } from './measured/measuredFigures.ts';
import type { VerificationFigures } from './measured/verification.ts';
import type { NoiseTrim, SeatNoise } from './noiseFigures.ts';
import type { DriftFigures } from './record/driftFigures.ts';
import type { RecordFigures } from './record/recordFigures.ts';

export interface Setup {
  readonly room: Room;
  readonly air: AirFigures;
  /** null while the room's size cannot be read. */
  readonly space: SpaceFigures | null;
  /** The background noise; null where the file says nothing of it, absent only in hand-made setups. */
  readonly background?: BackgroundFigures | null;
  readonly referenceSeat: string | null;
  readonly seats: readonly SeatFigures[];
  readonly signalPaths: readonly SignalPath[];
  readonly crossovers: readonly CrossoverFigures[];
  /** One entry a crossover, in rooms with two seats or more. */
  readonly seatDelays?: readonly SeatDelayFigures[];
  readonly layouts: readonly LayoutFigures[];
  readonly boundaries: readonly BoundaryFigures[];
  /** One entry a subwoofer. */
  readonly placement?: readonly PlacementFigures[];
  readonly levels: LevelFigures;
  readonly power: PowerFigures;
  /** What to dial in, device by device, in the order of `room.devices`, subwoofers, speakers. */
  readonly advice: readonly SettingAdvice[];
  /** The low end at each seat, worked out in a second phase; null or absent until then, and where the room has no size. */
  readonly field?: FieldFigures | null;
  /** What the takes of the room's sessions show, read in a third phase; null or absent until then, and where there are none. */
  readonly measured?: MeasuredFigures | null;
  /** The measurements held against the plan; null or absent until field and takes are there. */
  readonly verification?: VerificationFigures | null;
  /** What has moved between dated sessions; null or absent until takes are read, and where no two sessions have one in common. */
  readonly drift?: DriftFigures | null;
  /** What of the sessions, the sign-off and the listening checks still stands; absent only in hand-made setups. */
  readonly record?: RecordFigures;
  readonly cautions: readonly string[];
  readonly findings: readonly Finding[];
  readonly notes: readonly Note[];
}

/** Why a figure is null, or what was assumed in its place. */
export interface Note {
  readonly path: Path;
  readonly message: string;
}

export interface AirFigures {
  readonly temperature_k: number;
  readonly relativeHumidity: number;
  readonly pressure_pa: number;
  /** True where the file gives no temperature and the default stands in. */
  readonly assumed: boolean;
  readonly speedOfSound_m_s: number;
  readonly density_kg_m3: number;
  /** What 5 K more does to the speed of sound. */
  readonly speedChangePer5K_m_s: number;
  readonly source: string;
}

export interface SpaceFigures {
  readonly volume_m3: number | null;
  readonly floorArea_m2: number;
  readonly surfaceArea_m2: number | null;
  /** Broad-band decay time used for Schroeder's frequency and modes' bandwidths. */
  readonly decayTime: {
    readonly decayTime_s: number;
    readonly from: 'measured' | 'surfaces';
    /** By octave band. */
    readonly bands: readonly { readonly frequency_hz: number; readonly decayTime_s: number }[];
  } | null;
  readonly schroeder_hz: number | null;
  /** Box rooms only; null for other shapes. To 200 Hz, ascending. */
  readonly modes: readonly ModeFigures[] | null;
  readonly modeCount: {
    readonly limit_hz: number;
    readonly exact: number;
    readonly formula: number;
  } | null;
  readonly modeDensityAt100Hz_per_hz: number | null;
  readonly coincidences: readonly {
    readonly frequency_hz: number;
    readonly orders: readonly (readonly number[])[];
  }[];
  readonly bonello: {
    readonly bands: readonly {
      readonly frequency_hz: number;
      readonly count: number;
      readonly falls: boolean;
      readonly coincident: boolean;
    }[];
    readonly risesThroughout: boolean;
    readonly coincidencesCovered: boolean;
  } | null;
  readonly proportions: {
    /** Height : shorter plan side : longer plan side, height = 1. */
    readonly ratio: readonly [number, number, number];
    readonly walker: {
      readonly lower: number;
      readonly lengthOverHeight: number;
      readonly upper: number;
      readonly passes: boolean;
    };
    readonly nearIntegers: readonly { readonly sides: string; readonly ratio: number }[];
    /** The named ratio that lies nearest, and how far off (largest relative difference). */
    readonly nearestNamed: {
      readonly name: string;
      readonly ratio: readonly [number, number, number];
      readonly off: number;
    } | null;
  } | null;
  /** Nominal mean decay time of EBU Tech 3276 / ITU-R BS.1116 for this volume. */
  readonly nominalDecayTime_s: number | null;
}

export interface ModeFigures {
  readonly frequency_hz: number;
  /** Along depth (front–back), width, height: [nx, ny, nz] with x = width, y = depth, z = height of the room's axes. */
  readonly order: readonly [number, number, number];
  readonly kind: 'axial' | 'tangential' | 'oblique';
  readonly decayTime_s: number | null;
  readonly bandwidth_hz: number | null;
  /** |mode shape| at the source, 0 (a node) to 1. */
  readonly drivenBy: readonly { readonly source: string; readonly strength: number }[];
  readonly heardAt: readonly { readonly seat: string; readonly strength: number }[];
}

export interface SeatFigures {
  readonly id: string;
  readonly arrivals: readonly Arrival[];
  readonly angles: readonly {
    readonly source: string;
    /** + = the listener's left, as in ITU-R BS.2051. */
    readonly azimuth_rad: number;
    readonly elevation_rad: number;
  }[];
}

export interface Arrival {
  /** Speaker or subwoofer. */
  readonly source: string;
  /** The set of monitors for which it holds; absent where the source belongs to none. */
  readonly set?: string;
  readonly distance_m: number;
  readonly flight_s: number;
  /** Latency met along the wired path; null where the source is not reached or a latency on the way is not recorded. */
  readonly pathLatency_s: number | null;
  /** Delay dialled in along the path. */
  readonly pathDelay_s: number | null;
  /** flight + latency + delay. */
  readonly arrival_s: number | null;
  /** Behind the latest arrival of this seat's set; >= 0. */
  readonly early_s: number | null;
  /** The delay that its own delay stage should hold in all, so that everything arrives together. */
  readonly neededDelay_s: number | null;
  /** Index into `Setup.advice` of the setting that holds it. */
  readonly adviceIndex: number | null;
}

/** One way from a source's output to a driver. */
export interface SignalPath {
  readonly source: { readonly device: string; readonly port: string };
  /** The channel it carries; null where neither wiring nor file tells. */
  readonly channel: string | null;
  /** Speaker or subwoofer id. */
  readonly target: string;
  /** The set of monitors in which it is heard; absent where the target belongs to none. */
  readonly set?: string;
  readonly stages: readonly StageOnPath[];
  /** Indices into `room.wiring`. */
  readonly connections: readonly number[];
  readonly latency_s: number | null;
  readonly delay_s: number;
  /** Bus sums, level and gain stages dialled in; what is not dialled in counts as 0 dB. */
  readonly gain_db: number;
  readonly inverted: boolean;
}

export interface StageOnPath {
  readonly device: string;
  readonly stage: string;
  readonly kind: StageKind;
  /** The internal path's end ports, where per-port settings are looked for. */
  readonly fromPort: string;
  readonly toPort: string;
  /** Where the setting that governs it stands in the file, or would stand. null where the device offers no control. */
  readonly settingPath: Path | null;
}

export interface FilterChoice {
  readonly frequency_hz: number;
  readonly slope_db_oct: number;
  readonly family: FilterFamily;
}

export interface CrossoverFigures {
  /** The device that filters. */
  readonly device: string;
  readonly set: string | null;
  /** Where the crossover's setting stands in the file, or would stand. */
  readonly path: Path;
  readonly mains: readonly string[];
  readonly subs: readonly string[];
  /** The mains' own −6 dB point, the highest among them. */
  readonly mainsMinus6db_hz: number | null;
  /** As dialled in; null where nothing is, or `bypass`. */
  readonly current: CrossoverOutcome | null;
  readonly bypassed: boolean;
  /**
   * What the subs' other polarity would add where both sides count, as dialled in otherwise and once the delays are set (as the
   * arrivals stand where no delay can be set); < 0 where the polarity is right. Absent where nothing is dialled in.
   */
  readonly otherPolarity_db?: number;
  /** What is dialled in, with the polarity and delay that suit it best by phase; absent where nothing is dialled in. */
  readonly aligned?: CrossoverOutcome;
  /** The start that practice names, in the device's own steps. */
  readonly practice: CrossoverOutcome | null;
  /** What the acoustic sum says, best first, clearly different ones only. */
  readonly ranked: readonly CrossoverOutcome[];
  /** Starting value until a response with phase or a measurement makes it final; says what is uncertain. */
  readonly caveat: string | null;
  /** True where response files tell the phase of all mains and subwoofers: then what follows from it is no mere start. */
  readonly hasPhase?: boolean;
}

export interface CrossoverOutcome {
  readonly filter: FilterChoice;
  readonly polarity: 'normal' | 'inverted';
  /** What the sub's phase control stands at, a lag; absent where it has none or it plays no part. */
  readonly phase_rad?: number;
  /** Delay of the sub against the mains that goes with it (negative: the mains wait), both counted at the seat. */
  readonly subDelay_s: number;
  /** Largest minus smallest level of the sum from an octave below to an octave above the crossover, dB. */
  readonly ripple_db: number;
  readonly dip: { readonly frequency_hz: number; readonly level_db: number };
  readonly bump: { readonly frequency_hz: number; readonly level_db: number };
  /** Phase of the main against the sub at the crossover, and the worst within the overlap, −π … π. */
  readonly phaseAtCrossover_rad: number;
  readonly worstPhase_rad: number;
  readonly overlap_hz: readonly [number, number];
  /** For drawing: dB re the level far above the crossover. */
  readonly curve: {
    readonly frequency_hz: readonly number[];
    readonly main_db: readonly number[];
    readonly sub_db: readonly number[];
    readonly sum_db: readonly number[];
  };
  readonly reasons: readonly string[];
  /** What it costs in movement and loudness. */
  readonly cost?: CrossoverCost;
}

/** Of the mains and subwoofers that decide, at peaks; `costOf` says how. */
export interface CrossoverCost {
  /** The most air that the mains move, re a flat response at 100 Hz. */
  readonly displacement_db: number;
  /** Peak of the flat sum at 1 m at which the mains, the subwoofer, reach their limit, up to an octave above the crossover. */
  readonly mainMost_db: number | null;
  readonly subMost_db: number | null;
}

/** What one delay of the subwoofers does at several seats, where mains and subwoofers meet. */
export interface SeatDelayFigures {
  /** Where the crossover's setting stands. */
  readonly path: Path;
  readonly set: string | null;
  readonly mains: readonly string[];
  readonly subs: readonly string[];
  readonly crossover_hz: number;
  /** By how much the subwoofers should arrive behind the mains: by phase where that is known, else together. */
  readonly wanted_s: number;
  /** As dialled in. */
  readonly seats: readonly {
    readonly seat: string;
    /** The subwoofers behind the mains. */
    readonly difference_s: number;
    /** 2π f times what is off. */
    readonly phase_rad: number;
  }[];
  /** From the seat where the subwoofers are earliest to the one where they are latest; no delay changes it. */
  readonly spread_s: number;
  readonly choices: readonly SeatDelayChoice[];
}

export interface SeatDelayChoice {
  /** Right at the reference seat; least mean square over the seats; least at the worst seat. */
  readonly for: 'reference' | 'mean_square' | 'worst';
  /** More delay for the subwoofers than is dialled in; < 0 less, or the mains wait. */
  readonly more_s: number;
  readonly worstPhase_rad: number;
  readonly rmsPhase_rad: number;
  /** What the worst seat then loses in the sum at the crossover, equal levels: 20 lg cos(φ/2). */
  readonly worstLoss_db: number;
}

export interface LayoutFigures {
  /** "0+2+0". */
  readonly layout: string;
  readonly set: string | null;
  readonly seat: string;
  readonly positions: readonly {
    /** Standard label: M+030, LFE1 … */
    readonly label: string;
    /** Common channel name: L, R, C, Ls … */
    readonly channel: string;
    readonly speaker: string | null;
    readonly azimuth_rad: number | null;
    readonly elevation_rad: number | null;
    readonly wantAzimuth_rad: readonly [number, number];
    readonly wantElevation_rad: readonly [number, number];
    readonly fits: boolean | null;
  }[];
  readonly baseWidth_m: number | null;
  readonly listeningDistance_m: number | null;
  readonly source: string;
  /** The same positions from the other seats: how far each lies outside its angles, without any tolerance. */
  readonly otherSeats?: readonly SeatDeviation[];
}

export interface SeatDeviation {
  readonly seat: string;
  readonly positions: readonly {
    readonly label: string;
    readonly channel: string;
    readonly speaker: string;
    readonly azimuth_rad: number;
    /** Beyond the layout's range; 0 inside. */
    readonly beyondAzimuth_rad: number;
    readonly beyondElevation_rad: number;
  }[];
  /** Of the azimuths. */
  readonly worst_rad: number;
}

export interface BoundaryFigures {
  /** Speaker or subwoofer. */
  readonly source: string;
  /** Distance to each surface, nearest first; quarter-wave frequency for a listener far in front of it. */
  readonly surfaces: readonly {
    readonly surface: string;
    readonly distance_m: number;
    readonly quarterWave_hz: number;
  }[];
  /** Single reflections at the reference seat, by arrival. */
  readonly reflections: readonly {
    readonly surface: string;
    readonly pathDifference_m: number;
    readonly behind_s: number;
    readonly level_db: number;
    readonly notch_hz: number;
    readonly depth_db: number;
    /** Re the direct sound, mean of 1 kHz to 8 kHz, the loudspeaker's beam counted. */
    readonly early_db?: number;
  }[];
  /** Sound power against free field at 40 Hz, rigid nearest three surfaces (Waterhouse). Box rooms, subwoofers. */
  readonly powerGainAt40Hz_db: number | null;
}

/** Where a subwoofer stands against the places that practice avoids or begins with. */
export interface PlacementFigures {
  readonly source: string;
  /** Right of the middle of the width, behind the middle of the depth; box rooms only. */
  readonly fromWidthMidline_m: number | null;
  readonly fromDepthMidline_m: number | null;
  /** To the nearest corner of the plan. */
  readonly fromCorner_m: number | null;
  /** Nearer to the front wall than the line of the front pair; null without a pair. */
  readonly behindMains_m: number | null;
}

export interface LevelFigures {
  readonly connections: readonly {
    readonly connection: number;
    readonly fromFull_v: number | null;
    readonly toFull_v: number | null;
    /** How far the input's full level lies above the output's: < 0 can clip. */
    readonly margin_db: number | null;
  }[];
  readonly reference: {
    readonly stated_db: number | null;
    readonly weighting: 'A' | 'C' | 'Z' | null;
    readonly from: 'room' | 'policy' | null;
    readonly byChannelCount_dba: number | null;
    readonly byVolume_db: number | null;
    readonly channelCount: number;
  };
  /** How many channels' bass each sub carries and what their coherent sum costs. */
  readonly bass: readonly {
    readonly sub: string;
    readonly channels: readonly string[];
    readonly lfe: boolean;
    readonly coherentSum_db: number;
  }[];
  /** LFE +10 dB in band: where it is made; null where no LFE is wired. */
  readonly lfe: {
    readonly sub: string;
    readonly gain_db: number;
    readonly lowPass_hz: number | null;
  } | null;
  /** All main channels at the reference level, at the seat; hours a day by NIOSH. Only where the level is A-weighted or convertible. */
  readonly exposure: { readonly level_dba: number; readonly hours: number } | null;
  /** Peak of the LFE at full scale, +10 dB in band, at the reference level; null without a reference level or an LFE. */
  readonly lfePeak_dbc?: number | null;
  readonly chains?: readonly GainChain[];
  readonly reach?: readonly ReachFigures[];
  readonly channels?: readonly ChannelReach[];
  readonly pairs?: readonly PairLevel[];
  readonly attenuation?: readonly Attenuation[];
  readonly bassSums?: readonly BassSum[];
  /** What the electronics are heard by at the reference seat, one entry a set of whose noise something is recorded. */
  readonly noise?: readonly SeatNoise[];
  readonly noiseTrims?: readonly NoiseTrim[];
  readonly calibration?: readonly CalibrationTarget[];
  /** What documents name for a room like this, whatever the file states. */
  readonly named?: readonly NamedReference[];
}

export interface PowerFigures {
  readonly up: readonly PowerStep[];
  readonly down: readonly PowerStep[];
  readonly circuits: readonly {
    readonly circuit: string;
    readonly rated_a: number | null;
    readonly idle_w: number;
    readonly load_a: number;
    readonly inrush_a: number;
    /** load / rated; null where the rating or voltage is not recorded. */
    readonly share: number | null;
    /** Fed things whose power was not recorded. */
    readonly unknown: readonly string[];
  }[];
}

export interface PowerStep {
  readonly ids: readonly string[];
  readonly reason: string;
}

/** One setting: what it should be, in the device's own unit and steps, beside what the file has. */
export interface SettingAdvice {
  readonly device: string;
  readonly control: string;
  readonly port: string | null;
  readonly set: string | null;
  /** Where the setting stands, or would stand, in the file. */
  readonly path: Path;
  /** What the file has, as written; null where it has nothing. */
  readonly told: string | null;
  /** The exact answer in words and unit of the device ("1.27 ms"), before rounding. */
  readonly exact: string;
  /** What can be dialled in ("1.25 ms", "60 samples"): valid as the setting's text in the file. */
  readonly dialIn: string;
  /** Whether what the file has is as near as the device can be set. null where the file has nothing. */
  readonly agrees: boolean | null;
  /** What rounding leaves, in words ("+0.02 ms, 0.6° at 80 Hz"); null where nothing is left. */
  readonly residual: string | null;
  readonly residual_s: number | null;
  readonly residualPhase_rad: number | null;
  /** For delays: what is needed and what the file has, seconds; how far the need lies beyond the device's range, 0 inside. */
  readonly delay?: {
    readonly needed_s: number;
    readonly told_s: number | null;
    readonly beyond_s: number;
    readonly targets: readonly string[];
    /** What would be dialled in to align by phase at the crossover instead of by arrival; absent where that is the same. */
    readonly byPhase?: string;
  };
  /** A few words: why. */
  readonly reason: string;
  readonly source: string;
  /** `start` where it waits for a measurement. */
  readonly standing: 'computed' | 'start';
  /** The edit that dials it in. */
  readonly fix: Fix | null;
}
