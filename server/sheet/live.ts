// Whether the sheet is on paper or live in the pane, and what the pane lets its parts do. Paper is what holds by default.

import { type Context, createContext } from 'preact';
import type { Fix } from '../../core/finding.ts';

export interface Live {
  /** True in the pane: what leads to the source can be focused. */
  readonly live: boolean;
  /** The pane's own width for drawings that keep their aspect; null on paper. */
  readonly drawingWidth_px: number | null;
  /** Makes an edit of the file; null where that cannot be done. */
  readonly apply: ((fix: Fix) => void) | null;
}

export const LiveContext: Context<Live> = createContext<Live>({
  live: false,
  drawingWidth_px: null,
  apply: null,
});
