// Levels of recorded noise, of full scale and of the curve that asks, as the sheet and the editor tell them.

import type { CalibratorFigures, NoiseFigures } from '../../../core/measured/measuredFigures.ts';
import type { NoiseLimit } from '../../../core/measured/noiseLimit.ts';
import type { Show } from '../../../core/show.ts';

/** `31.2 dBA`; against full scale where nothing tells more. */
export function weightedText({ a_db, basis }: NoiseFigures): string {
  return basis === 'spl' ? `${a_db.toFixed(1)} dBA` : `${a_db.toFixed(1)} dBFS, A-weighted`;
}

/** `full scale is 118.3 dB SPL`. */
export function fullScaleText({ fullScale_dbspl }: CalibratorFigures, show: Show): string {
  return `full scale is ${show.level(fullScale_dbspl)} SPL`;
}

export function limitText({ curve, rating, isOwn }: NoiseLimit): string {
  return `${curve} ${rating}${isOwn ? ', as the file tells it' : ', the most that is asked for'}`;
}
