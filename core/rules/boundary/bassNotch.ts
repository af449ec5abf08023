// What both boundary rules look at: the notches that walls cut into a loudspeaker's sound at the reference seat.

import type { BoundaryFigures, Setup } from '../../setup.ts';

export type Reflection = BoundaryFigures['reflections'][number];

/** A reflection half as strong as the direct sound: 20 lg(1 − 0.5). Weaker ones make dips that rooms are full of. */
export const DEEP_DB = -6;
/** Half an octave. */
export const HALF_OCTAVE_RATIO: number = Math.SQRT2;
/** Front loudspeakers; what stands elsewhere is bound to its direction. */
const FRONT_RAD = Math.PI / 3;

export function isDeep({ depth_db }: Reflection): boolean {
  return depth_db <= DEEP_DB;
}

export function isWall({ surface }: Reflection): boolean {
  return surface !== 'floor' && surface !== 'ceiling';
}

/** The deepest of several; undefined for none. */
export function deepest(reflections: readonly Reflection[]): Reflection | undefined {
  return reflections.toSorted((a, b) => a.depth_db - b.depth_db)[0];
}

/** Free-standing front loudspeakers, seen from the reference seat. */
export function frontSpeakers({ room, seats, referenceSeat }: Setup): readonly string[] {
  const angles = seats.find(({ id }) => id === referenceSeat)?.angles ?? [];
  return room.speakers.flatMap(({ id, flushIn }) => {
    const azimuth_rad = angles.find(({ source }) => source === id)?.azimuth_rad;
    const isFront = azimuth_rad !== undefined && Math.abs(azimuth_rad) <= FRONT_RAD;
    return isFront && flushIn === null ? [id] : [];
  });
}

/** The frequency at which a loudspeaker is crossed over to a subwoofer, as dialled in; null where it is not. */
export function crossedAt_hz({ crossovers }: Setup, speaker: string): number | null {
  const own = crossovers.find(({ mains, current }) => mains.includes(speaker) && current !== null);
  return own?.current?.filter.frequency_hz ?? null;
}
