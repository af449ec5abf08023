// A synthesised room with something otherwise than its file, judged as the server judges it: for faults of known size.

import type { LikelyCause, SessionVerdict } from '../../core/measured/verification.ts';
import { withMeasured } from '../../core/measured/withMeasured.ts';
import type { Setup } from '../../core/setup.ts';
import { withField } from '../../core/withField.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { HERON } from './heronTruth.ts';
import type { RoomTruth } from './roomTruth.ts';
import { measuredTake, type PlannedTake, sessionOf } from './takes.ts';

/** Each main, the subwoofer, both together, and each main a little off the middle. */
const TAKES: readonly PlannedTake[] = [
  { id: 'left_mix', drive: 'L', sounding: ['left'], seat: 'mix' },
  { id: 'right_mix', drive: 'R', sounding: ['right'], seat: 'mix' },
  { id: 'sub_mix', drive: 'L', sounding: ['sub'], seat: 'mix' },
  { id: 'both_mix', drive: 'L', sounding: ['left', 'sub'], seat: 'mix' },
  { id: 'left_side', drive: 'L', sounding: ['left'], seat: 'mix', off_m: [-0.25, 0, 0] },
  { id: 'right_side', drive: 'R', sounding: ['right'], seat: 'mix', off_m: [0.25, 0, 0] },
];
/** Air shows in what lies near against what lies far. */
const NEAR_AND_FAR: readonly PlannedTake[] = [
  ...TAKES.slice(0, 3),
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
/** How far the microphone really stands from where it should, one deviation. */
const PLACE_M = 0.006;

export type TakeSet = keyof typeof SETS;

const planned = new Map<TakeSet, Setup>();

function planOf(set: TakeSet): Setup {
  const known = planned.get(set);
  if (known !== undefined) return known;
  const heron = demoRooms().find(({ name }) => name === 'heron')?.setup;
  if (heron === undefined) throw new RangeError('no room heron');
  const sessions = [sessionOf(HERON, SETS[set], HERON.temperature_k)];
  const setup = withField({ ...heron, room: { ...heron.room, sessions } }, { today: null });
  planned.set(set, setup);
  return setup;
}

export function judgedFault(truth: RoomTruth, seed: number, set: TakeSet = 'near'): SessionVerdict {
  const takes = SETS[set].map((take, i) =>
    measuredTake(truth, take, 1000 * seed + i, -6 + (seed % 7), PLACE_M),
  );
  const session = { session: 'seeded', path: ['sessions', 'seeded'], date: null, averages: [] };
  const { verification } = withMeasured(planOf(set), {
    sessions: [{ ...session, takes }],
    notes: [],
  });
  const [verdict] = verification?.sessions ?? [];
  if (verdict === undefined) throw new RangeError('no verdict');
  return verdict;
}

/** The likeliest cause, if it is of this kind. */
export function causeOf(verdict: SessionVerdict, kind: string): LikelyCause | null {
  const [first] = verdict.causes;
  return first?.kind === kind ? first : null;
}
