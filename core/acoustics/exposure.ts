// Noise exposure: how long a level may last, dose, daily exposure, and the peak limits. For cautions, not for clearance.

import { notNegative, positive } from './guard.ts';

/** A rule for the working day: a level for eight hours, and how many dB halve the time. */
export interface ExposureRule {
  readonly name: string;
  readonly eightHours_dbspl: number;
  readonly exchange_db: number;
  readonly source: string;
}

export const NIOSH: ExposureRule = {
  name: 'NIOSH recommended limit',
  eightHours_dbspl: 85,
  exchange_db: 3,
  source: 'NIOSH 98-126 (1998)',
};

export const OSHA: ExposureRule = {
  name: 'OSHA permissible limit',
  eightHours_dbspl: 90,
  exchange_db: 5,
  source: '29 CFR 1910.95',
};

/** Daily exposure and peak at which an employer must act. Levels: dBA over 8 h; peaks: dBC. */
export interface EuLimit {
  readonly name: 'lower_action' | 'upper_action' | 'limit';
  readonly eightHours_dbspl: number;
  readonly peak_dbspl: number;
  readonly peak_pa: number;
}

/** @source Directive 2003/10/EC Article 3; the limit counts the protection worn */
export const EU_LIMITS: readonly EuLimit[] = [
  { name: 'lower_action', eightHours_dbspl: 80, peak_dbspl: 135, peak_pa: 112 },
  { name: 'upper_action', eightHours_dbspl: 85, peak_dbspl: 137, peak_pa: 140 },
  { name: 'limit', eightHours_dbspl: 87, peak_dbspl: 140, peak_pa: 200 },
];

const EIGHT_HOURS_S = 8 * 3600;

/**
 * How long a steady level may last under a rule, T = 8 h / 2^((L − L₈)/q).
 *
 * @param level_dbspl A-weighted
 * @returns seconds; may be more than a day for quiet levels
 */
export function allowedTime_s(level_dbspl: number, rule: ExposureRule): number {
  return EIGHT_HOURS_S / 2 ** ((level_dbspl - rule.eightHours_dbspl) / rule.exchange_db);
}

/** A stretch of the day at one level. */
export interface Exposure {
  readonly level_dbspl: number;
  readonly time_s: number;
}

/** Dose of a day, Σ C/T; 1 is the limit. */
export function dose_ratio(day: readonly Exposure[], rule: ExposureRule): number {
  return day.reduce(
    (sum, { level_dbspl, time_s }) =>
      sum + notNegative('time_s', time_s) / allowedTime_s(level_dbspl, rule),
    0,
  );
}

/** The steady eight-hour level of the same dose, L₈ + q lg(D)/lg 2. @throws RangeError on no dose */
export function timeWeightedAverage_dbspl(dose: number, rule: ExposureRule): number {
  return (
    rule.eightHours_dbspl + (rule.exchange_db * Math.log10(positive('dose', dose))) / Math.log10(2)
  );
}

/**
 * Daily exposure level, 10 lg of the mean square over eight hours.
 *
 * @source ISO 1999; Directive 2003/10/EC Article 2
 */
export function dailyExposure_dbspl(day: readonly Exposure[]): number {
  const energy = day.reduce(
    (sum, { level_dbspl, time_s }) => sum + time_s * 10 ** (level_dbspl / 10),
    0,
  );
  return 10 * Math.log10(energy / EIGHT_HOURS_S);
}

/** How long a steady level may last before the daily exposure reaches an EU value. */
export function euTime_s(level_dbspl: number, limit: EuLimit): number {
  return EIGHT_HOURS_S * 10 ** ((limit.eightHours_dbspl - level_dbspl) / 10);
}
