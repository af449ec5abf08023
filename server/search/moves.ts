// Places for the main pair and for the seat that were searched for and still hold: until the room changes in more than where they are.

import type { MovedResult } from '../../core/search/mainsAndSeat.ts';
import type { Setup } from '../../core/setup.ts';
import type { Moveable } from '../protocol/commands.ts';

export interface Moves {
  readonly remember: (uri: string, what: Moveable, setup: Setup, found: MovedResult) => void;
  /** null where none was searched for, or where what was found holds no more. */
  readonly known: (uri: string, what: Moveable, setup: Setup) => MovedResult | null;
  readonly forget: (uri: string) => void;
}

export function createMoves(): Moves {
  const found = new Map<
    string,
    Map<Moveable, { readonly of: string; readonly result: MovedResult }>
  >();
  return {
    remember: (uri, what, setup, result) => {
      const own = found.get(uri) ?? new Map();
      own.set(what, { of: roomBut(setup, result), result });
      found.set(uri, own);
    },
    known: (uri, what, setup) => {
      const one = found.get(uri)?.get(what);
      return one !== undefined && one.of === roomBut(setup, one.result) ? one.result : null;
    },
    forget: (uri) => void found.delete(uri),
  };
}

function roomBut({ room, air, referenceSeat }: Setup, { candidates }: MovedResult): string {
  const { space, seats, speakers, subwoofers, devices, wiring, settings, sets, targets } = room;
  const moved = new Set(candidates.flatMap(({ places }) => Object.keys(places)));
  const still = <Thing extends { readonly id: string }>(things: readonly Thing[]) =>
    things.map((thing) => (moved.has(thing.id) ? { ...thing, at: null } : thing));
  const things = [still(seats), still(speakers), subwoofers, devices];
  return JSON.stringify([things, space, wiring, settings, sets, targets, air, referenceSeat]);
}
