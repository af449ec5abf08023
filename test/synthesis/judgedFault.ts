// A synthesised room with something otherwise than its file, judged as the server judges it: for faults of known size.

import type { LikelyCause, SessionVerdict } from '../../core/measured/verification.ts';
import type { Setup } from '../../core/setup.ts';
import type { RoomTruth } from './roomTruth.ts';
import { MIDDLE_ONLY, plannedRoom, seededDay, TAKES, verdictOn } from './seededRoom.ts';
import type { PlannedTake } from './takes.ts';

/** Air shows in what lies near against what lies far. */
const NEAR_AND_FAR: readonly PlannedTake[] = [
  ...MIDDLE_ONLY,
  { id: 'left_producer', drive: 'L', sounding: ['left'], seat: 'producer' },
  { id: 'right_producer', drive: 'R', sounding: ['right'], seat: 'producer' },
];
/**
 * Off the midline a subwoofer on the left can be told from one on the right; both seats lie on it. Of a subwoofer alone a point would be
 * a spot where it could stand.
 */
const BESIDE: readonly PlannedTake[] = [
  ...TAKES,
  { id: 'both_side', drive: 'L', sounding: ['left', 'sub'], seat: 'mix', off_m: [0.6, 0, 0] },
  { id: 'both_back', drive: 'L', sounding: ['left', 'sub'], seat: 'mix', off_m: [-0.5, 0.6, 0] },
];
const SETS = { near: TAKES, near_and_far: NEAR_AND_FAR, beside: BESIDE } as const;

export type TakeSet = keyof typeof SETS;

const planned = new Map<TakeSet, Setup>();

function planOf(set: TakeSet): Setup {
  const known = planned.get(set);
  if (known !== undefined) return known;
  const setup = plannedRoom([seededDay(SETS[set])]);
  planned.set(set, setup);
  return setup;
}

export function judgedFault(truth: RoomTruth, seed: number, set: TakeSet = 'near'): SessionVerdict {
  return verdictOn(planOf(set), truth, seed, SETS[set]);
}

/** The likeliest cause, if it is of this kind. */
export function causeOf(verdict: SessionVerdict, kind: string): LikelyCause | null {
  const [first] = verdict.causes;
  return first?.kind === kind ? first : null;
}
