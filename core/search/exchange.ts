// Each sub in turn looks over all its places while the others stay, until none finds a better one.

import { type Found, isApart } from './found.ts';
import type { PlacementTask } from './searchTask.ts';
import { type AtSeats, added, atPlace, drivenBy, groundOf, type Judge } from './sums.ts';

/** A sub seldom moves more than three times. */
const MOST_ROUNDS = 8;

export function exchanged(
  task: PlacementTask,
  judge: Judge,
  start: Found,
  count: (moreCount: number) => void,
): Found {
  let best = start;
  let sinceMoved = 0;
  for (let turn = 0; turn < MOST_ROUNDS * task.subs.length; turn++) {
    if (task.subs.length <= sinceMoved) break;
    const subIndex = turn % task.subs.length;
    const next = bestPlaceOf(task, judge, best, subIndex);
    count(task.subs[subIndex]?.map.points.length ?? 0);
    sinceMoved = next.cost_db < best.cost_db - 1e-12 ? 0 : sinceMoved + 1;
    if (next.cost_db < best.cost_db) best = next;
  }
  return best;
}

/** The best place of one sub for the others' places and all settings as they are; may also add a sub that has no place yet. */
export function bestPlaceOf(
  task: PlacementTask,
  judge: Judge,
  { placeIndices, settings }: Pick<Found, 'placeIndices' | 'settings'>,
  subIndex: number,
): Found {
  const [searched, setting] = [task.subs[subIndex], settings[subIndex]];
  if (searched === undefined || setting === undefined)
    throw new RangeError(`no subIndex ${subIndex}`);
  const others = placeIndices
    .map((place, other) => [other, place] as const)
    .filter(([other]) => other !== subIndex);
  const ground = groundWith(task, judge, others, settings);
  const drive = drivenBy(searched, setting);
  let best = { place: 0, cost_db: Number.POSITIVE_INFINITY };
  for (let place = 0; place < searched.map.points.length; place++) {
    if (!isApart(task, subIndex, place, others)) continue;
    const cost = judge.quicklyDriven(ground, searched.map, drive, place);
    if (cost < best.cost_db) best = { place, cost_db: cost };
  }
  const moved =
    subIndex < placeIndices.length
      ? placeIndices.with(subIndex, best.place)
      : [...placeIndices, best.place];
  return { placeIndices: moved, settings, cost_db: best.cost_db };
}

/** The mains, and the other subs where they are. */
export function groundWith(
  task: PlacementTask,
  judge: Judge,
  others: readonly (readonly [subIndex: number, placeIndex: number])[],
  settings: Found['settings'],
): AtSeats {
  const length = judge.seatCount * judge.frequencyCount;
  const parts = others.flatMap(([other, place]): readonly AtSeats[] => {
    const [sub, setting] = [task.subs[other], settings[other]];
    return sub && setting ? [atPlace(sub.map, place, drivenBy(sub, setting))] : [];
  });
  return added([groundOf(task, length), ...parts], length);
}
