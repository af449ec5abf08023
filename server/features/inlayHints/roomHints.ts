// Hints of the kind `room`: volume, modes and Schroeder frequency beside the geometry.

import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import { explainRoom, roomLabel } from '../../words/roomWords.ts';
import type { Hint } from './hint.ts';

export function roomHints(setup: Setup, show: Show): readonly Hint[] {
  const parts = roomLabel(setup, show);
  const shape = setup.room.space.shape;
  if (parts.length === 0 || shape === null) return [];
  return [
    {
      kind: 'room',
      path: ['space', shape.kind === 'box' ? 'size' : 'plan'],
      rank: 3,
      name: null,
      parts: parts.map((text, index) => ({
        text,
        dependsOn: index === parts.length - 1 ? ['space', 'decay_time'] : null,
      })),
      explanation: explainRoom(setup, show),
      edits: [],
    },
  ];
}
