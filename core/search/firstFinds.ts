// Where a search begins: every place of one sub, every pair of two (thinned out where there are too many), mirrored sets of four.

import type { Point3 } from '../acoustics/point.ts';
import { bestPlaceOf } from './exchange.ts';
import { areAlike, type Found, isApart, sameSetting } from './found.ts';
import type { PlacementTask, SearchedSub, SubSetting } from './searchTask.ts';
import { added, atPlace, drivenBy, drivenMap, groundOf, type Judge } from './sums.ts';
import type { InSlices, TransferMap } from './transferMap.ts';

/** Levels worked out while all pairs are judged, about a second; where it would be more, pairs are thinned out. */
const MOST_LEVELS = 6e7;
/** Levels worked out where the pairs are only a beginning. */
const MOST_LEVELS_AS_START = 1.5e7;
const PLACES_A_SLICE = 256;

/** Every place of the first sub, each with the best of a few settings. */
export function* bestSingles(
  task: PlacementTask,
  judge: Judge,
  count: (moreCount: number) => void,
): InSlices<readonly Found[]> {
  const [sub] = task.subs;
  if (sub === undefined) return [];
  const length = judge.seatCount * judge.frequencyCount;
  const ground = groundOf(task, length);
  const trials = task.fixed === null ? [sub.setting] : trialsOf(task, sub);
  const found: Found[] = sub.map.points.map((_, place) => ({
    placeIndices: [place],
    settings: [sub.setting],
    cost_db: Number.POSITIVE_INFINITY,
  }));
  for (const [index, setting] of trials.entries()) {
    const drive = drivenBy(sub, setting);
    for (let place = 0; place < found.length; place++) {
      const cost = judge.quicklyDriven(ground, sub.map, drive, place);
      if (cost < (found[place]?.cost_db ?? 0))
        found[place] = { placeIndices: [place], settings: [setting], cost_db: cost };
      if (place % PLACES_A_SLICE === 0) yield (index + place / found.length) / trials.length;
    }
    count(found.length);
  }
  return found;
}

/** The setting as it is, and quarter cycles at the crossover, either way round, as far as the device can be told. */
function trialsOf(
  { crossover_hz }: PlacementTask,
  { setting, ranges }: SearchedSub,
): readonly SubSetting[] {
  const cycle_s = crossover_hz === null ? 0 : 1 / crossover_hz;
  const longest_s = ranges.delay_s?.max ?? cycle_s;
  const delays_s =
    ranges.delay_s === null
      ? [setting.delay_s]
      : [0, 0.25, 0.5, 0.75]
          .map((share) => (ranges.delay_s?.min ?? 0) + share * cycle_s)
          .filter((delay_s) => delay_s <= longest_s);
  const polarities = ranges.canInvert ? [setting.inverted, !setting.inverted] : [setting.inverted];
  const others = delays_s.flatMap((delay_s) =>
    polarities.map((inverted) => ({ ...setting, delay_s, inverted })),
  );
  return [setting, ...others];
}

/** For each place of the first sub the best partner of the second. */
export function* bestPairs(
  task: PlacementTask,
  judge: Judge,
  settings: readonly SubSetting[],
  count: (moreCount: number) => void,
): InSlices<{ readonly found: readonly Found[]; readonly exhaustive: boolean }> {
  const [first, second] = task.subs;
  const [one, other] = settings;
  if (!first || !second || !one || !other) throw new RangeError('a pair needs two subwoofers');
  const length = judge.seatCount * judge.frequencyCount;
  const isAlike = areAlike(first, second) && sameSetting(one, other);
  const share = isAlike ? 2 : 1;
  const all = (first.map.points.length * second.map.points.length * length) / share;
  const isQuick = task.subs.length === 2 && all <= MOST_LEVELS;
  const most = isQuick
    ? Number.POSITIVE_INFINITY
    : Math.sqrt((share * MOST_LEVELS_AS_START) / length);
  const [from, to] = [first, second].map(({ map }) => thinned(map, most));
  if (from === undefined || to === undefined) return { found: [], exhaustive: true };
  const ground = groundOf(task, length);
  const driven = drivenMap(second.map, drivenBy(second, other));
  const drive = drivenBy(first, one);
  const found: Found[] = [];
  for (const [index, place] of from.entries()) {
    const base = added([ground, atPlace(first.map, place, drive)], length);
    let best = { partner: -1, cost_db: Number.POSITIVE_INFINITY };
    for (let i = isAlike ? index + 1 : 0; i < to.length; i++) {
      const partner = to[i] as number;
      if (!isApart(task, 0, place, [[1, partner]])) continue;
      const cost = judge.quickly(base, driven.re, driven.im, partner * length);
      if (cost < best.cost_db) best = { partner, cost_db: cost };
    }
    count(to.length - (isAlike ? index + 1 : 0));
    if (0 <= best.partner) {
      found.push({ placeIndices: [place, best.partner], settings, cost_db: best.cost_db });
    }
    yield (index + 1) / from.length;
  }
  const exhaustive =
    from.length === first.map.points.length && to.length === second.map.points.length;
  return { found, exhaustive };
}

