// A measured noise against the curves of noise ratings and criteria, as the file's own figures are.

import type { Path } from '../../schema/model/path.ts';
import type { BackgroundFigures } from '../backgroundFigures.ts';
import { backgroundOfOctaves } from '../parts/backgroundNoise.ts';
import type { NoiseFigures } from './measuredFigures.ts';

/** @returns null where the noise is only known against full scale, or in no octave of the curves */
export function noiseAgainstCurves(
  { basis, octaves, a_db }: NoiseFigures,
  path: Path,
): BackgroundFigures | null {
  if (basis !== 'spl' || octaves.length === 0) return null;
  const bands = octaves.map(({ frequency_hz, level_db }) => ({
    nominal_hz: frequency_hz,
    level_db,
    key: `${frequency_hz}`,
  }));
  return { ...backgroundOfOctaves(bands, path, () => path), level_dba: a_db };
}
