// Fits of equalisers that still hold: until the room changes in more than the bands of the equaliser that was fitted.

import type { MeasuredResponses } from '../../core/equaliser/measuredResponses.ts';
import type { RoomFit } from '../../core/equaliser/roomFit.ts';
import type { Setup } from '../../core/setup.ts';

export interface DeviceFits {
  readonly fits: readonly RoomFit[];
  /** null where they are to the prediction. */
  readonly from: Pick<MeasuredResponses, 'session' | 'takes'> | null;
}

export interface Fits {
  /** One fit a device and a session; of the prediction beside those of takes. */
  readonly remember: (uri: string, device: string, setup: Setup, found: DeviceFits) => void;
  /** Those that hold, the latest last. */
  readonly known: (uri: string, device: string, setup: Setup) => readonly DeviceFits[];
  readonly forget: (uri: string) => void;
}

interface Remembered {
  readonly device: string;
  readonly of: string;
  readonly found: DeviceFits;
}

export function createFits(): Fits {
  const remembered = new Map<string, readonly Remembered[]>();
  return {
    remember: (uri, device, setup, found) => {
      const others = (remembered.get(uri) ?? []).filter(
        (one) => one.device !== device || one.found.from?.session !== found.from?.session,
      );
      remembered.set(uri, [...others, { device, of: roomBut(setup, found), found }]);
    },
    known: (uri, device, setup) =>
      (remembered.get(uri) ?? [])
        .filter((one) => one.device === device && one.of === roomBut(setup, one.found))
        .map(({ found }) => found),
    forget: (uri) => void remembered.delete(uri),
  };
}

/** All that a fit depends on, but for the bands that it brings. */
function roomBut(
  { room, air, referenceSeat, measured }: Setup,
  { fits, from }: DeviceFits,
): string {
  const { space, seats, speakers, subwoofers, devices, wiring, sets, targets } = room;
  const fitted = new Set(fits.map(({ path }) => path.join('\n')));
  const settings = room.settings
    .map((of) => ({ ...of, values: of.values.filter(({ path }) => !fitted.has(path.join('\n'))) }))
    .filter(({ values, sampleRate_hz }) => 0 < values.length || sampleRate_hz !== null);
  const takes =
    from === null
      ? null
      : [
          room.sessions?.find(({ id }) => id === from.session)?.takes,
          measured?.sessions
            .find(({ session }) => session === from.session)
            ?.takes.filter(({ take }) => from.takes.includes(take))
            .map(({ response }) => response?.level_db),
        ];
  const things = { space, seats, speakers, subwoofers, devices, wiring, sets, targets };
  return JSON.stringify([things, settings, air, referenceSeat, takes]);
}
