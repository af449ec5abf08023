// Listening checks as edits of a file: those of the facility that a room lacks, or a list to start from.

import type { SemanticEdit } from '../../core/finding.ts';
import type { Room } from '../../schema/model/room.ts';
import type { ListeningCheck } from '../../schema/model/sessions.ts';
import { quoted } from '../../schema/quote.ts';
import { STARTING_CHECKS } from '../words/startingChecks.ts';

export interface NewCheck {
  readonly id: string;
  readonly play: string;
  readonly listenFor: string | null;
  readonly level: string | null;
}

/** What the facility asks for and the room does not have yet. */
export function askedChecks({ listening = [], askedListening = [] }: Room): readonly NewCheck[] {
  const own = new Set(listening.map(({ id }) => id));
  return askedListening.flatMap(({ id, play, listenFor, level }) =>
    own.has(id) || play === null ? [] : [{ id, play, listenFor, level: levelText(level) }],
  );
}

export function startingChecks(): readonly NewCheck[] {
  return STARTING_CHECKS;
}

/** @param as `open` in a room, where the result is not known yet; `asked` in a facility, where there is none */
export function newChecks(
  checks: readonly NewCheck[],
  as: 'asked' | 'open',
): readonly SemanticEdit[] {
  return checks.map(({ id, play, listenFor, level }) => {
    const fields = [
      `play: ${quoted(play)}`,
      listenFor === null ? null : `listen_for: ${quoted(listenFor)}`,
      level === null ? null : `level: ${level}`,
      as === 'open' ? 'result: unknown' : null,
    ].filter((field) => field !== null);
    return { do: 'set', path: ['listening', id], value: `{ ${fields.join(', ')} }` };
  });
}

/** As a file writes it. */
export function levelText(level: ListeningCheck['level']): string | null {
  return level === null ? null : `${Number(level.level_db.toFixed(1))} dB${level.weighting}`;
}
