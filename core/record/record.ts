// The record of a room: sessions, sign-off and listening checks, each held against the set-up as it is now.

import type { Room } from '../../schema/model/room.ts';
import { isOver, monthsLater } from '../rules/day.ts';
import { changedParts, type Fingerprint } from './fingerprint.ts';
import { listeningRecords } from './listening.ts';
import type { RecordFigures, SessionRecord, SignOffRecord, Tie } from './recordFigures.ts';
import { tieOf } from './tie.ts';

export type RoomOfRecord = Pick<
  Room,
  'sessions' | 'listening' | 'askedListening' | 'signedOff' | 'policy'
>;

/** @param today ISO date; null where nobody knows: then nothing is due */
export function record(
  room: RoomOfRecord,
  fingerprint: Fingerprint,
  today: string | null,
): RecordFigures {
  const sessions = sessionRecords(room, fingerprint);
  const signOff = signOffRecord(room, sessions, fingerprint, today);
  const dated: readonly Tie[] = [...sessions, ...(signOff === null ? [] : [signOff])];
  return {
    fingerprint,
    today,
    state: stateOf(sessions, signOff),
    sessions,
    signOff,
    listening: listeningRecords(room, dated, fingerprint),
  };
}

function sessionRecords(
  { sessions = [] }: RoomOfRecord,
  fingerprint: Fingerprint,
): readonly SessionRecord[] {
  const latest = sessions
    .filter(({ takes }) => 0 < takes.length)
    .reduce((last, { date }) => (date !== null && last < date ? date : last), '');
  return sessions.map(({ id, path, date, by, setup, takes }) => ({
    session: id,
    path,
    date,
    by,
    takeCount: takes.length,
    isNewest: 0 < takes.length && (date ?? '') === latest,
    ...tieOf(setup, fingerprint),
  }));
}

function signOffRecord(
  { signedOff, policy }: RoomOfRecord,
  sessions: readonly SessionRecord[],
  fingerprint: Fingerprint,
  today: string | null,
): SignOffRecord | null {
  if (signedOff === null) return null;
  const { date, by, setup } = signedOff;
  const months = signedOff.recheck_months ?? policy.recheck_months;
  const due = date === null || months === null ? null : monthsLater(date, months);
  return {
    path: ['signed_off'],
    date,
    by,
    ...tieOf(setup, fingerprint),
    due,
    dueFrom: due === null ? null : signedOff.recheck_months === null ? 'policy' : 'room',
    isDue: due === null || today === null ? null : isOver(due, today),
    isMeasured: sessions.some(
      (session) =>
        0 < session.takeCount &&
        (date === null || session.date === null || session.date <= date) &&
        !isOtherSetup(session.setup, setup),
    ),
  };
}

function isOtherSetup(one: string | null, other: string | null): boolean {
  if (one === null || other === null) return false;
  const changed = changedParts(one, other);
  return changed !== null && 0 < changed.length;
}

function stateOf(
  sessions: readonly SessionRecord[],
  signOff: SignOffRecord | null,
): RecordFigures['state'] {
  if (signOff !== null) {
    if (signOff.tie === 'out_of_date') return 'out_of_date';
    return signOff.isDue === true ? 'recheck_due' : 'signed';
  }
  const measured = sessions.filter(({ takeCount }) => 0 < takeCount);
  if (measured.length === 0) return 'predicted';
  return measured.every(({ tie }) => tie === 'out_of_date') ? 'out_of_date' : 'measured';
}
