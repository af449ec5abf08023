// Hints of the kind `crossover`: the ripple of the sum as dialled in, and the filter that sums better where there is one.

import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import { crossoverLabel, explainCrossover } from '../../words/crossoverWords.ts';
import type { Hint } from './hint.ts';

export function crossoverHints(setup: Setup, show: Show): readonly Hint[] {
  return setup.crossovers.flatMap((figures) => {
    const parts = crossoverLabel(figures, show);
    if (parts.length === 0) return [];
    const main = figures.mains[0];
    const advice = setup.advice.find(({ path }) => path.join('\n') === figures.path.join('\n'));
    return [
      {
        kind: 'crossover',
        path: figures.path,
        rank: 4,
        name: null,
        parts: parts.map((text) => ({
          text,
          dependsOn: main === undefined ? null : ['speakers', main],
        })),
        explanation: explainCrossover(figures, show),
        edits: advice?.agrees === true ? [] : (advice?.fix?.edits ?? []),
      } satisfies Hint,
    ];
  });
}
