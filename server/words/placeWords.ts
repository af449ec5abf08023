// What surrounds a loudspeaker, in words: surfaces near it and what they do.

import { surfaceName } from '../../core/rules/surfaceName.ts';
import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { code, type Explanation } from './explanation.ts';

export function explainBoundaries(setup: Setup, source: string, show: Show): Explanation | null {
  const figures = setup.boundaries.find((one) => one.source === source);
  if (!figures) return null;
  const lines = figures.surfaces
    .slice(0, 3)
    .map(
      ({ surface, distance_m, quarterWave_hz }) =>
        `${surfaceName(surface)} ${show.length(distance_m)} away: a quarter wave at ${show.frequency(quarterWave_hz)}`,
    );
  for (const reflection of figures.reflections.slice(0, 2))
    lines.push(
      `reflection off the ${surfaceName(reflection.surface)} ${show.time(reflection.behind_s)} behind, ${show.level(reflection.level_db)}: first notch ${show.frequency(reflection.notch_hz)}`,
    );
  if (figures.powerGainAt40Hz_db !== null)
    lines.push(`sound power at 40 Hz against free field ${show.level(figures.powerGainAt40Hz_db)}`);
  if (lines.length === 0) return null;
  return {
    title: `Boundaries near ${code(source)}`,
    lines,
    source: 'image sources; Waterhouse, JASA 27 (1955) for sound power',
  };
}
