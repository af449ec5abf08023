// A chart's key: a piece of each line or mark as it is drawn, with its words.

import type { VNode } from 'preact';

export interface LegendEntry {
  /** The class that draws it in the chart. */
  readonly class: string;
  readonly text: string;
  /** A mark's outline around 0, 0; a piece of line where left out. */
  readonly mark?: string;
}

export function Legend({ entries }: { readonly entries: readonly LegendEntry[] }): VNode {
  return (
    <ul class="legend">
      {entries.map((entry) => (
        <li key={entry.text}>
          <svg width="26" height="12" viewBox="-13 -6 26 12" aria-hidden="true">
            {entry.mark === undefined ? (
              <path class={entry.class} d="M-13 0 H13" />
            ) : (
              <path class={entry.class} d={entry.mark} />
            )}
          </svg>
          {entry.text}
        </li>
      ))}
    </ul>
  );
}
