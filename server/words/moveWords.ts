// Places for the main pair and the seat, in words, and as edits of the room file.

import type { SemanticEdit } from '../../core/finding.ts';
import type { MovedCandidate } from '../../core/search/mainsAndSeat.ts';
import type { Show } from '../../core/show.ts';
import type { Moveable } from '../protocol/commands.ts';

/** "left x 1.30 m, y 0.90 m; right x 3.32 m, y 0.90 m". */
export function placesText({ places }: Pick<MovedCandidate, 'places'>, show: Show): string {
  return Object.entries(places)
    .map(([id, { x_m, y_m }]) => `${id} x ${show.length(x_m)}, y ${show.length(y_m)}`)
    .join('; ');
}

/** "flatness 5.8 dB, seat spread 1.3 dB". */
export function movedJudgement({ flatness_db, spread_db }: MovedCandidate): string {
  return `flatness ${flatness_db.toFixed(1)} dB, seat spread ${spread_db.toFixed(1)} dB`;
}

/** All places of a candidate; heights stay. */
export function moveEdits(
  what: Moveable,
  { places }: Pick<MovedCandidate, 'places'>,
  show: Show,
): readonly SemanticEdit[] {
  return Object.entries(places).flatMap(([id, { x_m, y_m }]): readonly SemanticEdit[] => {
    const at = [what === 'seat' ? 'seats' : 'speakers', id, 'at'];
    return [
      { do: 'set', path: [...at, 'x'], value: show.length(x_m) },
      { do: 'set', path: [...at, 'y'], value: show.length(y_m) },
    ];
  });
}
