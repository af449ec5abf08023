// What is told of a placement that was found: how flat, how even, how loud, how forgiving.

import { groundWith } from './exchange.ts';
import { forgiveness_m } from './forgiveness.ts';
import type { Found } from './found.ts';
import { levelTerms } from './placementCost.ts';
import type { PlacementCandidate, PlacementTask } from './searchTask.ts';
import { type AtSeats, drivenBy, type Judge } from './sums.ts';

/** In the order given. */
export function figuresOf(
  task: PlacementTask,
  judge: Judge,
  all: readonly Found[],
): readonly PlacementCandidate[] {
  const candidates = all.map((found) => candidateOf(task, judge, found));
  return candidates.map((candidate) => ({ ...candidate, bestIn: bestIn(candidate, candidates) }));
}

function candidateOf(
  task: PlacementTask,
  judge: Judge,
  { placeIndices, settings }: Found,
): PlacementCandidate {
  const numbered = placeIndices.map((place, sub) => [sub, place] as const);
  const sum = groundWith(task, judge, numbered, settings);
  const { seatCount, frequencyCount } = judge;
  const seats = seatCount / task.channelCount;
  const all = judge.levels_db(sum);
  const channels = Array.from({ length: task.channelCount }, (_, channel) => {
    const from = channel * seats * frequencyCount;
    return levelTerms(all.subarray(from, from + seats * frequencyCount), seats, frequencyCount);
  });
  const levels_db = Array.from({ length: seatCount }, (_, seat) =>
    levelsAt(sum, seat, frequencyCount),
  );
  const heard_db = levels_db
    .filter((_, seat) => seat % seats === task.referenceSeatIndex)
    .flatMap((list) => [...list]);
  const power = heard_db.reduce((total, level) => total + 10 ** (level / 10), 0);
  return {
    positions: placeIndices.flatMap((place, sub) => task.subs[sub]?.map.points[place] ?? []),
    settings,
    cost_db: judge.exactly(sum),
    flatness_db: mean(channels.map((one) => one.flatness_db[task.referenceSeatIndex] ?? 0)),
    spread_db: mean(channels.map(({ spread_db }) => spread_db)),
    variance_db2: mean(channels.map(({ variance_db2 }) => variance_db2)),
    output_db: 10 * Math.log10(power / Math.max(1, heard_db.length)),
    forgiveness_m: numbered.map(([sub, place]) => {
      const others = numbered.filter(([other]) => other !== sub);
      const searched = task.subs[sub];
      const setting = settings[sub];
      if (searched === undefined || setting === undefined) return null;
      const drive = drivenBy(searched, setting);
      return forgiveness_m(
        judge,
        searched.map,
        drive,
        groundWith(task, judge, others, settings),
        place,
      );
    }),
    levels_db,
    bestIn: [],
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

function levelsAt({ re, im }: AtSeats, seat: number, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, f) => {
    const [x = 0, y = 0] = [re[seat * count + f], im[seat * count + f]];
    return 10 * Math.log10(Math.max(1e-300, x * x + y * y));
  });
}

/** The smaller the better. */
const CRITERIA: Readonly<
  Record<PlacementCandidate['bestIn'][number], (candidate: PlacementCandidate) => number>
> = {
  cost: ({ cost_db }) => cost_db,
  flatness: ({ flatness_db }) => flatness_db,
  spread: ({ spread_db }) => spread_db,
  output: ({ output_db }) => -output_db,
  forgiveness: (candidate) => -leastForgiveness_m(candidate),
};
const CRITERION_NAMES = ['cost', 'flatness', 'spread', 'output', 'forgiveness'] as const;

/** Of the sub that may be moved least; infinite where none shows a limit. */
export function leastForgiveness_m({
  forgiveness_m,
}: Pick<PlacementCandidate, 'forgiveness_m'>): number {
  return Math.min(...forgiveness_m.map((radius_m) => radius_m ?? Number.POSITIVE_INFINITY));
}

function bestIn(
  candidate: PlacementCandidate,
  all: readonly PlacementCandidate[],
): PlacementCandidate['bestIn'] {
  if (all.length < 2) return [];
  return CRITERION_NAMES.filter((name) => {
    const value = CRITERIA[name](candidate);
    return all.every((other) => other === candidate || value < CRITERIA[name](other));
  });
}
