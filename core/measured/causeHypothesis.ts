// A hypothesis: one thing that may be otherwise than the file says, with what is free in it and how it is told.

import type { Path } from '../../schema/model/path.ts';
import type { Fix } from '../finding.ts';
import type { Show } from '../show.ts';
import type { Variant } from './variant.ts';

export type CauseKind =
  | 'swapped'
  | 'polarity'
  | 'delay'
  | 'port'
  | 'distance'
  | 'air'
  | 'dimension'
  | 'moved'
  | 'level';

/** What is not known of a hypothesis beforehand: evenly likely from `from` to `to`. */
export interface Parameter {
  readonly from: number;
  readonly to: number;
  /** Values from which the search starts. */
  readonly scan: readonly number[];
}

export interface Hypothesis {
  readonly kind: CauseKind;
  /** The same for hypotheses that say the same thing of the same subject. */
  readonly key: string;
  readonly path: Path;
  readonly parameters: readonly Parameter[];
  readonly variant: (values: readonly number[]) => Variant;
  /** Loudspeakers that it touches; null for all. */
  readonly sources: readonly string[] | null;
  /** The whole field is worked out anew for each of its values. */
  readonly isDear?: true;
  /** Other values that may look the same in takes on a line of symmetry. */
  readonly images?: (values: readonly number[]) => readonly (readonly number[])[];
  /** As in "undecided between … and …". */
  readonly name: string;
  readonly message: (values: readonly number[], show: Show) => string;
  readonly fix: (values: readonly number[], show: Show) => Fix | null;
}

/** Evenly spaced values, both ends included. */
export function evenly(from: number, to: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
}
