// A room's analysis with its low end in it: notes and findings of the second phase beside those of the first.

import type { FieldFigures } from '../../core/fieldFigures.ts';
import type { FieldPart } from '../../core/parts/field.ts';
import type { Judge } from '../../core/rules/judge.ts';
import type { Setup } from '../../core/setup.ts';
import type { Room } from '../../schema/model/room.ts';
import type { Analysis } from '../analysis.ts';
import { remarksWithSetup } from '../remarks/remarksOf.ts';

/**
 * @param part the field of this setup, or of the one before it while the new one is worked out
 * @param today an ISO date, for acceptances that end
 * @param judge this file's own
 */
export function mergedField(
  analysis: Analysis,
  part: FieldPart,
  today: string,
  judge: Judge,
): Analysis {
  const { setup, source } = analysis;
  if (setup === null) return analysis;
  const { field } = part;
  const notes = [...setup.notes, ...part.notes, ...(field?.notes ?? [])];
  const next: Setup = judge({ ...setup, field, notes }, { today });
  return {
    ...analysis,
    setup: next,
    remarks: remarksWithSetup(source.parsed, analysis.remarks, next),
  };
}

/** Whether everything that a field speaks of is still there: then it may stand in while the new one is worked out. */
export function isStillAbout(field: FieldFigures | null, room: Room): boolean {
  if (field === null) return false;
  const ids = new Set([...room.seats, ...room.speakers, ...room.subwoofers].map(({ id }) => id));
  return field.seats.every(
    ({ seat, sources }) => ids.has(seat) && sources.every(({ source }) => ids.has(source)),
  );
}
