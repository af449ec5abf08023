// Dips that interference makes: narrow, deep, gone a step aside. No equaliser fills them, so a fit leaves them alone.

import type { Null } from './fitTask.ts';

/** So far below its octave's mean a dip is a null; and so far down it is narrow. Common practice, no source. */
const DEPTH_DB = 8;
const EDGE_DB = 4;
const WIDEST_OCTAVES = 0.75;

/**
 * Nulls of a response, ascending.
 *
 * @param frequency_hz evenly spaced in octaves
 * @param level_db as long
 */
export function nullsOf(
  frequency_hz: ArrayLike<number>,
  level_db: ArrayLike<number>,
): readonly Null[] {
  const below_db = octaveMeans_db(frequency_hz, level_db).map(
    (mean, i) => mean - (level_db[i] ?? 0),
  );
  const found: Null[] = [];
  let start: number | null = null;
  for (let i = 0; i <= below_db.length; i++) {
    const isLow = EDGE_DB <= (below_db[i] ?? Number.NEGATIVE_INFINITY);
    if (isLow && start === null) start = i;
    if (isLow || start === null) continue;
    const run = { start, end: i - 1 };
    start = null;
    // A run that goes over the grid's edge is a roll-off, not a dip.
    if (run.start === 0 || run.end === below_db.length - 1) continue;
    const one = nullIn(frequency_hz, below_db, run);
    if (one !== null) found.push(one);
  }
  return found;
}

function nullIn(
  frequency_hz: ArrayLike<number>,
  below_db: Float64Array,
  { start, end }: { readonly start: number; readonly end: number },
): Null | null {
  let deepest = start;
  for (let i = start; i <= end; i++) if ((below_db[deepest] ?? 0) < (below_db[i] ?? 0)) deepest = i;
  const depth_db = below_db[deepest] ?? 0;
  const [from_hz = 0, to_hz = 0] = [frequency_hz[start], frequency_hz[end]];
  if (depth_db < DEPTH_DB || WIDEST_OCTAVES < Math.log2(to_hz / from_hz)) return null;
  return { frequency_hz: frequency_hz[deepest] ?? 0, depth_db, from_hz, to_hz };
}

/** Mean power over the octave around each frequency. */
function octaveMeans_db(
  frequency_hz: ArrayLike<number>,
  level_db: ArrayLike<number>,
): Float64Array {
  const power = Float64Array.from(level_db, (level) => 10 ** (level / 10));
  return Float64Array.from(frequency_hz, (centre_hz) => {
    let sum = 0;
    let count = 0;
    for (let i = 0; i < power.length; i++) {
      const f_hz = frequency_hz[i] ?? 0;
      if (f_hz < centre_hz / Math.SQRT2 || centre_hz * Math.SQRT2 < f_hz) continue;
      sum += power[i] ?? 0;
      count++;
    }
    return 10 * Math.log10(sum / count);
  });
}
