// Candidates with their numbers, in words: for marks, the list, and who cannot see either.

import type { Show } from '../../../core/show.ts';
import type { Point } from '../../../schema/model/quantities.ts';
import type { Found, FoundPlace, FoundPlaces, PlaceFigures } from '../../protocol/search.ts';
import type { Trial } from '../live.ts';

export interface NumberedCandidate {
  readonly of: FoundPlaces;
  /** From 1, best first. */
  readonly number: number;
  readonly place: FoundPlace;
  readonly trial: Trial;
}

export function candidatesOf({ places }: Found): readonly NumberedCandidate[] {
  return places.flatMap((of) =>
    of.candidates.map((place, index) => ({
      of,
      number: index + 1,
      place,
      trial: {
        key: `place ${of.what} ${of.name} ${index + 1}`,
        title: `${of.name} at candidate ${index + 1}`,
        edits: place.edits,
      },
    })),
  );
}

/** "Candidate 2 for sub: 2.70 m from the left, 3.40 m from the front; flatness 5.8 dB, seat spread 1.3 dB". */
export function candidateSentence(
  { of, number, place }: NumberedCandidate,
  at: Point,
  show: Show,
): string {
  const where = `${show.length(at.x_m)} from the left, ${show.length(at.y_m)} from the front`;
  const spread = of.seatCount < 2 ? '' : `, seat spread ${place.spread_db.toFixed(1)} dB`;
  return `Candidate ${number} for ${of.name}: ${where}; flatness ${place.flatness_db.toFixed(1)} dB${spread}`;
}

/** "79.1 dB SPL (+1.2 dB)". */
export function levelText({ level_dbspl }: PlaceFigures, current: PlaceFigures | null): string {
  if (level_dbspl === null) return '';
  const before_db = current?.level_dbspl ?? null;
  const more_db = before_db === null ? null : level_dbspl - before_db;
  const sign = more_db !== null && more_db < 0 ? '−' : '+';
  const beside =
    more_db === null || Math.abs(more_db) < 0.05
      ? ''
      : ` (${sign}${Math.abs(more_db).toFixed(1)} dB)`;
  return `${level_dbspl.toFixed(1)} dB SPL${beside}`;
}
