// Hints of the kind `room`: volume, modes and Schroeder frequency beside the geometry, the noise rating beside the noise in bands.

import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import { explainNoise, noiseRatingText } from '../../words/noiseWords.ts';
import { explainRoom, roomLabel } from '../../words/roomWords.ts';
import type { Hint } from './hint.ts';

export function roomHints(setup: Setup, show: Show): readonly Hint[] {
  return [...sizeHints(setup, show), ...noiseHints(setup, show)];
}

/** What is given as a rating needs no hint. */
function noiseHints(setup: Setup, show: Show): readonly Hint[] {
  const { background = null } = setup;
  const text = background?.from === 'bands' ? noiseRatingText(background, show) : null;
  if (background === null || text === null) return [];
  return [
    {
      kind: 'room',
      path: background.path,
      rank: 3,
      name: null,
      parts: [{ text, dependsOn: null }],
      explanation: explainNoise(setup, show),
      edits: [],
    },
  ];
}

function sizeHints(setup: Setup, show: Show): readonly Hint[] {
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
