// What sound pressure level full scale is: by the recording of a sound calibrator, or as the file tells it.

import { type CalibratorTone, calibratorTone } from '../../core/measure/calibratorTone.ts';
import { heldAt_db, type LevelCurve } from '../../core/measure/correction.ts';
import type { CalibratorFigures, TakeFault } from '../../core/measured/measuredFigures.ts';
import type { FileFault } from '../measure/fileFault.ts';
import { readWav } from '../measure/readWav.ts';

export interface CalibratorFile {
  readonly bytes: Uint8Array;
  /** From 1. */
  readonly channel: number;
  readonly level_dbspl: number;
  /** null where nobody says: one of the usual ones. */
  readonly frequency_hz: number | null;
}

export interface LevelReference {
  readonly calibrator: CalibratorFile | null;
  /** As written; a calibrator's recording counts before it. */
  readonly fullScale_dbspl: number | null;
}

export interface CalibratorReading {
  readonly figures: CalibratorFigures | null;
  /** What is wrong with the tone. */
  readonly faults: readonly TakeFault[];
  /** What is wrong with the file. */
  readonly fileFaults: readonly FileFault[];
}

/** @source IEC 60942 (from memory): frequencies of usual calibrators, and pistonphones */
const USUAL_HZ = [250, 1000] as const;
/** Of its frequency. @source IEC 60942 class 2 (from memory) */
const OFF_RATIO = 0.02;
/** Its distortion, and noise. @source IEC 60942 class 2 (from memory): 4 % */
const MOST_RESIDUAL = 0.04;
/** Above this it is no tone at all. */
const NO_TONE = 0.25;
/** Short-term fluctuation. @source IEC 60942 class 2 (from memory): 0.2 dB */
const MOST_UNSTEADY_DB = 0.2;
const LEAST_STEADY_S = 1;

/** @param correction of the microphone: the calibrator heard it too, at its own frequency */
export function readCalibrator(
  { bytes, channel, level_dbspl, frequency_hz }: CalibratorFile,
  correction: LevelCurve | null,
): CalibratorReading {
  const { data, faults: fileFaults } = readWav(bytes);
  const signal = data?.channels[channel - 1];
  if (data === null || signal === undefined) {
    const missing =
      data === null
        ? []
        : [told('error', `there is no channel ${channel}: the file has ${data.channels.length}`)];
    return { figures: null, faults: missing, fileFaults };
  }
  const tone = calibratorTone(signal, data.sampleRate_hz);
  if (tone === null || NO_TONE < tone.residual_ratio || tone.steady_s < LEAST_STEADY_S)
    return { figures: null, faults: [told('error', noTone(tone))], fileFaults };
  const own_db = correction === null ? 0 : heldAt_db(correction, tone.frequency_hz);
  return {
    figures: {
      // The spectrum tells it no finer.
      frequency_hz: Number(tone.frequency_hz.toPrecision(4)),
      level_dbfs: tone.level_dbfs,
      level_dbspl,
      fullScale_dbspl: level_dbspl - tone.level_dbfs + own_db,
      steady_s: tone.steady_s,
      unsteady_db: tone.unsteady_db,
      residual_ratio: tone.residual_ratio,
    },
    faults: doubts(tone, frequency_hz),
    fileFaults,
  };
}

/** Full scale in dB SPL; null where nothing tells it. */
export function fullScale_dbspl(
  reference: LevelReference | null | undefined,
  correction: LevelCurve | null,
): number | null {
  if (!reference) return null;
  const { calibrator } = reference;
  if (calibrator === null) return reference.fullScale_dbspl;
  return readCalibrator(calibrator, correction).figures?.fullScale_dbspl ?? null;
}

function noTone(tone: CalibratorTone | null): string {
  if (tone === null) return 'it holds no tone: half a second is the least';
  return tone.steady_s < LEAST_STEADY_S
    ? `no tone is steady for ${LEAST_STEADY_S} s in it`
    : `no single tone: beside ${hz(tone.frequency_hz)} there is ${percent(tone.residual_ratio)} of something else`;
}

function doubts(tone: CalibratorTone, wanted_hz: number | null): readonly TakeFault[] {
  const { frequency_hz, residual_ratio, unsteady_db } = tone;
  const isAt = (one_hz: number): boolean => Math.abs(frequency_hz / one_hz - 1) <= OFF_RATIO;
  const isOther = wanted_hz === null ? !USUAL_HZ.some(isAt) : !isAt(wanted_hz);
  const said =
    wanted_hz === null ? 'a calibrator’s is 250 Hz or 1 kHz' : `${hz(wanted_hz)} is said`;
  return [
    ...(isOther ? [told('warning', `its tone is at ${hz(frequency_hz)}, ${said}`)] : []),
    ...(MOST_RESIDUAL < residual_ratio
      ? [
          told(
            'warning',
            `beside the tone there is ${percent(residual_ratio)} of something else, at most ${percent(MOST_RESIDUAL)} is usual`,
          ),
        ]
      : []),
    ...(MOST_UNSTEADY_DB < unsteady_db
      ? [
          told(
            'warning',
            `its level moves by ${unsteady_db.toFixed(2)} dB, at most ${MOST_UNSTEADY_DB} dB is usual`,
          ),
        ]
      : []),
  ];
}

function told(severity: TakeFault['severity'], message: string): TakeFault {
  return { code: 'measurement/calibrator', severity, message };
}

function hz(frequency_hz: number): string {
  return frequency_hz < 999.5
    ? `${Number(frequency_hz.toPrecision(4))} Hz`
    : `${Number((frequency_hz / 1000).toPrecision(4))} kHz`;
}

function percent(ratio: number): string {
  return `${Number((ratio * 100).toPrecision(2))} %`;
}
