// Our own messages about places: from a path to its range in the text, and from a position to the path under it.

import type { Path } from '../../schema/model/path.ts';

export interface TextPosition {
  readonly line: number;
  readonly character: number;
}
export interface TextRange {
  readonly start: TextPosition;
  readonly end: TextPosition;
}

/** Request: where a path stands (the nearest known parent if it does not). Answer: a range, or null. */
export const RANGE_OF_REQUEST = 'groundbass/rangeOf';
export interface RangeOfParams {
  readonly uri: string;
  readonly path: Path;
}
export type RangeOfAnswer = TextRange | null;

/** Request: the path under a position. */
export const PATH_AT_REQUEST = 'groundbass/pathAt';
export interface PathAtParams {
  readonly uri: string;
  readonly position: TextPosition;
}
export type PathAtAnswer = Path | null;
