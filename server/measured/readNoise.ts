// Recordings without a sweep as what they show: the background noise, and the tone of a sound calibrator.

import type { LevelCurve } from '../../core/measure/correction.ts';
import { noiseLevels, SHORTEST_NOISE_S } from '../../core/measure/noiseLevels.ts';
import type { NoiseFigures } from '../../core/measured/measuredFigures.ts';
import { NOTHING_READ, type TakeReading } from '../../core/measured/takeReading.ts';
import { readWav } from '../measure/readWav.ts';
import { fullScale_dbspl, readCalibrator } from './levelReference.ts';
import type { TakeFiles } from './readTake.ts';
import { takeFaults } from './takeFaults.ts';

/** Levels in sound pressure where full scale is known, otherwise against full scale. */
export function noiseFigures(
  signal: Float64Array,
  sampleRate_hz: number,
  correction: LevelCurve | null,
  full_dbspl: number | null,
): NoiseFigures {
  const { octaves, a_dbfs, whole_dbfs, length_s } = noiseLevels(signal, sampleRate_hz, correction);
  const offset_db = full_dbspl ?? 0;
  return {
    octaves: octaves.map(({ band, level_dbfs }) => ({
      frequency_hz: band.nominal_hz,
      level_db: level_dbfs + offset_db,
    })),
    a_db: a_dbfs + offset_db,
    whole_db: whole_dbfs + offset_db,
    basis: full_dbspl === null ? 'relative' : 'spl',
    length_s,
  };
}

const NO_LEVEL = 'no sound pressure level: nothing tells what full scale is';

export function readNoise(files: TakeFiles, correction: LevelCurve | null): TakeReading {
  const { file, channel, reference } = files;
  const { data, faults } = readWav(file);
  const own = takeFaults(faults, [channel]);
  const failed = (code: string, message: string): TakeReading => ({
    ...NOTHING_READ,
    faults: [...own, { code, severity: 'error', message }],
  });
  if (data === null) return { ...NOTHING_READ, faults: own };
  const signal = data.channels[channel - 1];
  if (signal === undefined)
    return failed(
      'measurement/no-channel',
      `there is no channel ${channel}: the file has ${data.channels.length}`,
    );
  if (signal.length < SHORTEST_NOISE_S * data.sampleRate_hz)
    return failed(
      'measurement/unreadable',
      `${(signal.length / data.sampleRate_hz).toFixed(2)} s are too short for a level of noise: ${SHORTEST_NOISE_S} s is the least`,
    );
  if (own.some(({ code }) => code === 'measurement/silent'))
    return { ...NOTHING_READ, faults: own };
  const full_dbspl = fullScale_dbspl(reference, correction);
  return {
    ...NOTHING_READ,
    faults: [
      ...own,
      ...(full_dbspl === null
        ? [{ code: 'measurement/no-level', severity: 'information', message: NO_LEVEL } as const]
        : []),
    ],
    noise: noiseFigures(signal, data.sampleRate_hz, correction, full_dbspl),
    refusals: full_dbspl === null ? [`${NO_LEVEL[0]?.toUpperCase()}${NO_LEVEL.slice(1)}`] : [],
  };
}

export function readTone(files: TakeFiles, correction: LevelCurve | null): TakeReading {
  const { reference, channel } = files;
  const calibrator = reference?.calibrator;
  if (!calibrator) return NOTHING_READ;
  const { figures, faults, fileFaults } = readCalibrator(calibrator, correction);
  return {
    ...NOTHING_READ,
    faults: [...takeFaults(fileFaults, [channel]), ...faults],
    calibrator: figures,
  };
}
