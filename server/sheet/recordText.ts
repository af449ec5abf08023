// The record in words: its state, what holds until when, what has moved.

import type { SessionDrift, TakeDrift } from '../../core/record/driftFigures.ts';
import { changedText, partsText } from '../../core/record/partWords.ts';
import type { RecordFigures, SignOffRecord, Tie } from '../../core/record/recordFigures.ts';
import type { Show } from '../../core/show.ts';

/** `signed off`, `signed off, out of date: places have changed`. */
export function stateText({ state, signOff, sessions }: RecordFigures): string {
  switch (state) {
    case 'predicted':
      return 'predicted, nothing measured';
    case 'measured':
      return 'measured, not signed off';
    case 'signed':
      return signOff?.isMeasured === false ? 'signed off without measurement' : 'signed off';
    case 'recheck_due':
      return 'signed off, re-check is due';
    case 'out_of_date': {
      const last = signOff ?? sessions.find(({ isNewest }) => isNewest);
      const what = signOff === null ? 'measured' : 'signed off';
      return `${what}, out of date: ${changedText(last?.changed ?? [])} since`;
    }
  }
}

/** `in date`, `out of date: settings have changed`. */
export function tieText({ tie, changed }: Pick<Tie, 'tie' | 'changed'>): string {
  switch (tie) {
    case 'in_date':
      return 'in date';
    case 'out_of_date':
      return `out of date: ${changedText(changed)}`;
    case 'untied':
      return 'without a fingerprint';
    case 'unknown':
      return 'cannot be told while the file has errors';
  }
}

/** `to be checked again by 2027-11-04`; empty where nothing says so. */
export function dueText({ due, isDue }: SignOffRecord): string {
  if (due === null) return '';
  return isDue === true ? `was to be checked again by ${due}` : `to be checked again by ${due}`;
}

/** What a take did from one session to the next, moved or not. */
export function driftText(take: TakeDrift, show: Show): string {
  const { response, level_db, arrival, isPolarityTurned, decay } = take;
  const said = [
    response &&
      `response ${show.level(response.rms_db)} rms, most ${show.level(response.worst.moved_db)} at ${show.frequency(response.worst.frequency_hz)}`,
    level_db === null ? null : `level ${show.level(level_db)}`,
    arrival && `arrival ${show.time(arrival.moved_s)}`,
    arrival === null || arrival.byAir_s === null
      ? null
      : `${show.time(arrival.byAir_s)} of it by the air`,
    isPolarityTurned ? 'polarity turned' : null,
    0 < decay.length ? `decay in ${decay.length} octaves` : null,
  ].filter((part) => part !== null);
  return said.length === 0 ? 'nothing that both tell' : said.join(', ');
}

/** `since spring_2026 (2026-04-01)`, and what is known to have changed. */
export function pairText({ earlier, later, earlierDate, changed }: SessionDrift): string {
  const between =
    changed === null
      ? 'the set-ups cannot be compared'
      : changed.length === 0
        ? 'same set-up'
        : `another set-up: ${partsText(changed)}`;
  return `${later} since ${earlier} (${earlierDate}), ${between}`;
}

/** Goes with every list that people are to play. */
export const LISTENING_CAUTION =
  'Listen at a moderate level and in short turns, with pauses in quiet: loud sound harms hearing for good. Rules on noise at work hold here too.';
