// Whether the sheet is on paper or live in the pane, and what the pane lets its parts do. Paper is what holds by default.

import { type ComponentType, type Context, createContext } from 'preact';
import type { Fix } from '../../core/finding.ts';
import type { PlanProps } from './plan/planProps.ts';

export interface Live {
  /** True in the pane: what leads to the source can be focused. */
  readonly live: boolean;
  /** The room there is for drawings that keep their aspect; null on paper. */
  readonly planWidth_px: number | null;
  readonly sideWidth_px: number | null;
  /** Draws the plan with more to it than paper has; null on paper. */
  readonly planView: ComponentType<PlanProps> | null;
  /** A hook: what takes too long to be drawn at once. On paper at once all the same; in the pane null until it is there. */
  readonly useLater: <Answer>(make: () => Answer, dependsOn: readonly unknown[]) => Answer | null;
  /** Makes an edit of the file; null where that cannot be done. */
  readonly apply: ((fix: Fix) => void) | null;
}

export const LiveContext: Context<Live> = createContext<Live>({
  live: false,
  planWidth_px: null,
  sideWidth_px: null,
  planView: null,
  useLater: (make) => make(),
  apply: null,
});
