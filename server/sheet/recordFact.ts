// The record at a glance: whether the room is predicted, measured, signed off, or no longer what was signed.

import type { RecordFigures } from '../../core/record/recordFigures.ts';
import type { Setup } from '../../core/setup.ts';
import type { Fact } from './facts.tsx';
import { dueText, stateText } from './recordText.ts';

export function signOffFact({ room, record }: Setup): Fact {
  const signed = room.signedOff;
  const by = signed === null || signed.by === null ? null : `by ${signed.by}`;
  const base = { name: 'Sign-off', path: ['signed_off'], standing: 'stated' } as const;
  const date = signed?.date ?? 'signed, without a date';
  if (record === undefined)
    return { ...base, value: signed === null ? 'not signed off' : date, note: by ?? '' };
  const { signOff, state } = record;
  if (signOff === null) {
    const isOut = state === 'out_of_date';
    return {
      ...base,
      value: isOut ? 'measurements out of date' : 'not signed off',
      standing: state === 'predicted' ? 'predicted' : 'measured',
      note: isOut ? stateText(record) : measuredNote(record),
    };
  }
  const [value, more] =
    state === 'out_of_date'
      ? ['out of date', stateText(record)]
      : state === 'recheck_due'
        ? ['re-check is due', null]
        : [date, signOff.isMeasured ? 'measured' : 'without measurement'];
  const told = state === 'signed' ? by : `signed off ${date}${by === null ? '' : ` ${by}`}`;
  return { ...base, value, note: [told, more, dueText(signOff)].filter(Boolean).join('; ') };
}

/** `measured 2026-11-03 (autumn_2026)`. */
function measuredNote({ sessions }: RecordFigures): string {
  const newest = sessions.find(({ isNewest }) => isNewest);
  if (newest === undefined) return 'nothing measured';
  return `measured ${newest.date ?? 'on an unknown day'} (${newest.session})`;
}
