// Level, delay and polarity of each sub for places that are given: moved freely, then rounded to what the devices can be told.

import type { Steps } from '../../schema/model/gear.ts';
import { nearestStep } from '../signal/steps.ts';
import type { PlacementTask, SubSetting } from './searchTask.ts';
import { type AtSeats, added, drivenBy, drivenMap, groundOf, type Judge } from './sums.ts';

export interface Settled {
  readonly settings: readonly SubSetting[];
  readonly cost_db: number;
}

/** A sub that is turned further from the others' level hardly takes part. Common practice, no source. */
const LEVEL_REACH_DB = 6;
/** Longer waits would be heard as such. @source Tech 3276-like practice; common practice, no source */
const LONGEST_DELAY_s = 0.025;
const FIRST_STEP = { level_db: 3, delay_s: 0.004 } as const;
const LAST_STEP = { level_db: 0.05, delay_s: 0.00005 } as const;
/** Halvings of the step, and rounds at one step. */
const MOST_ROUNDS = 60;

/** The cost of any settings for places that are given. */
function costOf(
  task: PlacementTask,
  judge: Judge,
  placeIndices: readonly number[],
): (settings: readonly SubSetting[]) => number {
  const length = judge.seatCount * judge.frequencyCount;
  const ground = groundOf(task, length);
  const bare = task.subs.map(({ map }, sub) => {
    const from = (placeIndices[sub] ?? 0) * length;
    return {
      ...map,
      re: map.re.subarray(from, from + length),
      im: map.im.subarray(from, from + length),
    };
  });
  return (settings) => {
    const parts = task.subs.flatMap((sub, index): readonly AtSeats[] => {
      const [part, setting] = [bare[index], settings[index]];
      return part && setting ? [drivenMap(part, drivenBy(sub, setting))] : [];
    });
    return judge.exactly(added([ground, ...parts], length));
  };
}

/**
 * The best settings near a start, rounded; the start itself where that is no worse.
 *
 * @source compass search: Hooke & Jeeves, J. ACM 8 (1961) 212
 */
export function settled(
  task: PlacementTask,
  judge: Judge,
  placeIndices: readonly number[],
  start: readonly SubSetting[],
): Settled {
  const cost = costOf(task, judge, placeIndices);
  const began: Settled = { settings: start, cost_db: cost(start) };
  if (!hasFreedom(task)) return began;
  const free = polarities(task, start)
    .map((settings) => descended(task, cost, settings))
    .reduce((one, other) => (other.cost_db < one.cost_db ? other : one));
  const rounded = roundedSettings(task, cost, atRest(task, free.settings));
  return rounded.cost_db < began.cost_db ? rounded : began;
}

export function hasFreedom({ subs, fixed }: PlacementTask): boolean {
  const free = subs.filter(
    ({ ranges }) => ranges.level_db !== null || ranges.delay_s !== null || ranges.canInvert,
  );
  // One sub alone: its settings change nothing of what is judged.
  return 0 < free.length && (fixed !== null || 1 < subs.length);
}

/** Every way of setting the polarity switches; the first sub's stays where nothing else sounds. */
function polarities(
  { subs, fixed }: PlacementTask,
  start: readonly SubSetting[],
): readonly (readonly SubSetting[])[] {
  return start.reduce<readonly (readonly SubSetting[])[]>(
    (all, setting, sub) => {
      const stays = !subs[sub]?.ranges.canInvert || (fixed === null && sub === 0);
      const choices = stays ? [setting] : [setting, { ...setting, inverted: !setting.inverted }];
      return all.flatMap((before) => choices.map((choice) => [...before, choice]));
    },
    [[]],
  );
}

type Kind = 'level_db' | 'delay_s';

