// Signing a room off for the first time: day and set-up are known, the name is whoever measured last, or left to be written.

import type { SemanticEdit } from '../../core/finding.ts';
import type { RecordFigures } from '../../core/record/recordFigures.ts';
import type { Setup } from '../../core/setup.ts';
import { quoted } from '../../schema/quote.ts';

/** Where neither the room nor its policy says. Yearly: common practice, no source. */
const USUAL_RECHECK = '12 months';

/** At most one; none while the day or the set-up is not known. */
export function signOffEdits(
  { room: { policy } }: Pick<Setup, 'room'>,
  { fingerprint: { text }, today, sessions }: RecordFigures,
): readonly { readonly title: string; readonly edits: readonly SemanticEdit[] }[] {
  if (text === null || today === null) return [];
  const by =
    sessions.findLast((session) => session.isNewest && session.by !== null)?.by ??
    'write your name here';
  const fields = [
    `date: ${today}`,
    `by: ${quoted(by)}`,
    `setup: ${text}`,
    ...(policy.recheck_months === null ? [`recheck: ${USUAL_RECHECK}`] : []),
  ];
  const value = `{ ${fields.join(', ')} }`;
  return [{ title: 'Sign off this set-up', edits: [{ do: 'set', path: ['signed_off'], value }] }];
}
