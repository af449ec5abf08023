// What a room file says of its measurements and listening checks. Files are only named here: who reads them is another matter.

import type { Path } from './path.ts';
import type { Point } from './quantities.ts';
import type { DeviceSettings } from './room.ts';

export interface MeasuringSession {
  readonly id: string;
  readonly path: Path;
  /** ISO date. */
  readonly date: string | null;
  readonly by: string | null;
  /** The set-up's fingerprint as written. */
  readonly setup: string | null;
  readonly temperature_k: number | null;
  /** Files relative to the room's own. */
  readonly microphone: string | null;
  readonly interface: string | null;
  /** The recording of a sound calibrator, by which levels are sound pressure levels. */
  readonly calibrator?: MeasuringCalibrator | null;
  /** Sound pressure level of a sine at full scale of the microphone's channel, as written. */
  readonly fullScale_dbspl?: number | null;
  readonly takes: readonly MeasuringTake[];
  /** Recordings in which nothing plays. */
  readonly noise?: readonly NoiseRecording[];
  readonly averages: readonly MeasuringAverage[];
}

export interface MeasuringTake {
  readonly id: string;
  readonly path: Path;
  /** Relative to the room's file. */
  readonly file: string | null;
  /** Channel label on which the test signal was played. */
  readonly drive: string | null;
  /** Loudspeakers and subwoofers that were heard; empty where the file does not say. */
  readonly sounding: readonly string[];
  readonly seat: string | null;
  readonly at: Point | null;
  readonly bypassed: readonly string[];
  /** Settings that were different for this take only, as written, by device and control. */
  readonly changed: readonly {
    readonly device: string;
    readonly control: string;
    readonly told: string;
  }[];
  /** The same as values of the devices' controls, for whoever computes with them. */
  readonly changedSettings?: readonly DeviceSettings[];
  readonly timing: 'loopback' | 'acoustic' | 'none' | null;
  /** The file that was played, where `file` is the recording of a sweep; the session's where the take names none. */
  readonly sweep?: string | null;
  /** Channels of a WAV file from 1: the microphone's, and the one that recorded the output by a wire. */
  readonly channel?: number | null;
  readonly loopback?: number | null;
}

/** What is recorded without a sweep: no more than a file, and where the microphone was. */
export interface NoiseRecording {
  readonly id: string;
  readonly path: Path;
  readonly file: string | null;
  readonly channel: number | null;
  readonly seat: string | null;
  readonly at: Point | null;
}

export interface MeasuringCalibrator {
  readonly path: Path;
  readonly file: string | null;
  readonly channel: number | null;
  readonly level_dbspl: number | null;
  /** As written; one of the two usual ones where it is not. */
  readonly frequency_hz: number | null;
}

export interface MeasuringAverage {
  readonly id: string;
  readonly path: Path;
  readonly takes: readonly string[];
  readonly by: 'power' | 'level' | 'vector' | null;
}

export interface ListeningCheck {
  readonly id: string;
  readonly path: Path;
  readonly play: string | null;
  readonly listenFor: string | null;
  readonly level: { readonly level_db: number; readonly weighting: 'A' | 'C' | 'Z' } | null;
  readonly result: 'good' | 'doubtful' | 'bad' | null;
  readonly date: string | null;
  readonly by: string | null;
  /** The fingerprint of the set-up that was listened to, as written. */
  readonly setup?: string | null;
}
