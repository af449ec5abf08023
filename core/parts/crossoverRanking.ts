// Ranks the crossovers that a device offers by their acoustic sum, in bounded time, and keeps the clearly different ones.

import type { FilterFamily, Steps } from '../../schema/model/gear.ts';
import type { CrossoverShape } from '../acoustics/crossoverFilter.ts';
import {
  type CrossoverCandidate,
  type CrossoverOffer,
  searchCrossover,
} from '../acoustics/crossoverSearch.ts';
import type { DelayRange } from '../acoustics/delayAlignment.ts';
import { stepsBetween } from '../signal/steps.ts';
import { type Ends, naturalOf, phaseFilter, shapeOf } from './crossoverSides.ts';

/** All that the ranking depends on: plain data, so that it can be kept while the rest of the room moves. */
export interface RankingInput {
  readonly main: Ends;
  readonly sub: Ends;
  /** Steps of the control, the more limited one where each side has its own. */
  readonly frequency_hz: Steps;
  readonly mainSlope_db_oct: Steps | null;
  readonly subSlope_db_oct: Steps | null;
  readonly mainFamily: FilterFamily | null;
  readonly subFamily: FilterFamily | null;
  readonly canInvert: boolean;
  /** Phase control of the sub: the lags that count, and the frequency at which they hold. */
  readonly phases: { readonly lag_rad: readonly number[]; readonly at_hz: number } | null;
  readonly delay: DelayRange;
}

export interface Ranked extends CrossoverCandidate {
  readonly slopes: SlopePair;
  readonly phase_rad: number | null;
  /** The search's score with what practice adds to it; lower is better. */
  readonly total_db: number;
}

/** Crossovers lie here in practice (60 to 120 Hz is the usual window): common practice, no source. */
const LEAST_HZ = 30;
const MOST_HZ = 160;
/** Coarse grid of the search; a finer one follows around its best. */
const MOST_FREQUENCIES = 14;
const BEST_COUNT = 4;
/** A sub begins to be heard as a place above this: common practice, no source. */
const LOCATED_HZ = 80;
/** What that counts as at once, and for each 20 Hz more, in dB of deviation. */
const LOCATED_DB = 0.75;
const LOCATED_DB_PER_20_HZ = 0.5;
/** Steeper than fourth order rings longer near the crossover and must be worth it: our own weight. */
const USUAL_ORDER = 4;
const STEEP_DB = 0.5;
/** What a cycle of delay at the crossover counts as: a delay beyond alignment brings group delay and must be worth it. */
const CYCLE_DB = 1;

/** Best first, only such as differ in slope, polarity or a quarter of an octave. */
export function rankCrossovers(input: RankingInput): readonly Ranked[] {
  const f6_hz = input.main.lowEnd?.minus6db_hz ?? LEAST_HZ;
  const from_hz = Math.max(LEAST_HZ, f6_hz * 0.8);
  const coarse_hz = stepsBetween(
    from_hz,
    Math.max(MOST_HZ, f6_hz * 2),
    input.frequency_hz,
    MOST_FREQUENCIES,
  );
  const coarse = rankAt(input, coarse_hz);
  const [best] = coarse;
  if (best === undefined) return [];
  const near_hz = stepsBetween(
    best.frequency_hz / 2 ** (1 / 6),
    best.frequency_hz * 2 ** (1 / 6),
    input.frequency_hz,
    7,
  ).filter((frequency_hz) => !coarse_hz.includes(frequency_hz));
  return different([...coarse, ...rankAt(input, near_hz)].sort(byTotal));
}

/** Slopes of the two filters, dB per octave; null on a side without one. */
export interface SlopePair {
  readonly main_db_oct: number | null;
  readonly sub_db_oct: number | null;
}

/** How one filter, as dialled in, ranks with the polarity and delay that are best for it; null where it is not offered. */
export function rankOf(
  input: RankingInput,
  frequency_hz: number,
  { main_db_oct, sub_db_oct }: SlopePair,
): Ranked | null {
  const only = (slope: number | null) =>
    slope === null ? null : { min: null, max: null, step: null, choices: [slope] };
  const narrowed = {
    ...input,
    mainSlope_db_oct: only(main_db_oct),
    subSlope_db_oct: only(sub_db_oct),
    mainFamily: main_db_oct === null ? null : input.mainFamily,
    subFamily: sub_db_oct === null ? null : input.subFamily,
  };
  return rankAt(narrowed, [frequency_hz])[0] ?? null;
}

