// Whether the sheet is on paper or live in the pane, and what the pane lets its parts do. Paper is what holds by default.

import { type ComponentType, type Context, createContext } from 'preact';
import type { Fix, SemanticEdit } from '../../core/finding.ts';
import type { Point } from '../../schema/model/quantities.ts';
import type { Found, Wanted } from '../protocol/search.ts';
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
  /** What can be searched for and tried on; null on paper. */
  readonly trials: Trials | null;
}

/** Candidates: searched for by the server, tried on here without changing the file, and written into it in one step. */
export interface Trials {
  readonly found: Found;
  /** Where things stand in the file, whatever is tried on. */
  readonly standing: readonly { readonly id: string; readonly at: Point }[];
  /** What is being searched for; null while nothing is. */
  readonly searching: Wanted | null;
  /** What is tried on; null while the file itself is shown. */
  readonly triedOn: Trial | null;
  readonly search: (wanted: Wanted) => void;
  /** Gives up what is being searched for. */
  readonly stop: () => void;
  readonly tryOn: (trial: Trial) => void;
  readonly back: () => void;
  readonly write: (trial: Trial) => void;
}

export interface Trial {
  /** The same word for the same candidate. */
  readonly key: string;
  /** What a person reads: "sub at candidate 2". */
  readonly title: string;
  readonly edits: readonly SemanticEdit[];
}

export const LiveContext: Context<Live> = createContext<Live>({
  live: false,
  planWidth_px: null,
  sideWidth_px: null,
  planView: null,
  useLater: (make) => make(),
  apply: null,
  trials: null,
});
