// All that was searched for and still holds, and how it is told to the pane.

import type { Setup } from '../../core/setup.ts';
import { createPlacements, type Placements } from '../placements.ts';
import type { Found } from '../protocol/search.ts';
import { createFits, type Fits } from './fits.ts';
import { foundMoves, foundPlaces } from './found.ts';
import { foundFits } from './foundFits.ts';
import { createMoves, type Moves } from './moves.ts';

export interface Searches {
  readonly placements: Placements;
  readonly fits: Fits;
  readonly moves: Moves;
  readonly forget: (uri: string) => void;
}

export function createSearches(): Searches {
  const [placements, fits, moves] = [createPlacements(), createFits(), createMoves()];
  return {
    placements,
    fits,
    moves,
    forget: (uri) => {
      placements.forget(uri);
      fits.forget(uri);
      moves.forget(uri);
    },
  };
}

/** What holds of this setup; null where nothing was searched for. */
export function foundIn(
  { placements, fits, moves }: Searches,
  uri: string,
  setup: Setup,
): Found | null {
  const { subwoofers, speakers, devices } = setup.room;
  const places = subwoofers.flatMap(({ id }) => {
    const placement = placements.known(uri, id, setup);
    return placement === null ? [] : [foundPlaces(setup, id, placement)];
  });
  const all = [...subwoofers, ...speakers, ...devices].flatMap(({ id }) =>
    fits.known(uri, id, setup).flatMap((one) => foundFits(setup, one)),
  );
  const moved = (['mains', 'seat'] as const).flatMap((what) => {
    const result = moves.known(uri, what, setup);
    return result === null ? [] : [foundMoves(setup, what, result)];
  });
  const everywhere = [...places, ...moved];
  return everywhere.length === 0 && all.length === 0 ? null : { places: everywhere, fits: all };
}