/** Downhill by one number at a time, with steps that grow smaller. */
function descended(
  task: PlacementTask,
  cost: (settings: readonly SubSetting[]) => number,
  start: readonly SubSetting[],
): Settled {
  let best: Settled = { settings: start, cost_db: cost(start) };
  let scale = 1;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = best.cost_db;
    task.subs.forEach((_, sub) => {
      for (const kind of ['level_db', 'delay_s'] as const) {
        for (const sign of [1, -1]) {
          const by = sign * Math.max(LAST_STEP[kind], FIRST_STEP[kind] * scale);
          const settings = movedBy(task, best.settings, sub, kind, by);
          if (settings === null) continue;
          const now = cost(settings);
          if (now < best.cost_db) best = { settings, cost_db: now };
        }
      }
    });
    if (best.cost_db < before) continue;
    if (scale * FIRST_STEP.delay_s <= LAST_STEP.delay_s) break;
    scale /= 2;
  }
  return best;
}

/** null where that setting cannot go there. */
function movedBy(
  task: PlacementTask,
  settings: readonly SubSetting[],
  sub: number,
  kind: Kind,
  by: number,
): readonly SubSetting[] | null {
  const [one, searched] = [settings[sub], task.subs[sub]];
  const steps = searched?.ranges[kind] ?? null;
  if (one === undefined || searched === undefined || steps === null) return null;
  // Where nothing else sounds only the levels against each other count: the first one stays.
  if (kind === 'level_db' && task.fixed === null && sub === 0) return null;
  const [low, high] = reach(kind, steps, searched.setting);
  const value = Math.min(high, Math.max(low, one[kind] + by));
  return value === one[kind] ? null : settings.with(sub, { ...one, [kind]: value });
}

function reach(kind: Kind, steps: Steps, start: SubSetting): readonly [number, number] {
  const { choices } = steps;
  const min = choices === null ? steps.min : Math.min(...choices);
  const max = choices === null ? steps.max : Math.max(...choices);
  if (kind === 'delay_s') return [min ?? 0, Math.min(max ?? LONGEST_DELAY_s, LONGEST_DELAY_s)];
  return [
    Math.max(min ?? Number.NEGATIVE_INFINITY, start.level_db - LEVEL_REACH_DB),
    Math.min(max ?? Number.POSITIVE_INFINITY, start.level_db + LEVEL_REACH_DB),
  ];
}

/** Where nothing else sounds, all subs can wait less by the shortest wait among them. */
function atRest(
  { subs, fixed }: PlacementTask,
  settings: readonly SubSetting[],
): readonly SubSetting[] {
  if (fixed !== null || subs.some(({ ranges }) => ranges.delay_s === null)) return settings;
  const spare_s = Math.min(
    ...settings.map(({ delay_s }, sub) => delay_s - (subs[sub]?.ranges.delay_s?.min ?? 0)),
  );
  return settings.map((setting) => ({ ...setting, delay_s: setting.delay_s - spare_s }));
}

/** Rounded to the devices' steps, then tried a step up and down while it helps. */
function roundedSettings(
  task: PlacementTask,
  cost: (settings: readonly SubSetting[]) => number,
  exact: readonly SubSetting[],
): Settled {
  const rounded = exact.map((setting, sub) => ({
    ...setting,
    level_db: nearest(setting.level_db, task.subs[sub]?.ranges.level_db),
    delay_s: nearest(setting.delay_s, task.subs[sub]?.ranges.delay_s),
  }));
  let best: Settled = { settings: rounded, cost_db: cost(rounded) };
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = best.cost_db;
    task.subs.forEach(({ ranges }, sub) => {
      for (const kind of ['level_db', 'delay_s'] as const) {
        for (const sign of [1, -1]) {
          const by = sign * (ranges[kind]?.step ?? 0);
          const moved = by === 0 ? null : movedBy(task, best.settings, sub, kind, by);
          const one = moved?.[sub];
          if (moved === null || one === undefined) continue;
          const settings = moved.with(sub, { ...one, [kind]: nearest(one[kind], ranges[kind]) });
          const now = cost(settings);
          if (now < best.cost_db) best = { settings, cost_db: now };
        }
      }
    });
    if (best.cost_db === before) break;
  }
  return best;
}

function nearest(value: number, steps: Steps | null | undefined): number {
  return steps ? nearestStep(value, steps) : value;
}
