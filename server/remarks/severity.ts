// Severities in their order, for thresholds and counts.

import type { Severity } from '../../schema/model/problem.ts';

/** The gravest first. */
export const SEVERITIES: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

export function isAtLeast(severity: Severity, threshold: Severity): boolean {
  return SEVERITIES.indexOf(severity) <= SEVERITIES.indexOf(threshold);
}
