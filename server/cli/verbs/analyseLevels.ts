// What makes the levels of `groundbass analyse` absolute, and recordings in which nothing plays.

import type { LevelCurve } from '../../../core/measure/correction.ts';
import { rms_dbfs } from '../../../core/measure/level.ts';
import { SHORTEST_NOISE_S } from '../../../core/measure/noiseLevels.ts';
import type {
  CalibratorFigures,
  NoiseFigures,
  TakeFault,
} from '../../../core/measured/measuredFigures.ts';
import type { Measurement, TakeContext } from '../../measure/measurement.ts';
import type { NamedNoise } from '../../measure/noiseReport.ts';
import { type LevelReference, readCalibrator } from '../../measured/levelReference.ts';
import { noiseFigures, readNoise } from '../../measured/readNoise.ts';
import { takeFaults } from '../../measured/takeFaults.ts';
import type { Io } from '../io.ts';
import { readBytes } from '../measurementFiles.ts';
import { Misuse } from '../misuse.ts';

export interface LevelOptions {
  readonly noise: boolean;
  readonly calibrator?: string;
  readonly level: number;
  readonly fullScale?: number;
  readonly sweep?: string;
}

/** Full scale, and the calibrator's recording that it was read from. */
export interface FullScale {
  readonly reference: LevelReference | null;
  readonly level_dbspl: number | null;
  readonly calibrator: {
    readonly name: string;
    readonly tone: CalibratorFigures;
    readonly faults: readonly TakeFault[];
  } | null;
}

const UNKNOWN: FullScale = { reference: null, level_dbspl: null, calibrator: null };

export async function fullScaleOf(
  { noise, calibrator, level, fullScale, sweep }: LevelOptions,
  channel: number,
  correction: LevelCurve | null,
  io: Io,
): Promise<FullScale> {
  if (noise && sweep !== undefined)
    throw new Misuse('--noise is for recordings in which nothing plays: leave out --sweep');
  if (calibrator !== undefined && fullScale !== undefined)
    throw new Misuse('--calibrator and --full-scale tell the same: give one of them');
  const isAbsolute = calibrator !== undefined || fullScale !== undefined;
  if (isAbsolute && !noise && sweep === undefined)
    throw new Misuse(
      `${calibrator === undefined ? '--full-scale' : '--calibrator'} needs --noise or --sweep: of an impulse response nobody knows how loud it was`,
    );
  if (fullScale !== undefined)
    return {
      ...UNKNOWN,
      reference: { calibrator: null, fullScale_dbspl: fullScale },
      level_dbspl: fullScale,
    };
  if (calibrator === undefined) return UNKNOWN;
  const file = {
    bytes: await readBytes(calibrator, io),
    channel,
    level_dbspl: level,
    frequency_hz: null,
  };
  const { figures, faults, fileFaults } = readCalibrator(file, correction);
  const told = [...takeFaults(fileFaults, [channel]), ...faults];
  if (figures === null)
    throw new Misuse(`${calibrator}: ${told[0]?.message ?? 'it holds no steady tone'}`);
  return {
    reference: { calibrator: file, fullScale_dbspl: null },
    level_dbspl: figures.fullScale_dbspl,
    calibrator: { name: calibrator, tone: figures, faults: told },
  };
}

export function noiseOf(
  name: string,
  file: Uint8Array,
  { channel, correction }: TakeContext,
  { reference }: FullScale,
): NamedNoise {
  const { noise, faults } = readNoise(
    {
      records: 'noise',
      reference,
      file,
      sweep: null,
      corrections: [],
      channel,
      loopback: null,
      timing: null,
    },
    correction,
  );
  return { name, noise, faults };
}

/** Of a recorded sweep: its level as sound pressure, and the noise before it where there is a second of it. */
export function pressureOf(
  measurement: Measurement | null,
  { played, correction }: TakeContext,
  { level_dbspl }: FullScale,
): { readonly level_dbspl: number; readonly noise: NoiseFigures | null } | null {
  if (measurement?.kind !== 'take' || played === null || level_dbspl === null) return null;
  const { recorded, take, wav } = measurement;
  if (recorded === null) return null;
  const { quiet } = recorded;
  const heard_db =
    'design' in played.played ? played.played.design.level_dbfs : rms_dbfs(played.played.signal);
  return {
    level_dbspl: take.level.level_db + heard_db + level_dbspl,
    noise:
      SHORTEST_NOISE_S * wav.sampleRate_hz <= quiet.length
        ? noiseFigures(quiet, wav.sampleRate_hz, correction, level_dbspl)
        : null,
  };
}
