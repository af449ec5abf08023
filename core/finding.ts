// A finding: what a rule says about one place of a room, with its figure, its limit and its source.

import type { Path } from '../schema/model/path.ts';
import type { Related, Severity } from '../schema/model/problem.ts';

/** A number with its unit, SI or dB, for machines; `message` says it in the file's own habit. */
export interface Figure {
  readonly value: number;
  readonly unit: string;
}

/** An edit by meaning: `schema/edit.ts` turns it into text. `value` is the text to stand there ("75 Hz"). */
export type SemanticEdit =
  | { readonly do: 'set'; readonly path: Path; readonly value: string }
  | { readonly do: 'remove'; readonly path: Path };

export interface Fix {
  readonly title: string;
  readonly edits: readonly SemanticEdit[];
  /** True where the fix cannot be wrong, so that "fix all" and `--fix` may take it. */
  readonly safe: boolean;
}

export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly path: Path;
  readonly message: string;
  readonly reason: string;
  readonly advice: string;
  readonly measured: Figure | null;
  readonly limit: Figure | null;
  readonly source: string;
  readonly related: readonly Related[];
  readonly fixes: readonly Fix[];
  /** Someone accepted it: it is still listed, but no longer asks for anything. */
  readonly accepted: {
    readonly id: string;
    readonly because: string | null;
    readonly until: string | null;
  } | null;
}
