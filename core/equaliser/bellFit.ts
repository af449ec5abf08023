// The best bells for a wanted correction: a search that adds one bell at a time along several lines and settles all of them together.

import { share } from '../search/share.ts';
import type { InSlices } from '../search/transferMap.ts';
import { addBell, type BellGrid } from './bells.ts';
import { type LeastSquares, leastSquares } from './leastSquares.ts';

/** What the bells together should do, by frequency of the grid. */
export interface Wanted {
  readonly grid: BellGrid;
  readonly level_db: Float64Array;
  /** How much each frequency counts, >= 0. */
  readonly weights: Float64Array;
  /** What the bells together may add at most, dB; null where all of them cut. */
  readonly most_db: Float64Array | null;
}

/** Bounds of one bell: place among the grid's frequencies, ln Q, gain in dB. */
export interface Slot {
  readonly low: readonly [place: number, lnQ: number, gain_db: number];
  readonly high: readonly [place: number, lnQ: number, gain_db: number];
}

/** Place, ln Q, gain of each bell, one bell after the other. */
export type Bells = Float64Array;

/** What is added beyond that counts so many times over. */
export const BEYOND_WEIGHT = 30;
/** Steps while a line is only being judged, and to the end. */
const JUDGING_STEPS = 8;
const LAST_STEPS = 120;
/** Candidates of a bell: places and Qs at which it is tried. */
const TRIED_PLACES = 28;
const TRIED_Q = [0.7, 1.5, 3, 6, 12];
/** A bell's shape hardly depends on its gain: it is tried at this one. */
const TRIED_GAIN_DB = -6;

/** How wide the search is; the time goes with the product. */
export interface Breadth {
  readonly lines: number;
  readonly branches: number;
  readonly rounds: number;
}

/** The share of the work that goes into the lines; the rest into exchanging. */
const LINES_SHARE = 0.5;

/**
 * Bells for the slots, in their order, with the least weighted square of what is left.
 *
 * @returns the best first, clearly different ones after it; at least one
 */
export function* fitBells(
  wanted: Wanted,
  slots: readonly Slot[],
  { lines, branches, rounds }: Breadth,
): InSlices<readonly LeastSquares[]> {
  let beam: readonly LeastSquares[] = [{ parameters: new Float64Array(0), square: 0 }];
  for (let used = 1; used <= slots.length; used++) {
    const now = slots.slice(0, used);
    const grown: LeastSquares[] = [];
    for (const { parameters } of beam) {
      for (const start of insertions(wanted, parameters, now, used - 1, branches))
        grown.push(settle(wanted, now, start, JUDGING_STEPS));
      yield (LINES_SHARE * (used - 1)) / slots.length;
    }
    beam = distinct(grown).slice(0, lines);
  }
  const settled = distinct(
    beam.map(({ parameters }) => settle(wanted, slots, parameters, LAST_STEPS)),
  );
  const [first] = settled;
  if (first === undefined || slots.length === 0) {
    return [settle(wanted, slots, new Float64Array(0), 0)];
  }
  const best = yield* share(exchanged(wanted, slots, first, branches, rounds), LINES_SHARE, 1);
  return distinct([best, ...settled]);
}

/** Takes one bell out and puts it where it serves best, as long as that helps. */
function* exchanged(
  wanted: Wanted,
  slots: readonly Slot[],
  found: LeastSquares,
  branches: number,
  rounds: number,
): InSlices<LeastSquares> {
  let best = found;
  for (let round = 0; round < rounds; round++) {
    const before = best.square;
    for (let index = 0; index < slots.length; index++) {
      const others = best.parameters.filter((_value, i) => Math.floor(i / 3) !== index);
      for (const start of insertions(wanted, others, slots, index, branches)) {
        const judged = settle(wanted, slots, start, JUDGING_STEPS);
        if (best.square * 1.05 < judged.square) continue;
        const settled = settle(wanted, slots, judged.parameters, LAST_STEPS);
        if (settled.square < best.square) best = settled;
      }
      yield (round + (index + 1) / slots.length) / rounds;
    }
    if (before - best.square <= before * 1e-4) break;
  }
  return best;
}

/** All bells moved downhill together, each within its slot. */
export function settle(
  wanted: Wanted,
  slots: readonly Slot[],
  start: ArrayLike<number>,
  stepCount: number,
): LeastSquares {
  const bounds = {
    low: Float64Array.from(slots.flatMap(({ low }) => low)),
    high: Float64Array.from(slots.flatMap(({ high }) => high)),
  };
  const count = wanted.level_db.length;
  const residualCount = wanted.most_db === null ? count : 2 * count;
  return leastSquares(residualsOf(wanted), start, bounds, residualCount, stepCount);
}

