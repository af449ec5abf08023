// A problem: one fault of a file, at its exact place, with what would cure it.

import type { Range } from './located.ts';
import type { Path } from './path.ts';

export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** Replace `range` by `text`. The edits of one fix never overlap. */
export interface TextEdit {
  readonly range: Range;
  readonly text: string;
}

/** A cure, told as what it does ("Change `hieght` to `height`"), best first where there are several. */
export interface TextFix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
  /** True where the fix cannot be wrong, so that "fix all" and `--fix` may take it. */
  readonly safe: boolean;
}

/** A place elsewhere that explains a problem or a finding; `file` where it lies in another file. */
export interface Related {
  readonly file?: string;
  readonly path: Path;
  readonly message: string;
}

/** A fault of the text or of its references, found before anything is computed. Its code has a page, as a rule's has. */
export interface Problem {
  /** `yaml/…` (not YAML, YAML's losses), `format/…` (shape), `quantity/…` (units), `reference/…`, `limits/…` (hostile input). */
  readonly code: string;
  readonly severity: Severity;
  readonly path: Path;
  readonly range: Range;
  readonly message: string;
  readonly fixes: readonly TextFix[];
  readonly related?: readonly Related[];
}
