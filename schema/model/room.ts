// One room in SI, gear and files joined: what the computations take. No text, no ranges; a path leads back to the file.

import type { Gear } from './gear.ts';
import type { Path } from './path.ts';
import type { Severity } from './problem.ts';
import type { Gap, Habits, Point, Spectrum } from './quantities.ts';
import type { ListeningCheck, MeasuringSession } from './sessions.ts';

/**
 * Everything `core` knows of a room. A field that is null was not recorded, is unknown or could not be read: `gaps` says which.
 * Lists are in the file's order. Ids are unique among speakers, subwoofers and devices together.
 */
export interface Room {
  readonly name: string | null;
  readonly space: Space;
  readonly air: AirGiven;
  readonly seats: readonly Seat[];
  readonly speakers: readonly Speaker[];
  readonly subwoofers: readonly Speaker[];
  readonly devices: readonly Device[];
  readonly wiring: readonly Connection[];
  readonly circuits: readonly Circuit[];
  /** The physical runs whose ends and lengths are known; absent where the file records none. */
  readonly cables?: readonly Cable[];
  readonly settings: readonly DeviceSettings[];
  readonly sets: readonly SpeakerSet[];
  readonly targets: Targets;
  readonly policy: Policy;
  readonly accepted: readonly Acceptance[];
  readonly sessions?: readonly MeasuringSession[];
  readonly listening?: readonly ListeningCheck[];
  /** The checks that the facility asks for; their paths lead into its file. */
  readonly askedListening?: readonly ListeningCheck[];
  readonly signedOff: SignedOff | null;
  readonly gaps: readonly Gap[];
  /** Places of the file with an error in them, told by whoever reads it; empty for the whole file. */
  readonly faulty?: readonly Path[];
  /** Stated ± in SI, by the path's text (`space.size.depth`). */
  readonly plusMinus: Readonly<Record<string, number>>;
  /** Notes of the file, for the sheet. */
  readonly notes: readonly { readonly path: Path; readonly text: string }[];
  readonly habits: Habits;
}

export interface Space {
  /** A box where width, depth and height are given; a plan otherwise. null where neither can be read. */
  readonly shape: BoxShape | PlanShape | null;
  /** Under which keys the file gives a plan's heights: `height`, or those below `ceiling`. */
  readonly heightKeys?: readonly (readonly string[])[];
  readonly surfaces: readonly Surface[];
  /** Measured decay times in seconds, by band centre. */
  readonly decayTime_s: Spectrum | null;
  readonly backgroundNoise: BackgroundNoise | null;
  readonly fixtures: readonly Fixture[];
}

/** As the file tells it: one of the four; the others null or left out. */
export interface BackgroundNoise {
  /** The noise rating that the noise stays below. */
  readonly nr: number | null;
  /** The noise criterion that the noise stays below. */
  readonly nc?: number | null;
  /** The whole noise as one level re 20 µPa. */
  readonly level?: NoiseLevel | null;
  /** In the file's order; `key` is the band as written, its place in the file. */
  readonly bands?: readonly (NoiseLevel & {
    readonly key: string;
    readonly frequency_hz: number;
  })[];
}

export interface NoiseLevel {
  readonly level_db: number;
  readonly weighting: 'A' | 'C' | 'Z';
}

export interface BoxShape {
  readonly kind: 'box';
  readonly width_m: number;
  readonly depth_m: number;
  readonly height_m: number;
}

/** A simple polygon; wall i runs from corner i to corner i + 1 and bears a name. Either way round. */
export interface PlanShape {
  readonly kind: 'plan';
  readonly walls: readonly { readonly name: string; readonly x_m: number; readonly y_m: number }[];
  /** Ceiling height as a plane: z = height_m + slopeX x + slopeY y. Flat where both slopes are 0. null where not recorded. */
  readonly ceiling: {
    readonly height_m: number;
    readonly slopeX: number;
    readonly slopeY: number;
  } | null;
}

/** `name` is floor, ceiling, or a wall's name (front, back, left, right for a box). */
export interface Surface {
  readonly name: string;
  readonly covering: Covering;
}

export type Covering =
  | { readonly kind: 'material'; readonly material: string }
  | { readonly kind: 'absorption'; readonly absorption: Spectrum }
  | {
      readonly kind: 'shares';
      readonly shares: readonly { readonly material: string; readonly share: number }[];
    }
  | { readonly kind: 'admittance'; readonly real: number; readonly imaginary: number };

export type Fixture = { readonly id: string } & (
  | {
      readonly kind: 'keep_clear' | 'obstacle';
      readonly x_m: readonly [number, number] | null;
      readonly y_m: readonly [number, number] | null;
      readonly z_m: readonly [number, number] | null;
      readonly because: string | null;
    }
  | {
      readonly kind: 'panel';
      readonly wall: string;
      readonly along_m: readonly [number, number] | null;
      readonly z_m: readonly [number, number] | null;
      readonly covering: Covering | null;
    }
);

export interface AirGiven {
  readonly temperature_k: number | null;
  readonly relativeHumidity: number | null;
  readonly pressure_pa: number | null;
  /** Stated outright; overrides the rest. */
  readonly speedOfSound_m_s: number | null;
}

