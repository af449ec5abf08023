// Draws words that have been given their places.

import type { VNode } from 'preact';
import { round } from './frame.ts';
import type { PlacedLabel } from './labels.ts';

/** The thing's own title says the same to a screen reader. */
export function Labels({ labels }: { readonly labels: readonly PlacedLabel[] }): VNode {
  return (
    <g class="labels">
      {labels.map((label) => (
        <Leader key={label.key} label={label} />
      ))}
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

/** From the label's nearest edge to its thing. */
function Leader({ label: { box, leader } }: { readonly label: PlacedLabel }): VNode | null {
  if (leader === null) return null;
  const x = Math.min(Math.max(leader.x, box.x), box.x + box.width);
  const y = Math.min(Math.max(leader.y, box.y), box.y + box.height);
  return (
    <path class="leader" d={`M${round(x)} ${round(y)} L${round(leader.x)} ${round(leader.y)}`} />
  );
}
