// Candidates as plain data for the pane: figures, words, and the edits that would write each into the file.

import type { MovedCandidate, MovedResult } from '../../core/search/mainsAndSeat.ts';
import type { RoomPlacement } from '../../core/search/roomPlacement.ts';
import type { PlacementCandidate } from '../../core/search/searchTask.ts';
import type { Setup } from '../../core/setup.ts';
import { showFor } from '../../core/show.ts';
import { placementEdits } from '../placementEdits.ts';
import type { Moveable } from '../protocol/commands.ts';
import type { FoundPlaces, PlaceFigures } from '../protocol/search.ts';
import { moveEdits } from '../words/moveWords.ts';
import { REFERENCE_PA_DB, settingsText } from '../words/placementWords.ts';

export function foundPlaces(
  setup: Setup,
  subwoofer: string,
  placement: RoomPlacement,
): FoundPlaces {
  const show = showFor(setup.room.habits);
  const { current, candidates, seats, notes } = placement;
  return {
    what: 'subwoofer',
    name: subwoofer,
    seatCount: seats.length,
    current: current === null ? null : figuresOf(current),
    candidates: candidates.flatMap((candidate) => {
      const [at] = candidate.positions;
      const edits = placementEdits(setup, placement, candidate, show);
      if (at === undefined || edits === null) return [];
      const settings = settingsText(placement, candidate, show);
      const { bestIn, measured } = candidate;
      return [
        {
          ...figuresOf(candidate),
          at,
          otherAt: null,
          bestIn,
          settings,
          isMeasured: measured[0] === true,
          edits,
        },
      ];
    }),
    notes: notes.map(({ message }) => message),
  };
}

function figuresOf({
  flatness_db,
  spread_db,
  output_db,
  forgiveness_m,
}: PlacementCandidate): PlaceFigures {
  return {
    flatness_db,
    spread_db,
    level_dbspl: output_db + REFERENCE_PA_DB,
    forgiveness_m: forgiveness_m[0] ?? null,
  };
}

export function foundMoves(
  { room, referenceSeat }: Setup,
  what: Moveable,
  { current, candidates }: MovedResult,
): FoundPlaces {
  const show = showFor(room.habits);
  const figures = ({ flatness_db, spread_db }: MovedCandidate): PlaceFigures => ({
    flatness_db,
    spread_db,
    level_dbspl: null,
    forgiveness_m: null,
  });
  return {
    what,
    name: what === 'mains' ? 'main pair' : (referenceSeat ?? 'seat'),
    seatCount: room.seats.filter(({ at }) => at !== null).length,
    current: current === null ? null : figures(current),
    candidates: candidates.flatMap((candidate) => {
      const [at, otherAt = null] = Object.values(candidate.places);
      const edits = moveEdits(what, candidate, show);
      const rest = { bestIn: [], settings: null, isMeasured: false, edits };
      return at === undefined ? [] : [{ ...figures(candidate), at, otherAt, ...rest }];
    }),
    notes: [],
  };
}
