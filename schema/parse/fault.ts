// A place that the validator complained about, and where that is shown.

import type { Located, LocatedEntry, LocatedMap, Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';
import type { SchemaError } from '../validators.generated.js';

/** A place of the tree that the validator complained about, with everything that it said there. */
export interface Fault {
  readonly path: Path;
  readonly node: Located;
  /** What holds the node; null for the root. */
  readonly entry: LocatedEntry | null;
  readonly schema: ResolvedSchema;
  readonly errors: readonly SchemaError[];
}

/** Where a fault of a whole map is shown: its key, or the line that it starts with. */
export function headRange(node: LocatedMap, entry: LocatedEntry | null): Range {
  if (entry !== null) return entry.keyRange;
  const { start, end } = node.range;
  return { start, end: Math.min(end, start + 1) };
}
