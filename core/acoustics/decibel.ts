// Decibels and plain ratios: 20 lg for amplitudes (pressure, voltage), 10 lg for powers, and sums of levels.

/** Level of an amplitude ratio, 20 lg r; 0 gives minus infinity. */
export function amplitude_db(amplitude_ratio: number): number {
  return 20 * Math.log10(amplitude_ratio);
}

/** Amplitude ratio of a level, 10^(L/20). */
export function amplitude_ratio(level_db: number): number {
  return 10 ** (level_db / 20);
}

/** Level of a power ratio, 10 lg r; 0 gives minus infinity. */
export function power_db(power_ratio: number): number {
  return 10 * Math.log10(power_ratio);
}

/** Power ratio of a level, 10^(L/10). */
export function power_ratio(level_db: number): number {
  return 10 ** (level_db / 10);
}

/**
 * Sum of signals that have nothing to do with one another: their powers add.
 *
 * @param levels_db all re the same reference; an empty list gives minus infinity
 * @returns 10 lg Σ 10^(L/10), same reference; two equal levels give +3.01 dB
 */
export function uncorrelatedSum_db(levels_db: readonly number[]): number {
  return power_db(levels_db.reduce((sum, level_db) => sum + power_ratio(level_db), 0));
}

/**
 * Sum of equal signals that arrive together: their amplitudes add.
 *
 * @param levels_db all re the same reference; an empty list gives minus infinity
 * @returns 20 lg Σ 10^(L/20), same reference; two equal levels give +6.02 dB
 */
export function coherentSum_db(levels_db: readonly number[]): number {
  return amplitude_db(levels_db.reduce((sum, level_db) => sum + amplitude_ratio(level_db), 0));
}
