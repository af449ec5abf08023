// Placements that were searched for and still hold: until the room changes in more than what a candidate of theirs would change.

import type { RoomPlacement } from '../core/search/roomPlacement.ts';
import { isSpotTake } from '../core/search/spots.ts';
import type { Setup } from '../core/setup.ts';

export interface Placements {
  readonly remember: (uri: string, subwoofer: string, setup: Setup, found: RoomPlacement) => void;
  /** null where none was searched for, or where what was found holds no more. */
  readonly known: (uri: string, subwoofer: string, setup: Setup) => RoomPlacement | null;
  readonly forget: (uri: string) => void;
}

export function createPlacements(): Placements {
  const found = new Map<
    string,
    Map<string, { readonly of: string; readonly placement: RoomPlacement }>
  >();
  return {
    remember: (uri, subwoofer, setup, placement) => {
      const own = found.get(uri) ?? new Map();
      own.set(subwoofer, { of: roomBut(setup, subwoofer, placement), placement });
      found.set(uri, own);
    },
    known: (uri, subwoofer, setup) => {
      const one = found.get(uri)?.get(subwoofer);
      if (one === undefined || one.of !== roomBut(setup, subwoofer, one.placement)) return null;
      return one.placement;
    },
    forget: (uri) => void found.delete(uri),
  };
}

/** All that a search depends on, but for the place of the sub that it moves and the settings that its candidates bring. */
function roomBut(
  { room, air, referenceSeat, measured }: Setup,
  subwoofer: string,
  { candidates }: RoomPlacement,
): string {
  const { space, seats, speakers, subwoofers, devices, wiring, cables, sets, targets } = room;
  const others = subwoofers.map((sub) => (sub.id === subwoofer ? { ...sub, at: null } : sub));
  const brought = new Set(
    candidates.flatMap(({ dialIn }) => dialIn.map(({ path }) => path.join('\n'))),
  );
  const settings = room.settings
    .map((of) => ({
      ...of,
      values: of.values.filter(({ path }) => !brought.has(path.join('\n'))),
    }))
    .filter(({ values, sampleRate_hz }) => 0 < values.length || sampleRate_hz !== null);
  const takes = (measured?.sessions ?? [])
    .flatMap((session) => session.takes)
    .filter((take) => isSpotTake(take, room))
    .map(({ path, at, response }) => [path, at, response !== null]);
  const about = {
    takes,
    space,
    seats,
    speakers,
    devices,
    wiring,
    cables,
    settings,
    sets,
    targets,
    air,
  };
  return JSON.stringify([about, others, referenceSeat]);
}
