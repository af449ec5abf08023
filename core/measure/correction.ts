// Responses on other grids: interpolated, corrected by a microphone's own response, averaged.

/** A response as it was measured or read. */
export interface LevelCurve {
  /** Ascending, > 0. */
  readonly frequencies_hz: Float64Array;
  readonly levels_db: Float64Array;
}

/** Ends of a grid may lie a rounding beyond those of the curve. */
const ROUNDING = 1e-9;

/**
 * Level at a frequency, linear in decibels over the logarithm of frequency.
 *
 * @returns NaN outside the curve; where a neighbour is NaN
 */
export function levelAt_db({ frequencies_hz, levels_db }: LevelCurve, wanted_hz: number): number {
  const last = frequencies_hz.length - 1;
  const first_hz = frequencies_hz[0] as number;
  const last_hz = frequencies_hz[last] as number;
  if (!(first_hz * (1 - ROUNDING) <= wanted_hz && wanted_hz <= last_hz * (1 + ROUNDING)))
    return Number.NaN;
  const frequency_hz = Math.min(last_hz, Math.max(first_hz, wanted_hz));
  let low = 0;
  let high = last;
  while (1 < high - low) {
    const middle = (low + high) >> 1;
    if ((frequencies_hz[middle] as number) <= frequency_hz) low = middle;
    else high = middle;
  }
  const from = frequencies_hz[low] as number;
  const to = frequencies_hz[high] as number;
  if (frequency_hz === from || from === to) return levels_db[low] as number;
  if (frequency_hz === to) return levels_db[high] as number;
  const share = Math.log(frequency_hz / from) / Math.log(to / from);
  return (levels_db[low] as number) * (1 - share) + (levels_db[high] as number) * share;
}

/** The same; beyond the curve's ends its last value counts. */
export function heldAt_db(curve: LevelCurve, wanted_hz: number): number {
  const from_hz = curve.frequencies_hz[0] as number;
  const to_hz = curve.frequencies_hz.at(-1) as number;
  return levelAt_db(curve, Math.min(to_hz, Math.max(from_hz, wanted_hz)));
}

/**
 * A response less that of the microphone (or interface) by which it was taken. Beyond the correction's ends its last value counts.
 */
export function corrected_db(curve: LevelCurve, microphone: LevelCurve): Float64Array {
  return curve.levels_db.map(
    (level, i) => level - heldAt_db(microphone, curve.frequencies_hz[i] as number),
  );
}

/**
 * Mean power of several responses.
 *
 * @param frequencies_hz where the mean is wanted
 * @returns dB; NaN where any of them says nothing
 */
export function powerMean_db(
  curves: readonly LevelCurve[],
  frequencies_hz: Float64Array,
): Float64Array {
  return frequencies_hz.map((frequency_hz) => {
    const sum = curves.reduce(
      (all, curve) => all + 10 ** (levelAt_db(curve, frequency_hz) / 10),
      0,
    );
    return 10 * Math.log10(sum / curves.length);
  });
}
