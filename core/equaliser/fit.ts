// Fits a device's equaliser to a target at one or several seats: cuts first, boosts bounded, nulls left alone, in the device's steps.

import { share } from '../search/share.ts';
import { allAtOnce, type InSlices } from '../search/transferMap.ts';
import { type Aim, aimOf, distance_db, seatDistance_db } from './aim.ts';
import {
  type Breadth,
  bellsLevel_db,
  fitBells,
  type Slot,
  settle,
  type Wanted,
} from './bellFit.ts';
import { bellGrid } from './bells.ts';
import { headroomOf, warningsOf } from './fitRemarks.ts';
import type { EqualiserFit, FitBand, FitTask } from './fitTask.ts';
import { bandsOf, bellsOf, roundedBands } from './rounding.ts';
import { type SlotKind, slotOf } from './slots.ts';

/** Bells that sit in slots. */
interface Fitted {
  readonly slots: readonly Slot[];
  readonly bells: Float64Array;
}

/** A boost has to take at least so much off what is left: cuts come first. Common practice, no source. */
const BOOST_WORTH_RATIO = 0.08;
const MOST_BOOSTS = 2;
const MOST_BROAD = 2;
/** A seat that ends worse than it began by more than this counts double in the next round. */
const HARM_DB = 0.2;
const HARM_ROUNDS = 3;
const SETTLING_STEPS = 60;
/** Most fits harm no seat and are done with their first round. */
const FIRST_SHARE = 0.7;

/**
 * The bands that bring the seats nearest to the target, RMS over seats (weighed) and frequencies.
 *
 * @throws RangeError on a task without seats or without frequencies
 */
export function fitEqualiser(task: FitTask): EqualiserFit {
  return allAtOnce(fitInSlices(task));
}

/** The same a few milliseconds at a time. */
export function* fitInSlices(task: FitTask): InSlices<EqualiserFit> {
  if (task.seats.length === 0 || task.frequency_hz.length === 0) {
    throw new RangeError('a fit needs a seat and a grid');
  }
  let weights = task.seats.map(({ weight }) => weight);
  let fit = yield* share(fitWith(task, aimOf(task, weights)), 0, FIRST_SHARE);
  for (let round = 0; round < HARM_ROUNDS; round++) {
    const harmed = fit.seats.map(({ before_db, after_db }) => before_db + HARM_DB < after_db);
    if (!harmed.includes(true)) break;
    weights = weights.map((weight, seat) => (harmed[seat] ? 2 * weight : weight));
    const from = FIRST_SHARE + ((1 - FIRST_SHARE) * round) / HARM_ROUNDS;
    const to = FIRST_SHARE + ((1 - FIRST_SHARE) * (round + 1)) / HARM_ROUNDS;
    const next = yield* share(fitWith(task, aimOf(task, weights)), from, to);
    if (worstHarm_db(fit) <= worstHarm_db(next)) break;
    fit = next;
  }
  return fit;
}

function worstHarm_db({ seats }: EqualiserFit): number {
  return Math.max(...seats.map(({ before_db, after_db }) => after_db - before_db));
}

function* fitWith(task: FitTask, aim: Aim): InSlices<EqualiserFit> {
  const grid = bellGrid(task.frequency_hz, task.sampleRate_hz);
  const wanted: Wanted = { grid, level_db: aim.wanted_db, weights: aim.weights, most_db: null };
  const guarded = { ...wanted, most_db: mostBoost_db(task, aim) };
  const cuts = yield* share(cutsOf(task, aim, wanted), 0, 0.8);
  const exact = withBoosts(task, aim, guarded, cuts);
  const exactBands = bandsOf(wanted, exact.bells);
  const bands = roundedBands(guarded, exact.slots, exact.bells, task.device)
    .filter(({ gain_db }) => gain_db !== 0)
    .toSorted((one, other) => one.frequency_hz - other.frequency_hz);
  const correction_db = bellsLevel_db(grid, bellsOf(wanted, bands));
  const zero = new Float64Array(correction_db.length);
  const seats = task.seats.map((seat, index) => {
    const counts = aim.counts[index] ?? zero;
    return {
      seat: seat.seat,
      before_db: seatDistance_db(task, seat, counts, zero),
      after_db: seatDistance_db(task, seat, counts, correction_db),
      level_db: correction_db.map((level, i) => level + (seat.level_db[i] ?? 0)),
      nulls: aim.nulls[index] ?? [],
    };
  });
  const figures = {
    bands,
    correction_db,
    before_db: distance_db(aim, zero),
    after_db: distance_db(aim, correction_db),
    exact: {
      bands: exactBands,
      after_db: distance_db(aim, bellsLevel_db(grid, exact.bells)),
    },
    seats,
    headroom: headroomOf(task.frequency_hz, correction_db),
  };
  return { ...figures, warnings: warningsOf(task, figures) };
}

/** Nothing below the drivers' −6 dB point nor in any seat's nulls, and elsewhere no more in sum than one band may. */
function mostBoost_db(
  { frequency_hz, limits: { boost } }: FitTask,
  { nulls }: Aim,
): Float64Array | null {
  if (boost === null) return null;
  const all = nulls.flat();
  return Float64Array.from(frequency_hz, (f_hz) => {
    const inNull = all.some(({ from_hz, to_hz }) => from_hz <= f_hz && f_hz <= to_hz);
    return inNull || f_hz < boost.from_hz ? 0 : boost.most_db;
  });
}