export interface Seat {
  readonly id: string;
  readonly at: Point | null;
  /** The first seat with the role `reference`; the first seat where none has it. */
  readonly isReference: boolean;
  readonly role: string | null;
}

/** A loudspeaker or subwoofer in its place. */
export interface Speaker {
  readonly id: string;
  readonly gear: Gear | null;
  /** The gear model's id as written, even where no such model was found. */
  readonly gearId: string | null;
  readonly item: string | null;
  /** ITU-R channel label (L, R, C, LFE, M+110 …); null for subwoofers and where not recorded. */
  readonly channel: string | null;
  readonly at: Point | null;
  /** The seat it points at. */
  readonly aim: string | null;
  /** The point it points at, where the file gives one in place of a seat. */
  readonly aimAt?: Point | null;
  /** The surface it is built into, if any. */
  readonly flushIn: string | null;
}

export interface Device {
  readonly id: string;
  readonly gear: Gear | null;
  readonly gearId: string | null;
  /** What each source output carries, where the file says so. */
  readonly channels: readonly { readonly port: string; readonly channel: string }[];
  /** Where it stands; absent where the file does not say. */
  readonly at?: Point;
}

/** One physical run between two things. */
export interface Cable {
  readonly id: string;
  readonly from: CableEnd;
  readonly to: CableEnd;
  readonly length_m: number | null;
  /** null where the file does not say. */
  readonly kind: CableKind | null;
  /** What is written on it. */
  readonly label: string | null;
}

export interface CableEnd {
  readonly device: string;
  /** null where the file names the thing alone. */
  readonly port: string | null;
}

export const CABLE_KINDS = [
  'balanced',
  'unbalanced',
  'digital',
  'network',
  'optical',
  'loudspeaker',
  'mains',
] as const;

export type CableKind = (typeof CABLE_KINDS)[number];

/** One line of `wiring`; `index` is its place in that list. */
export interface Connection {
  readonly index: number;
  readonly from: { readonly device: string; readonly port: string };
  readonly to: { readonly device: string; readonly port: string };
}

export interface Circuit {
  readonly id: string;
  readonly rating_a: number | null;
  readonly voltage_v: number | null;
  readonly feeds: readonly string[];
}

/** What is dialled in on one device: for the device, for its ports, for the sets it switches. */
export interface DeviceSettings {
  readonly device: string;
  readonly sampleRate_hz: number | null;
  readonly values: readonly SettingValue[];
}

/**
 * One setting. `control` is its key; `port` or `set` where it stands under one. `path` leads to it in the file.
 * Numbers are SI. `unit` and `told` keep what was written, for messages and for ticks ("60 samples").
 */
export type SettingValue = {
  readonly control: string;
  readonly port: string | null;
  readonly set: string | null;
  readonly path: Path;
  readonly told: string;
} & (
  | {
      readonly kind: 'filter';
      readonly frequency_hz: number | null;
      readonly slope_db_oct: number | null;
    }
  | { readonly kind: 'bypass' }
  | { readonly kind: 'delay'; readonly delay_s: number }
  /** Told in samples with no rate known: cannot be turned into time. */
  | { readonly kind: 'samples'; readonly count: number }
  /** Told as a length (added path, or the loudspeaker's own distance). */
  | { readonly kind: 'length'; readonly length_m: number }
  | { readonly kind: 'level'; readonly level_db: number }
  | { readonly kind: 'voltage'; readonly input_v: number }
  | { readonly kind: 'phase'; readonly phase_rad: number }
  | {
      readonly kind: 'eq';
      readonly bands: readonly {
        readonly name: string;
        readonly frequency_hz: number | null;
        readonly gain_db: number | null;
        readonly q: number | null;
      }[];
    }
  | { readonly kind: 'choice'; readonly choice: string }
  | { readonly kind: 'unknown' }
);

export interface SpeakerSet {
  readonly id: string;
  readonly speakers: readonly string[];
  readonly subwoofers: readonly string[];
  readonly layout: string | null;
}

export interface Targets {
  /** A layout of ITU-R BS.2051, as written ("0+2+0"). */
  readonly layout: string | null;
  readonly referenceLevel: {
    readonly level_db: number;
    readonly weighting: 'A' | 'C' | 'Z';
  } | null;
  readonly monitorControl: { readonly position: string | null } | null;
  /** dB by frequency; an empty spectrum means flat. */
  readonly curve: Spectrum | null;
}

/** What the facility asks of this room, a room's own values already laid over it. Tolerances in SI by their key. */
export interface Policy {
  readonly id: string | null;
  readonly layouts: readonly string[];
  readonly referenceLevel: {
    readonly level_db: number;
    readonly weighting: 'A' | 'C' | 'Z';
  } | null;
  readonly recheck_months: number | null;
  readonly tolerances: Readonly<Record<string, number>>;
  readonly severity: Readonly<Record<string, Severity | 'off'>>;
}

export interface Acceptance {
  readonly id: string;
  readonly finding: string;
  /** The thing's path as written, such as `speakers.right`. */
  readonly about: string | null;
  readonly because: string | null;
  /** ISO date, or null for no end. */
  readonly until: string | null;
}

export interface SignedOff {
  readonly date: string | null;
  readonly by: string | null;
  readonly setup: string | null;
  readonly recheck_months: number | null;
}
