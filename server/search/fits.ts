// Fits of equalisers that still hold: until the room changes in more than the bands of the equaliser that was fitted.

import type { RoomFit } from '../../core/equaliser/roomFit.ts';
import type { Setup } from '../../core/setup.ts';

export interface Fits {
  readonly remember: (uri: string, device: string, setup: Setup, found: readonly RoomFit[]) => void;
  /** null where nothing was fitted, or where it holds no more. */
  readonly known: (uri: string, device: string, setup: Setup) => readonly RoomFit[] | null;
  readonly forget: (uri: string) => void;
}

export function createFits(): Fits {
  const found = new Map<
    string,
    Map<string, { readonly of: string; readonly fits: readonly RoomFit[] }>
  >();
  return {
    remember: (uri, device, setup, fits) => {
      const own = found.get(uri) ?? new Map();
      own.set(device, { of: roomBut(setup, fits), fits });
      found.set(uri, own);
    },
    known: (uri, device, setup) => {
      const one = found.get(uri)?.get(device);
      return one !== undefined && one.of === roomBut(setup, one.fits) ? one.fits : null;
    },
    forget: (uri) => void found.delete(uri),
  };
}

function roomBut({ room, air, referenceSeat }: Setup, fits: readonly RoomFit[]): string {
  const { space, seats, speakers, subwoofers, devices, wiring, sets, targets } = room;
  const fitted = new Set(fits.map(({ path }) => path.join('\n')));
  const settings = room.settings
    .map((of) => ({ ...of, values: of.values.filter(({ path }) => !fitted.has(path.join('\n'))) }))
    .filter(({ values, sampleRate_hz }) => 0 < values.length || sampleRate_hz !== null);
  const things = { space, seats, speakers, subwoofers, devices, wiring, sets, targets };
  return JSON.stringify([things, settings, air, referenceSeat]);
}
