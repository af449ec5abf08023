// Which sources are read by their phase, and when the sign of what arrives is clear: the same for impulse responses and for texts.

import type { PeakArrival } from './peakArrival.ts';
import type { SlopeArrival } from './slopeArrival.ts';
import type { SourceBand } from './sourceBand.ts';
import type { PolarityFigures } from './takeFigures.ts';

/** A source that ends below this is a bass source: its arrival is read from its phase. */
const BASS_HZ = 400;
/** Phase scatter beyond which a slope is no arrival. */
export const MOST_SCATTER_RAD = 0.5;
/** A peak must stand so far above the opposite one to have a sign. */
const CLEAR_DB = 1;
/** Nearer than this to either, of the quarter turn between them. */
const CLEAR_RAD = Math.PI / 3;

type Polarity = PolarityFigures['polarity'];

export function isBassSource({ to_hz }: SourceBand): boolean {
  return to_hz < BASS_HZ;
}

export function peakPolarity({ sign, clearness_db }: PeakArrival): Polarity {
  return polarityOf(sign, CLEAR_DB <= clearness_db);
}

export function slopePolarity({ sign, signDoubt_rad, scatter_rad }: SlopeArrival): Polarity {
  return polarityOf(sign, signDoubt_rad <= CLEAR_RAD && scatter_rad <= MOST_SCATTER_RAD);
}

function polarityOf(sign: number, isClear: boolean): Polarity {
  if (!isClear) return 'undecided';
  return sign < 0 ? 'inverted' : 'upright';
}
