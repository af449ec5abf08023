// A hint before it is laid out: what it says at which place, how much it matters there, and what double-clicking it does.

import type { SemanticEdit } from '../../../core/finding.ts';
import type { Path } from '../../../schema/model/path.ts';
import type { HintKind } from '../../protocol/settings.ts';
import type { Explanation } from '../../words/explanation.ts';

export interface Hint {
  readonly kind: HintKind;
  /** The hint stands at the end of the line where this place begins. */
  readonly path: Path;
  /** Where a line has no room for all, the highest rank is shown first. */
  readonly rank: number;
  /** Said before the first part where the line has several hints of this kind; null where it is clear without. */
  readonly name: string | null;
  readonly parts: readonly HintPart[];
  readonly explanation: Explanation | null;
  /** The edits that double-clicking takes; empty on a pure result. */
  readonly edits: readonly SemanticEdit[];
}

export interface HintPart {
  readonly text: string;
  /** What this part depends on: a jump leads there. null where nothing in this file. */
  readonly dependsOn: Path | null;
}