function residualsOf({ grid, level_db, weights, most_db }: Wanted) {
  const count = level_db.length;
  const roots = weights.map(Math.sqrt);
  const sum = new Float64Array(count);
  const slopes = new Float64Array(3 * count);
  return (bells: Float64Array, residual: Float64Array, jacobian: Float64Array | null): void => {
    const length = residual.length;
    sum.fill(0);
    for (let bell = 0; bell < bells.length; bell += 3) {
      addBellAt(grid, bells, bell, sum, jacobian && slopes);
      if (jacobian === null) continue;
      for (let parameter = 0; parameter < 3; parameter++) {
        const row = (bell + parameter) * length;
        for (let i = 0; i < count; i++) {
          const slope = slopes[parameter * count + i] as number;
          jacobian[row + i] = slope * (roots[i] as number);
          if (most_db !== null) jacobian[row + count + i] = slope; // whether it counts is known once all are summed
        }
      }
    }
    for (let i = 0; i < count; i++) {
      residual[i] = ((sum[i] as number) - (level_db[i] as number)) * (roots[i] as number);
      if (most_db === null) continue;
      const over_db = (sum[i] as number) - (most_db[i] as number);
      const counts = 0 < over_db ? BEYOND_WEIGHT : 0;
      residual[count + i] = counts * over_db;
      if (jacobian === null) continue;
      for (let row = 0; row < bells.length; row++) {
        const at = row * length + count + i;
        jacobian[at] = counts * (jacobian[at] as number);
      }
    }
  };
}

function addBellAt(
  grid: BellGrid,
  bells: ArrayLike<number>,
  at: number,
  level_db: Float64Array,
  slopes: Float64Array | null,
): void {
  const [place = 0, lnQ = 0, gain_db = 0] = [bells[at], bells[at + 1], bells[at + 2]];
  addBell(grid.places, place, lnQ, gain_db, level_db, slopes);
}

/** What bells do together, dB by frequency of the grid. */
export function bellsLevel_db(grid: BellGrid, bells: ArrayLike<number>): Float64Array {
  const level_db = new Float64Array(grid.places.length);
  for (let at = 0; at < bells.length; at += 3) addBellAt(grid, bells, at, level_db, null);
  return level_db;
}

/** Starts with one more bell, at the places where it would take away most of what is left; the most helpful first. */
function insertions(
  wanted: Wanted,
  others: Float64Array,
  slots: readonly Slot[],
  index: number,
  most: number,
): readonly Float64Array[] {
  const slot = slots[index];
  if (slot === undefined) return [];
  const left = bellsLevel_db(wanted.grid, others).map(
    (level, i) => (wanted.level_db[i] as number) - level,
  );
  const tried = candidates(slot)
    .map((candidate) => scored(wanted, left, slot, candidate))
    .sort((one, other) => other.gained - one.gained);
  const chosen: (typeof tried)[number][] = [];
  for (const one of tried) {
    if (chosen.length === most) break;
    const alike = ({ bell }: typeof one) =>
      Math.abs(bell[0] - one.bell[0]) < 0.08 && Math.abs(bell[1] - one.bell[1]) < 1;
    if (!chosen.some(alike)) chosen.push(one);
  }
  return chosen.map(({ bell }) => {
    const start = new Float64Array(others.length + 3);
    start.set(others.subarray(0, 3 * index));
    start.set(bell, 3 * index);
    start.set(others.subarray(3 * index), 3 * index + 3);
    return start;
  });
}

type Bell = readonly [place: number, lnQ: number, gain_db: number];

function candidates({ low, high }: Slot): readonly (readonly [place: number, lnQ: number])[] {
  const places = Array.from(
    { length: TRIED_PLACES },
    (_, i) => low[0] + ((high[0] - low[0]) * i) / (TRIED_PLACES - 1),
  );
  const lnQs = new Set(TRIED_Q.map((q) => Math.min(high[1], Math.max(low[1], Math.log(q)))));
  return places.flatMap((place) => [...lnQs].map((lnQ) => [place, lnQ] as const));
}

/** How much a bell with its best gain would take away, as if its level went with its gain. */
function scored(
  { grid, weights }: Wanted,
  left_db: Float64Array,
  { low, high }: Slot,
  [place, lnQ]: readonly [number, number],
): { readonly bell: Bell; readonly gained: number } {
  const shape = new Float64Array(grid.places.length);
  addBell(grid.places, place, lnQ, TRIED_GAIN_DB, shape);
  let along = 0;
  let own = 0;
  for (let i = 0; i < shape.length; i++) {
    const weighed = (weights[i] as number) * (shape[i] as number);
    along += weighed * (left_db[i] as number);
    own += weighed * (shape[i] as number);
  }
  const best_db = own === 0 ? 0 : (TRIED_GAIN_DB * along) / own;
  const gain_db = Math.min(high[2], Math.max(low[2], best_db));
  const scale = gain_db / TRIED_GAIN_DB;
  return { bell: [place, lnQ, gain_db], gained: 2 * scale * along - scale * scale * own };
}

/** Best first, without those that came to the same. */
function distinct(found: readonly LeastSquares[]): readonly LeastSquares[] {
  const sorted = found.toSorted((one, other) => one.square - other.square);
  return sorted.filter(({ square }, i) => {
    const before = sorted[i - 1];
    return before === undefined || before.square * (1 + 1e-7) < square;
  });
}
