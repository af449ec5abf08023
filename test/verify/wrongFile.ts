// A room file that is wrong by chance within what it leaves open, and what the fit makes of it.

import { chanceFrom } from '../../core/measure/chance.ts';
import { type RoomFromTakes, roomFromTakes } from '../../core/measured/roomFromTakes.ts';
import { decayTimeOf_s, roomText, roomWithTakes } from './bassTakes.ts';
import { type Known, OPEN_M } from './knownRooms.ts';

export interface Tried {
  readonly found: RoomFromTakes;
  /** What was wrong with the file. */
  readonly less_m: readonly number[];
  readonly ratio: number;
}

const done = new Map<Known, Map<string, Tried>>();

/** Each once: rows of the accuracy report and tests ask for the same ones. */
export function tried(of: Known, seed: number, to_hz: number): Tried {
  const own = done.get(of) ?? new Map<string, Tried>();
  done.set(of, own);
  const found = own.get(`${seed} ${to_hz}`) ?? triedAnew(of, seed, to_hz);
  own.set(`${seed} ${to_hz}`, found);
  return found;
}

/** The file rings longer by `ratio`, and its sides are short by random parts of what is open. */
function triedAnew({ room, beta, truths }: Known, seed: number, to_hz: number): Tried {
  const next = chanceFrom(seed);
  const less_m = OPEN_M.map((half) => half * (2 * next() - 1));
  const ratio = Math.exp(0.4 * (2 * next() - 1));
  const file = { ...room, decay_s: decayTimeOf_s(room, beta) * ratio };
  const found = roomFromTakes(roomWithTakes(roomText(file, less_m), truths, seed), 'made', {
    to_hz,
  });
  if (typeof found === 'string') throw new Error(found);
  return { found, less_m, ratio };
}
