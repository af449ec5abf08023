// The room Heron with takes that the synthesis makes of a truth: its plan, and the verdicts on them, for tests over many seeds.

import type { SessionVerdict } from '../../core/measured/verification.ts';
import type { Setup } from '../../core/setup.ts';
import { withField } from '../../core/withField.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { withMeasured } from '../support/withMeasured.ts';
import { HERON } from './heronTruth.ts';
import type { RoomTruth, SourceName } from './roomTruth.ts';
import { measuredTake, type PlannedTake, sessionOf } from './takes.ts';

/** Each main, the subwoofer, both together, and each main a little off the middle. */
export const TAKES: readonly PlannedTake[] = [
  { id: 'left_mix', drive: 'L', sounding: ['left'], seat: 'mix' },
  { id: 'right_mix', drive: 'R', sounding: ['right'], seat: 'mix' },
  { id: 'sub_mix', drive: 'L', sounding: ['sub'], seat: 'mix' },
  { id: 'both_mix', drive: 'L', sounding: ['left', 'sub'], seat: 'mix' },
  { id: 'left_side', drive: 'L', sounding: ['left'], seat: 'mix', off_m: [-0.25, 0, 0] },
  { id: 'right_side', drive: 'R', sounding: ['right'], seat: 'mix', off_m: [0.25, 0, 0] },
];
export const MIDDLE_ONLY: readonly PlannedTake[] = TAKES.slice(0, 3);
export const SIDES_ONLY: readonly PlannedTake[] = TAKES.slice(4);

/** How far the microphone stands from where it should, one deviation. */
const PLACE_M = 0.006;

/** One day's takes of a truth. */
export interface Day {
  readonly id: string;
  readonly date: string;
  readonly takes: readonly PlannedTake[];
  readonly temperature_k: number;
}

export function seededDay(takes: readonly PlannedTake[]): Day {
  return { id: 'seeded', date: '2026-11-03', takes, temperature_k: HERON.temperature_k };
}

/** @param days each becomes a session of the room file */
export function plannedRoom(days: readonly Day[]): Setup {
  const heron = demoRooms().find(({ name }) => name === 'heron')?.setup;
  if (heron === undefined) throw new Error('no such room');
  const sessions = days.map(({ id, date, takes, temperature_k }) => ({
    ...sessionOf(HERON, takes, temperature_k),
    id,
    date,
    path: ['sessions', id],
  }));
  return withField({ ...heron, room: { ...heron.room, sessions } }, { today: null });
}

/** @param days what was taken on each, and what was true then */
export function verdictsOn(
  setup: Setup,
  days: readonly (Day & { readonly truth: RoomTruth; readonly seed: number })[],
): readonly SessionVerdict[] {
  const sessions = days.map(({ id, date, takes, truth, seed }) => ({
    session: id,
    path: ['sessions', id],
    date,
    averages: [],
    takes: takes.map((take, i) =>
      measuredTake(truth, take, 1000 * seed + i, -6 + (seed % 7), PLACE_M),
    ),
  }));
  return withMeasured(setup, { sessions, notes: [] }).verification?.sessions ?? [];
}

export function verdictOn(
  setup: Setup,
  truth: RoomTruth,
  seed: number,
  takes: readonly PlannedTake[] = TAKES,
): SessionVerdict {
  const [verdict] = verdictsOn(setup, [{ ...seededDay(takes), truth, seed }]);
  if (verdict === undefined) throw new Error('no verdict');
  return verdict;
}

/** A truth with something otherwise than the file says. */
export const otherwise = {
  turned: (truth: RoomTruth, who: SourceName): RoomTruth => ({
    ...truth,
    inverted: { ...truth.inverted, [who]: !truth.inverted[who] },
  }),
  late: (truth: RoomTruth, who: SourceName, by_s: number): RoomTruth => ({
    ...truth,
    delay_s: { ...truth.delay_s, [who]: truth.delay_s[who] + by_s },
  }),
  louder: (truth: RoomTruth, who: SourceName, by_db: number): RoomTruth => ({
    ...truth,
    level_db: { ...truth.level_db, [who]: truth.level_db[who] + by_db },
  }),
  swapped: (truth: RoomTruth): RoomTruth => ({
    ...truth,
    playsAt: { ...truth.playsAt, left: 'right', right: 'left' },
  }),
  moved: (truth: RoomTruth, who: SourceName, to: RoomTruth['at'][SourceName]): RoomTruth => ({
    ...truth,
    at: { ...truth.at, [who]: to },
  }),
} as const;
