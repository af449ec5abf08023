// Listening checks: those of the room laid over those that the facility asks for, and which of them hold for the set-up as it is.

import type { Room } from '../../schema/model/room.ts';
import type { ListeningCheck } from '../../schema/model/sessions.ts';
import type { Fingerprint } from './fingerprint.ts';
import type { ListeningRecord, Tie } from './recordFigures.ts';
import { lastOtherSetup, tieOf } from './tie.ts';

/**
 * A check that names no fingerprint was made before a change if it is no later than something that is out of date.
 *
 * @param dated sessions and sign-off
 * @returns the room's in the file's order, then those that only the facility asks for
 */
export function listeningRecords(
  { listening = [], askedListening = [] }: Pick<Room, 'listening' | 'askedListening'>,
  dated: readonly Tie[],
  fingerprint: Fingerprint,
): readonly ListeningRecord[] {
  const lastOther = lastOtherSetup(dated);
  const asked = new Map(askedListening.map((check) => [check.id, check]));
  const own = new Set(listening.map(({ id }) => id));
  const recorded = (check: ListeningCheck): ListeningRecord => {
    const { id, path, date, by, result } = check;
    const from = asked.get(id);
    const tie = tieOf(check.setup ?? null, fingerprint);
    const isEarlier =
      tie.tie === 'untied' && date !== null && lastOther !== null && date <= lastOther;
    const isBefore = tie.tie === 'out_of_date' || isEarlier;
    return {
      check: id,
      path: own.has(id) ? path : null,
      play: check.play ?? from?.play ?? null,
      listenFor: check.listenFor ?? from?.listenFor ?? null,
      level: check.level ?? from?.level ?? null,
      result,
      date,
      by,
      ...tie,
      isAsked: from !== undefined,
      state: result === null ? 'open' : isBefore ? 'before_change' : 'done',
    };
  };
  return [...listening, ...askedListening.filter(({ id }) => !own.has(id))].map(recorded);
}
