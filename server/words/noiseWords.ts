// The background noise in words: its rating, the band that decides it, what one figure leaves open.

import type { BackgroundFigures } from '../../core/backgroundFigures.ts';
import { MOST_NR, PREFERRED_NR } from '../../core/noiseLimits.ts';
import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import type { Explanation } from './explanation.ts';

/** "NR 17.4, decided at 125 Hz"; null where no rating follows. */
export function noiseRatingText(background: BackgroundFigures, show: Show): string | null {
  const { nr, governing_hz } = background;
  if (nr === null) return null;
  if (background.from === 'nr') return `NR ${nr}`;
  const decided = governing_hz === null ? '' : `, decided at ${show.frequency(governing_hz)}`;
  return `NR ${nr.toFixed(1)}${decided}`;
}

export function explainNoise({ background = null }: Setup, show: Show): Explanation | null {
  if (background === null) return null;
  const { from, nc, ncGoverning_hz, level_dba, limit_dba, nrRange, bands } = background;
  const lines: string[] = [];
  const rating = noiseRatingText(background, show);
  if (rating !== null) lines.push(`noise rating ${rating}`);
  if (nrRange !== null)
    lines.push(
      `one figure, its bands hidden: NR ${nrRange[0].toFixed(0)} to ${nrRange[1].toFixed(0)} are possible`,
    );
  for (const { frequency_hz, level_db, nr, limit_db } of bands)
    lines.push(
      `${show.frequency(frequency_hz)}: ${show.level(level_db)} is NR ${nr.toFixed(1)}, at most ${show.level(limit_db)}`,
    );
  if (from === 'bands' && nc !== null && ncGoverning_hz !== null)
    lines.push(`noise criterion NC ${nc.toFixed(1)}, decided at ${show.frequency(ncGoverning_hz)}`);
  if (level_dba !== null)
    lines.push(
      `${level_dba.toFixed(1)} dBA in all; a noise along the whole curve of NR ${MOST_NR} has ${limit_dba.toFixed(1)} dBA`,
    );
  lines.push(`asked for: NR ${PREFERRED_NR} preferred, never above NR ${MOST_NR}`);
  return {
    title: 'Background noise',
    lines,
    source:
      'curves: ISO/R 1996:1971, ANSI/ASA S12.2; limits: ITU-R BS.1116-3, EBU Tech 3276 (from memory)',
  };
}
