// Draws words that have been given their places.

import type { VNode } from 'preact';
import { round } from './frame.ts';
import type { PlacedLabel } from './labels.ts';

/** The thing's own title says the same to a screen reader. */
export function Labels({ labels }: { readonly labels: readonly PlacedLabel[] }): VNode {
  return (
    <g class="labels">
      {labels.map(({ key, text, x, y }) => (
        <text
          key={key}
          class={`label label-${key.split('-')[0]}`}
          x={round(x)}
          y={round(y)}
          text-anchor="middle"
        >
          {text}
        </text>
      ))}
    </g>
  );
}
