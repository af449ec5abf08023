// A room's analysis with its takes in it: notes and findings of the third phase beside those of the first two.

import type { MeasuredFigures } from '../../core/measured/measuredFigures.ts';
import type { VerificationFigures } from '../../core/measured/verification.ts';
import { keptDrift } from '../../core/record/keptDrift.ts';
import type { Judge } from '../../core/rules/judge.ts';
import type { Analysis } from '../analysis.ts';
import { remarksWithSetup } from '../remarks/remarksOf.ts';

/**
 * @param verification of these takes, or of the ones before while theirs is being worked out; null where there is none
 * @param today an ISO date, for acceptances that end
 */
export function mergedMeasured(
  analysis: Analysis,
  measured: MeasuredFigures,
  verification: VerificationFigures | null,
  today: string,
  judge: Judge,
): Analysis {
  const { setup, source } = analysis;
  if (setup === null) return analysis;
  const notes = [...setup.notes, ...measured.notes];
  const moved = keptDrift(setup.room, measured);
  const next = judge({ ...setup, measured, verification, drift: moved, notes }, { today });
  return {
    ...analysis,
    setup: next,
    remarks: remarksWithSetup(source.parsed, analysis.remarks, next),
  };
}
