// The search itself: one sub by judging every place, two by judging every pair as far as that is quick, more by building on the best
// pairs and on mirrored sets; then settings settle, and each sub in turn looks for a better place until none finds one.

import type { Point3 } from '../acoustics/point.ts';
import { clearlyDifferent } from './distinct.ts';
import { exchanged } from './exchange.ts';
import { figuresOf } from './figures.ts';
import { bestPairs, bestSingles, mirroredSets, withOneMore } from './firstFinds.ts';
import type { Found } from './found.ts';
import { pairExchanged } from './pairExchange.ts';
import type { PlacementResult, PlacementTask } from './searchTask.ts';
import { hasFreedom, settled } from './settings.ts';
import { share } from './share.ts';
import { judgeOf } from './sums.ts';
import type { InSlices } from './transferMap.ts';

/** How many clearly different finds are carried on for each candidate wanted. */
const CARRIED_ON = 1.6;
const LEAST_CARRIED_ON = 8;
/** Of three or more subs: so many of the best sets are tried pair by pair. */
const PAIRS_MOVED = 3;

/**
 * The best placements, clearly different ones. Work for a second or so: to be taken in slices.
 *
 * @throws RangeError on no sub or more than four, or on maps that do not belong together
 */
export function* searchPlacement(task: PlacementTask): InSlices<PlacementResult> {
  checkTask(task);
  const judge = judgeOf(task);
  const isFree = hasFreedom(task);
  let judgedCount = 0;
  const count = (moreCount: number) => {
    judgedCount += moreCount;
  };
  const first = yield* share(
    firstFinds(task, judge, count),
    0,
    isFree || 1 < task.subs.length ? 0.6 : 0.9,
  );
  const positionsOf = ({ placeIndices }: Found) => positionsAt(task, placeIndices);
  const most = Math.max(LEAST_CARRIED_ON, CARRIED_ON * task.candidateCount);
  const carried = clearlyDifferent(
    first.found.toSorted((one, other) => one.cost_db - other.cost_db),
    positionsOf,
    task.different_m,
    most,
  );
  const improved: Found[] = [];
  for (const [index, found] of carried.entries()) {
    const set = settledOr(task, judge, found, isFree);
    const needsMore = isFree || !first.exhaustive;
    // Where it stands is kept beside where it would go: all may lead to one place.
    improved.push(set);
    if (needsMore)
      improved.push(settledOr(task, judge, exchanged(task, judge, set, count), isFree));
    yield 0.6 + (0.2 * (index + 1)) / carried.length;
  }
  for (const found of 2 < task.subs.length ? bestOf(improved, PAIRS_MOVED) : []) {
    const moved = yield* share(pairExchanged(task, judge, found, count), 0.8, 0.9);
    const settledAgain = settledOr(task, judge, exchanged(task, judge, moved, count), isFree);
    improved.push(settledAgain);
  }
  const chosen = clearlyDifferent(
    improved.toSorted((one, other) => one.cost_db - other.cost_db),
    positionsOf,
    task.different_m,
    task.candidateCount,
  );
  return { candidates: figuresOf(task, judge, chosen), judgedCount, exhaustive: first.exhaustive };
}

function bestOf(found: readonly Found[], most: number): readonly Found[] {
  const sorted = found.toSorted((one, other) => one.cost_db - other.cost_db);
  const isNew = ({ cost_db }: Found, index: number) =>
    1e-9 < Math.abs(cost_db - (sorted[index - 1]?.cost_db ?? 0));
  return sorted.filter(isNew).slice(0, most);
}

function settledOr(
  task: PlacementTask,
  judge: ReturnType<typeof judgeOf>,
  found: Found,
  isFree: boolean,
): Found {
  return isFree ? { ...found, ...settled(task, judge, found.placeIndices, found.settings) } : found;
}

interface FirstFinds {
  readonly found: readonly Found[];
  readonly exhaustive: boolean;
}

function* firstFinds(
  task: PlacementTask,
  judge: ReturnType<typeof judgeOf>,
  count: (moreCount: number) => void,
): InSlices<FirstFinds> {
  const { subs, halves } = task;
  if (subs.some(({ map }) => map.points.length === 0)) return { found: [], exhaustive: true };
  const singles = yield* share(bestSingles(task, judge, count), 0, subs.length === 1 ? 1 : 0.1);
  if (subs.length === 1) return { found: singles, exhaustive: true };
  const setting = singles.reduce((one, other) => (other.cost_db < one.cost_db ? other : one))
    .settings[0];
  const settings = subs.map((sub, index) => (index === 0 && setting ? setting : sub.setting));
  const pairs = yield* share(bestPairs(task, judge, settings, count), 0.1, 0.7);
  if (subs.length === 2) return pairs;
  const sets = subs.length === 4 && halves !== null ? mirroredSets(task, judge, halves, count) : [];
  const larger: Found[] = [];
  const starts = clearlyDifferent(
    pairs.found.toSorted((one, other) => one.cost_db - other.cost_db),
    ({ placeIndices }) => positionsAt(task, placeIndices),
    task.different_m,
    LEAST_CARRIED_ON,
  );
  for (const [index, start] of starts.entries()) {
    let grown = start;
    while (grown.placeIndices.length < subs.length)
      grown = withOneMore(task, judge, grown, settings, count);
    larger.push(grown);
    yield 0.7 + (0.3 * (index + 1)) / starts.length;
  }
  return { found: [...larger, ...sets], exhaustive: false };
}

function positionsAt({ subs }: PlacementTask, placeIndices: readonly number[]): readonly Point3[] {
  return placeIndices.flatMap((place, sub) => subs[sub]?.map.points[place] ?? []);
}

const MOST_SUBS = 4;

function checkTask({ subs }: PlacementTask): void {
  const [first] = subs;
  if (first === undefined || MOST_SUBS < subs.length) {
    throw new RangeError(`${subs.length} subwoofers: one to ${MOST_SUBS} are searched together`);
  }
  const isAlike = ({ map }: (typeof subs)[number]) =>
    map.seatCount === first.map.seatCount &&
    map.frequency_hz.length === first.map.frequency_hz.length;
  if (!subs.every(isAlike)) throw new RangeError('maps of different grids or seats');
}
