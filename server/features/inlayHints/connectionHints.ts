// Hints of the kind `connection`: channels and level margin beside each line of the wiring. Off unless asked for.

import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import { pathOfThing } from '../../things.ts';
import { connectionLabel, explainConnection } from '../../words/connectionWords.ts';
import type { Hint } from './hint.ts';

export function connectionHints(setup: Setup, show: Show): readonly Hint[] {
  return setup.room.wiring.flatMap(({ index, to }) => {
    const parts = connectionLabel(setup, index, show);
    if (parts.length === 0) return [];
    return [
      {
        kind: 'connection',
        path: ['wiring', String(index)],
        rank: 1,
        name: null,
        parts: parts.map((text) => ({ text, dependsOn: pathOfThing(setup, to.device) })),
        explanation: explainConnection(setup, index, show),
        edits: [],
      } satisfies Hint,
    ];
  });
}
