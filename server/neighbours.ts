// The facility's other rooms: few things depend on them, and they take the longest to read, so that a first answer need not wait.

import type { Source, Surroundings } from './analysis.ts';
import { roomGlobs } from './files/globsOf.ts';
import type { Sources } from './sources.ts';

export interface Background {
  /** Does something once the answers that somebody waits for were given. */
  readonly later: (act: () => Promise<void>) => void;
  /** The rooms were read: what is said of a room may be another now. */
  readonly done: () => void;
}

export interface Neighbours {
  /** All rooms of the facility; none of them while they are read in the background, and none without a facility. */
  readonly of: (around: Omit<Surroundings, 'rooms'>) => Promise<readonly Source[]>;
  /** Files came, went or changed. */
  readonly forget: () => void;
}

/** @param background null where every answer waits */
export function createNeighbours(sources: Sources, background: Background | null): Neighbours {
  /** By fence: whether its rooms were read. */
  const wasRead = new Map<string, boolean>();

  function roomsOf({ facility, fence }: Omit<Surroundings, 'rooms'>): Promise<readonly Source[]> {
    return sources.below(fence, roomGlobs(facility?.parsed ?? null), 'room');
  }

  return {
    async of(around) {
      const { fence } = around;
      if (background === null || wasRead.get(fence)) return roomsOf(around);
      if (!wasRead.has(fence)) {
        wasRead.set(fence, false);
        background.later(async () => {
          await roomsOf(around);
          wasRead.set(fence, true);
          background.done();
        });
      }
      return [];
    },
    forget: () => wasRead.clear(),
  };
}