/** The search is wide for few bands and narrow for many, where its order matters less and time more. */
function breadthFor(bandCount: number): Breadth {
  if (bandCount <= 3) return { lines: 6, branches: 4, rounds: 2 };
  if (bandCount <= 5) return { lines: 3, branches: 3, rounds: 1 };
  return { lines: 2, branches: 2, rounds: bandCount <= 6 ? 1 : 0 };
}

/** Cuts alone, as many as serve; broad ones above the fitted range where those are asked for. */
function* cutsOf(task: FitTask, aim: Aim, wanted: Wanted): InSlices<Fitted> {
  const { device, limits } = task;
  const slot = (kind: SlotKind) => slotOf(kind, wanted.grid, device, limits);
  const [cut, broad] = [slot('cut'), slot('broad')];
  const mostBroad = broad === null ? 0 : Math.min(MOST_BROAD, device.bands);
  const tries = Array.from({ length: mostBroad + 1 }, (_, broadCount) => [
    ...new Array<Slot | null>(device.bands - broadCount).fill(cut),
    ...new Array<Slot | null>(broadCount).fill(broad),
  ]).map((kinds) => kinds.filter((one) => one !== null));
  const fits: (Fitted & { readonly square: number })[] = [];
  for (const [index, slots] of tries.entries()) {
    const work = fitBells(wanted, slots, breadthFor(slots.length));
    const [best] = yield* share(work, index / tries.length, (index + 1) / tries.length);
    fits.push({
      slots,
      bells: best?.parameters ?? new Float64Array(0),
      square: best?.square ?? 0,
    });
  }
  const best = fits.reduce((one, other) => (other.square < one.square ? other : one));
  return pruned(wanted, aim, best, limits.leastGain_ratio);
}

/** Without the bells that are not worth their place. */
function pruned(wanted: Wanted, aim: Aim, start: Fitted, leastGain_ratio: number): Fitted {
  if (!(0 < leastGain_ratio)) return start;
  let fitted = start;
  while (0 < fitted.slots.length) {
    const now_db = leftWith(wanted, aim, fitted);
    const fewer = fitted.slots.map((_, gone) => {
      const slots = fitted.slots.filter((_slot, i) => i !== gone);
      const bells = fitted.bells.filter((_value, i) => Math.floor(i / 3) !== gone);
      return { slots, bells: settle(wanted, slots, bells, SETTLING_STEPS).parameters };
    });
    const [best] = fewer
      .map((one) => ({ one, left_db: leftWith(wanted, aim, one) }))
      .toSorted((a, b) => a.left_db - b.left_db);
    if (best === undefined || now_db * (1 + leastGain_ratio) < best.left_db) return fitted;
    fitted = best.one;
  }
  return fitted;
}

/** One boost more, in a free band or in place of the weakest cut, as long as it is worth it. */
function withBoosts(task: FitTask, aim: Aim, wanted: Wanted, cuts: Fitted): Fitted {
  const boost = slotOf('boost', wanted.grid, task.device, task.limits);
  let fitted = cuts;
  for (let count = 0; boost !== null && count < MOST_BOOSTS; count++) {
    const left_db = leftWith(wanted, aim, fitted);
    const bases = fitted.slots.length < task.device.bands ? [fitted] : oneFewer(fitted, count);
    const [best] = bases
      .flatMap(({ slots, bells }) => {
        const all = [...slots, boost];
        return boostStarts(boost, bells).map((start) => ({
          slots: all,
          bells: settle(wanted, all, start, SETTLING_STEPS).parameters,
        }));
      })
      .map((one) => ({ one, left_db: leftWith(wanted, aim, one) }))
      .toSorted((a, b) => a.left_db - b.left_db);
    if (best === undefined || left_db * (1 - BOOST_WORTH_RATIO) < best.left_db) break;
    fitted = best.one;
  }
  return fitted;
}

/** Every way of taking one cut out; boosts stand last and stay. */
function oneFewer({ slots, bells }: Fitted, boostCount: number): readonly Fitted[] {
  return slots.slice(0, slots.length - boostCount).map((_, gone) => ({
    slots: slots.filter((_slot, i) => i !== gone),
    bells: bells.filter((_value, i) => Math.floor(i / 3) !== gone),
  }));
}

const BOOST_STARTS = 6;

function boostStarts({ low, high }: Slot, bells: Float64Array): readonly Float64Array[] {
  return Array.from({ length: BOOST_STARTS }, (_, i) =>
    Float64Array.from([
      ...bells,
      low[0] + ((high[0] - low[0]) * (i + 0.5)) / BOOST_STARTS,
      Math.min(high[1], Math.max(low[1], Math.log(3))),
      high[2] / 2,
    ]),
  );
}

function leftWith({ grid }: Wanted, aim: Aim, { bells }: Fitted): number {
  return distance_db(aim, bellsLevel_db(grid, bells));
}

/** Bands as a correction over any grid, dB: for drawing, and to take a fit out of a response again. */
export function bandsLevel_db(
  frequency_hz: ArrayLike<number>,
  bands: readonly FitBand[],
  sampleRate_hz: number | null,
): Float64Array {
  const grid = bellGrid(frequency_hz, sampleRate_hz);
  return bellsLevel_db(grid, bellsOf({ grid }, bands));
}
