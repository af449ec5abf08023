// What reading one file's text yields: its kind, its located tree and its problems.

import type { Located } from './located.ts';
import type { Problem } from './problem.ts';

export type FileKind = 'room' | 'gear' | 'facility';

export interface ParsedFile {
  readonly kind: FileKind;
  readonly text: string;
  /** null where no map could be read at all. Parts that are damaged are left out of the tree and told in `problems`. */
  readonly root: Located | null;
  /** Syntax and shape problems, in the file's order, each fault once. References are judged later, by resolve. */
  readonly problems: readonly Problem[];
}