/** Places on every so-manieth row and column, so that at most about so many are left: all of them where they are few. */
export function thinned({ points }: TransferMap, mostCount: number): readonly number[] {
  const all = points.map((_, index) => index);
  if (points.length <= mostCount) return all;
  const lines = (of: (point: Point3) => number) => {
    const sorted = [...new Set(points.map(of))].sort((a, b) => a - b);
    return new Map(sorted.map((line, index) => [line, index]));
  };
  const [columns, rows] = [lines(({ x_m }) => x_m), lines(({ y_m }) => y_m)];
  for (let stride = 2; ; stride++) {
    const kept = all.filter((index) => {
      const point = points[index];
      const [column, row] = [columns.get(point?.x_m ?? 0) ?? 0, rows.get(point?.y_m ?? 0) ?? 0];
      return column % stride === 0 && row % stride === 0;
    });
    if (kept.length <= mostCount) return 0 < kept.length ? kept : all.slice(0, 1);
  }
}

/** One sub more, at its best place for those that have one. */
export function withOneMore(
  task: PlacementTask,
  judge: Judge,
  start: Found,
  settings: readonly SubSetting[],
  count: (moreCount: number) => void,
): Found {
  const sub = start.placeIndices.length;
  count(task.subs[sub]?.map.points.length ?? 0);
  return {
    ...bestPlaceOf(task, judge, { placeIndices: start.placeIndices, settings }, sub),
    settings,
  };
}

/** All sets of four that mirror each other in both halves of the room. */
export function mirroredSets(
  task: PlacementTask,
  judge: Judge,
  halves: { readonly x_m: number; readonly y_m: number },
  count: (moreCount: number) => void,
): readonly Found[] {
  const length = judge.seatCount * judge.frequencyCount;
  const ground = groundOf(task, length);
  const settings = task.subs.map(({ setting }) => setting);
  const lookUp = task.subs.map(
    ({ map }) => new Map(map.points.map((point, i) => [keyOf(point), i])),
  );
  const found: Found[] = [];
  task.subs[0]?.map.points.forEach((point) => {
    if (halves.x_m < point.x_m + 1e-9 || halves.y_m < point.y_m + 1e-9) return;
    const [x_m, y_m] = [2 * halves.x_m - point.x_m, 2 * halves.y_m - point.y_m];
    const four = [point, { ...point, x_m }, { ...point, y_m }, { ...point, x_m, y_m }];
    const placeIndices = four.flatMap((one, sub) => lookUp[sub]?.get(keyOf(one)) ?? []);
    const isWhole = placeIndices.length === four.length;
    const clear = placeIndices.every((place, sub) =>
      isApart(
        task,
        sub,
        place,
        placeIndices.map((other, s) => [s, other] as const).filter(([s]) => s !== sub),
      ),
    );
    if (!isWhole || !clear) return;
    const parts = task.subs.map((sub, index) =>
      atPlace(sub.map, placeIndices[index] ?? 0, drivenBy(sub, sub.setting)),
    );
    found.push({
      placeIndices,
      settings,
      cost_db: judge.exactly(added([ground, ...parts], length)),
    });
  });
  count(found.length);
  return found;
}

/** Places to a tenth of a millimetre. */
function keyOf({ x_m, y_m }: Point3): string {
  return `${Math.round(x_m * 1e4)} ${Math.round(y_m * 1e4)}`;
}
