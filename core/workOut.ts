// Work out: from a room in SI to its Setup, part by part, each recomputed only when what it depends on has changed.

import type { Room } from '../schema/model/room.ts';
import type { Setup } from './setup.ts';

export interface WorkOutOptions {
  /** ISO date, for acceptances and re-checks that end; null where nobody knows. */
  readonly today: string | null;
  /** Where the file gives no temperature. */
  readonly defaultTemperature_k: number;
}

/** Works rooms out; keeps the last answer of each part, so that one worker serves one file. */
export type WorkOut = (room: Room, options: WorkOutOptions) => Setup;