function rankAt(input: RankingInput, wanted_hz: readonly number[]): readonly Ranked[] {
  const slopes = slopesOf(input);
  const frequencies_hz = wanted_hz.filter((frequency_hz) => 0 < frequency_hz);
  if (frequencies_hz.length === 0 || slopes.length === 0) return [];
  const { phases } = input;
  const offer: CrossoverOffer = {
    frequencies_hz,
    pairs: slopes.map(({ highPass, lowPass }) => ({ highPass, lowPass })),
    inverted: input.canInvert ? [false, true] : [false],
    phases: phases?.lag_rad.map((lag_rad) => phaseFilter(lag_rad, phases.at_hz)),
    delay: input.delay,
  };
  const side = (ends: Ends) => ({ natural: naturalOf(ends), level_db: 0, arrival_s: 0 });
  const slopesOfPair = new Map(offer.pairs.map((pair, i) => [pair, slopes[i] ?? NO_SLOPES]));
  return searchCrossover(side(input.main), side(input.sub), offer)
    .map(
      (candidate): Ranked => ({
        ...candidate,
        slopes: slopesOfPair.get(candidate.pair) ?? NO_SLOPES,
        phase_rad: phases?.lag_rad[candidate.phaseIndex] ?? null,
        total_db: candidate.score_db + practice_db(candidate),
      }),
    )
    .sort(byTotal);
}

/** What practice holds against a candidate beyond its sum. */
function practice_db({ frequency_hz, delay_s, pair }: CrossoverCandidate): number {
  const order = Math.max(pair.highPass?.order ?? 0, pair.lowPass?.order ?? 0);
  return heldAgainst_db(frequency_hz, delay_s, order);
}

/** The same for any setting: a place that is heard, steep filters, a delay beyond alignment. */
export function heldAgainst_db(frequency_hz: number, delay_s: number, order: number): number {
  const above_hz = frequency_hz - LOCATED_HZ;
  const located_db = 0 < above_hz ? LOCATED_DB + (above_hz / 20) * LOCATED_DB_PER_20_HZ : 0;
  const steep_db = USUAL_ORDER < order ? STEEP_DB : 0;
  return located_db + steep_db + Math.abs(delay_s) * frequency_hz * CYCLE_DB;
}

interface Slope extends SlopePair {
  readonly highPass: CrossoverShape | null;
  readonly lowPass: CrossoverShape | null;
}

const NO_SLOPES: SlopePair = { main_db_oct: null, sub_db_oct: null };

/** The pairs of slopes that can be dialled in. */
export function offeredSlopes(input: RankingInput): readonly SlopePair[] {
  return slopesOf(input).map(({ main_db_oct, sub_db_oct }) => ({ main_db_oct, sub_db_oct }));
}

/** Slopes that exist as filters: the same on both sides where the device offers that, else every pair. */
function slopesOf(input: RankingInput): readonly Slope[] {
  const mains = shapes(input.mainSlope_db_oct, input.mainFamily);
  const subs = shapes(input.subSlope_db_oct, input.subFamily);
  const pairs = mains.flatMap((main) =>
    subs.map((sub) => ({
      main_db_oct: main.slope,
      sub_db_oct: sub.slope,
      highPass: main.shape,
      lowPass: sub.shape,
    })),
  );
  const isOneSided = input.mainFamily === null || input.subFamily === null;
  const alike = pairs.filter(({ main_db_oct, sub_db_oct }) => main_db_oct === sub_db_oct);
  return isOneSided || alike.length === 0 ? pairs : alike;
}

interface Shaped {
  readonly slope: number | null;
  readonly shape: CrossoverShape | null;
}

/** The filters of one side; a single wire where it has none. */
function shapes(steps: Steps | null, family: FilterFamily | null): readonly Shaped[] {
  if (family === null || steps === null) return [{ slope: null, shape: null }];
  const offered = steps.choices ?? [12, 24, 48].filter((slope) => fits(slope, steps));
  return offered.flatMap((slope) => {
    const shape = shapeOf({ family, slope_db_oct: slope });
    return shape === null ? [] : [{ slope, shape }];
  });
}

function fits(slope: number, { min, max }: Steps): boolean {
  return (min ?? 0) <= slope && slope <= (max ?? Infinity);
}

function byTotal(a: Ranked, b: Ranked): number {
  return a.total_db - b.total_db;
}

function different(ranked: readonly Ranked[]): readonly Ranked[] {
  const kept: Ranked[] = [];
  for (const candidate of ranked) {
    const isLikeOne = kept.some(
      (other) =>
        other.slopes.main_db_oct === candidate.slopes.main_db_oct &&
        other.slopes.sub_db_oct === candidate.slopes.sub_db_oct &&
        other.inverted === candidate.inverted &&
        Math.abs(Math.log2(other.frequency_hz / candidate.frequency_hz)) < 0.25,
    );
    if (!isLikeOne) kept.push(candidate);
    if (kept.length === BEST_COUNT) break;
  }
  return kept;
}
