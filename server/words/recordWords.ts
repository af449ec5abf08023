// A session, a check or the sign-off against the set-up as it is, as an explanation.

import { partsText } from '../../core/record/partWords.ts';
import type { Tie } from '../../core/record/recordFigures.ts';
import type { Setup } from '../../core/setup.ts';
import type { Path } from '../../schema/model/path.ts';
import { dueText, tieText } from '../sheet/recordText.ts';
import { code, type Explanation } from './explanation.ts';

/** null where nothing of the record stands at the path. */
export function explainRecord({ record }: Setup, [section, id]: Path): Explanation | null {
  if (record === undefined) return null;
  switch (section) {
    case 'signed_off':
      return record.signOff === null
        ? null
        : explained('The sign-off', record.signOff, [dueText(record.signOff)]);
    case 'sessions': {
      const session = record.sessions.find((one) => one.session === id);
      return session === undefined ? null : explained(code(session.session), session, []);
    }
    case 'listening': {
      const check = record.listening.find((one) => one.check === id);
      return check === undefined || check.setup === null
        ? null
        : explained(code(check.check), check, []);
    }
    default:
      return null;
  }
}

function explained(what: string, tie: Tie, more: readonly string[]): Explanation {
  const differ = tie.changed.length === 0 ? '' : `differs from now in ${partsText(tie.changed)}`;
  return {
    title: `${what} and the set-up as it is`,
    lines: [tieText(tie), differ, ...more].filter(Boolean),
    source: 'the fingerprints’ digits: room, places, gear, wiring, settings',
  };
}

/** A few words beside a fingerprint: `in date`, `places changed`. */
export function tieHint({ tie, changed }: Tie, isDue: boolean): string | null {
  if (tie === 'in_date') return isDue ? 're-check is due' : 'in date';
  return tie === 'out_of_date' ? `${partsText(changed)} changed` : null;
}
