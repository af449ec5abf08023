// Noise rating by octave bands: NR curves from their formula, NC curves from their table, and the rating of a measurement.

/** Level in an octave band, by the band's nominal frequency. */
export interface BandLevel {
  readonly nominal_hz: number;
  readonly level_db: number;
}

/** How a measurement stands against a family of curves. */
export interface NoiseRating {
  /** the lowest curve that no band exceeds */
  readonly rating: number;
  /** the band that decides, nominal */
  readonly governing_hz: number;
}

/** L = a + b NR. @source ISO/R 1996:1971, AS 1469 Table 1 */
const NR_BANDS = [
  { nominal_hz: 31.5, a: 55.4, b: 0.681 },
  { nominal_hz: 63, a: 35.5, b: 0.79 },
  { nominal_hz: 125, a: 22, b: 0.87 },
  { nominal_hz: 250, a: 12, b: 0.93 },
  { nominal_hz: 500, a: 4.8, b: 0.974 },
  { nominal_hz: 1000, a: 0, b: 1 },
  { nominal_hz: 2000, a: -3.5, b: 1.015 },
  { nominal_hz: 4000, a: -6.1, b: 1.025 },
  { nominal_hz: 8000, a: -8, b: 1.03 },
] as const;

const NC_BANDS_HZ: readonly number[] = [63, 125, 250, 500, 1000, 2000, 4000, 8000];

/** Levels in the order of `NC_BANDS_HZ`. @source ANSI/ASA S12.2 (tangency curves) */
const NC_CURVES: readonly { readonly rating: number; readonly levels_db: readonly number[] }[] = [
  { rating: 15, levels_db: [47, 36, 29, 22, 17, 14, 12, 11] },
  { rating: 20, levels_db: [51, 40, 33, 26, 22, 19, 17, 16] },
  { rating: 25, levels_db: [54, 44, 37, 31, 27, 24, 22, 21] },
  { rating: 30, levels_db: [57, 48, 41, 35, 31, 29, 28, 27] },
  { rating: 35, levels_db: [60, 52, 45, 40, 36, 34, 33, 32] },
  { rating: 40, levels_db: [64, 56, 50, 45, 41, 39, 38, 37] },
  { rating: 45, levels_db: [67, 60, 54, 49, 46, 44, 43, 42] },
  { rating: 50, levels_db: [71, 64, 58, 54, 51, 49, 48, 47] },
  { rating: 55, levels_db: [74, 67, 62, 58, 56, 54, 53, 52] },
];

/** The NR curve of a rating, 31.5 Hz to 8 kHz. */
export function nrCurve(rating: number): readonly BandLevel[] {
  return NR_BANDS.map(({ nominal_hz, a, b }) => ({ nominal_hz, level_db: a + b * rating }));
}

/**
 * NR of a measurement: the greatest (L − a)/b over the bands, not rounded.
 *
 * @param levels octave bands 31.5 Hz to 8 kHz, any of them
 * @returns null if no level belongs to such a band
 * @source ISO/R 1996:1971
 */
export function noiseRating(levels: readonly BandLevel[]): NoiseRating | null {
  return highest(levels, ({ nominal_hz, level_db }) => {
    const band = NR_BANDS.find((known) => known.nominal_hz === nominal_hz);
    return band ? (level_db - band.a) / band.b : null;
  });
}

/**
 * The NC curve of a rating, 63 Hz to 8 kHz.
 *
 * @param rating 15, 20 … 55, the curves of the standard
 * @returns null for another rating
 */
export function ncCurve(rating: number): readonly BandLevel[] | null {
  const curve = NC_CURVES.find((known) => known.rating === rating);
  if (!curve) return null;
  return NC_BANDS_HZ.map((nominal_hz, i) => ({ nominal_hz, level_db: curve.levels_db[i] ?? 0 }));
}

/**
 * The NC curve of any rating: straight between the curves of the table, continued beyond its ends, as `noiseCriterion` reads it.
 *
 * @returns 63 Hz to 8 kHz
 * @throws RangeError on a rating that is no number
 */
export function ncCurveAt(rating: number): readonly BandLevel[] {
  if (!Number.isFinite(rating)) throw new RangeError(`rating ${rating} is no number`);
  const next = NC_CURVES.findIndex((known) => rating <= known.rating);
  const index = next < 0 ? NC_CURVES.length - 1 : Math.max(1, next);
  const below = NC_CURVES[index - 1];
  const above = NC_CURVES[index];
  if (!below || !above) throw new RangeError('the table of curves has too few rows');
  const share = (rating - below.rating) / (above.rating - below.rating);
  return NC_BANDS_HZ.map((nominal_hz, band) => {
    const from_db = below.levels_db[band] ?? 0;
    return { nominal_hz, level_db: from_db + share * ((above.levels_db[band] ?? 0) - from_db) };
  });
}

/**
 * NC of a measurement by tangency: straight between the curves of the table, continued beyond its ends.
 *
 * @param levels octave bands 63 Hz to 8 kHz, any of them
 * @returns null if no level belongs to such a band
 * @source ANSI/ASA S12.2 (tangency method)
 */
export function noiseCriterion(levels: readonly BandLevel[]): NoiseRating | null {
  return highest(levels, ({ nominal_hz, level_db }) => {
    const band = NC_BANDS_HZ.indexOf(nominal_hz);
    return band < 0 ? null : ncOf(band, level_db);
  });
}

function ncOf(band: number, level_db: number): number {
  const points = NC_CURVES.map(({ rating, levels_db }) => ({ rating, db: levels_db[band] ?? 0 }));
  const upper = Math.max(
    1,
    points.findIndex(({ db }) => level_db <= db),
  );
  const index = points.every(({ db }) => db < level_db) ? points.length - 1 : upper;
  const below = points[index - 1];
  const above = points[index];
  if (!below || !above) throw new RangeError('the table of curves has too few rows');
  return (
    below.rating + ((above.rating - below.rating) * (level_db - below.db)) / (above.db - below.db)
  );
}

function highest(
  levels: readonly BandLevel[],
  ratingOf: (level: BandLevel) => number | null,
): NoiseRating | null {
  let worst: NoiseRating | null = null;
  for (const level of levels) {
    const rating = ratingOf(level);
    if (rating !== null && (worst === null || worst.rating < rating)) {
      worst = { rating, governing_hz: level.nominal_hz };
    }
  }
  return worst;
}
