// Two subs at a time look for better places while the others stay: what single moves cannot reach where each alone would be worse.

import { groundWith } from './exchange.ts';
import { thinned } from './firstFinds.ts';
import { areAlike, type Found, isApart, sameSetting } from './found.ts';
import type { PlacementTask } from './searchTask.ts';
import { share } from './share.ts';
import { added, atPlace, drivenBy, drivenMap, type Judge } from './sums.ts';
import type { InSlices } from './transferMap.ts';

/** Levels worked out for one pair of subs, a tenth of a second or so; where it would be more, places are thinned out. */
const MOST_LEVELS = 8e6;
const MOST_ROUNDS = 3;

/** The set with every pair of its subs moved as long as that helps. */
export function* pairExchanged(
  task: PlacementTask,
  judge: Judge,
  start: Found,
  count: (moreCount: number) => void,
): InSlices<Found> {
  const pairs = task.subs.flatMap((_, one) =>
    task.subs.slice(one + 1).map((_sub, i) => [one, one + 1 + i] as const),
  );
  let best = start;
  let sinceMoved = 0;
  for (let turn = 0; turn < MOST_ROUNDS * pairs.length && sinceMoved < pairs.length; turn++) {
    const [one, other] = pairs[turn % pairs.length] ?? [0, 1];
    const work = bestOfPair(task, judge, best, one, other, count);
    const all = MOST_ROUNDS * pairs.length;
    const next = yield* share(work, turn / all, (turn + 1) / all);
    sinceMoved = next.cost_db < best.cost_db - 1e-12 ? 0 : sinceMoved + 1;
    if (next.cost_db < best.cost_db) best = next;
  }
  return best;
}

function* bestOfPair(
  task: PlacementTask,
  judge: Judge,
  found: Found,
  one: number,
  other: number,
  count: (moreCount: number) => void,
): InSlices<Found> {
  const { placeIndices, settings } = found;
  const [first, second] = [task.subs[one], task.subs[other]];
  const [a, b] = [settings[one], settings[other]];
  if (!first || !second || !a || !b) return found;
  const length = judge.seatCount * judge.frequencyCount;
  const others = placeIndices
    .map((place, sub) => [sub, place] as const)
    .filter(([sub]) => sub !== one && sub !== other);
  const ground = groundWith(task, judge, others, settings);
  const isAlike = areAlike(first, second) && sameSetting(a, b);
  const most = Math.sqrt(((isAlike ? 2 : 1) * MOST_LEVELS) / length);
  const free = (sub: number, places: readonly number[]) =>
    places.filter((place) => isApart(task, sub, place, others));
  const from = free(one, thinned(first.map, most));
  const to = free(other, thinned(second.map, most));
  const driven = drivenMap(second.map, drivenBy(second, b));
  const drive = drivenBy(first, a);
  let best = found;
  for (const [index, place] of from.entries()) {
    const base = added([ground, atPlace(first.map, place, drive)], length);
    for (let i = isAlike ? index + 1 : 0; i < to.length; i++) {
      const partner = to[i] as number;
      if (!isApart(task, one, place, [[other, partner]])) continue;
      const cost = judge.quickly(base, driven.re, driven.im, partner * length);
      if (best.cost_db <= cost) continue;
      const moved = placeIndices.with(one, place).with(other, partner);
      best = { placeIndices: moved, settings, cost_db: cost };
    }
    count(to.length - (isAlike ? index + 1 : 0));
    yield (index + 1) / from.length;
  }
  return best;
}
