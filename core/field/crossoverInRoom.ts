// The crossover's sum in the room: what is dialled in, what practice and the anechoic sum suggest, and which joint setting would be best.
//
// Loudspeakers, equalisers and levels stay as they are on their ways; only the two crossover filters, the subs' polarity and one delay
// are exchanged, as a ratio of new to old. The search is bounded: frequencies thinned, slopes as offered, nine delays within a cycle.

import { filterResponse } from '../acoustics/analogueFilter.ts';
import { type ComplexResponse, productOf } from '../acoustics/complex.ts';
import type { CrossoverInRoom, RoomOutcome } from '../fieldFigures.ts';
import type { CrossoverCase } from '../parts/crossoverCase.ts';
import { type Dialled, dialledOf, rankingInput } from '../parts/crossoverInput.ts';
import {
  heldAgainst_db,
  offeredSlopes,
  type RankingInput,
  type SlopePair,
} from '../parts/crossoverRanking.ts';
import { electrical } from '../parts/crossoverSides.ts';
import type { CrossoverFigures, CrossoverOutcome, FilterChoice } from '../setup.ts';
import { stepsBetween } from '../signal/steps.ts';
import type { Drive } from './drives.ts';
import type { AtSeat } from './polarity.ts';
import { addPressure, level_dbspl, silence } from './sums.ts';

/** Judged here, whatever the crossover: what a crossover to a subwoofer can change. Common practice, no source. */
const JUDGED_HZ = [40, 160] as const;
/** Crossovers lie here in practice. */
const SEARCHED_HZ = [40, 130] as const;
const MOST_FREQUENCIES = 10;
/** Eighths of a cycle, to half a cycle either way. */
const DELAY_STEPS = [-4, -3, -2, -1, 0, 1, 2, 3, 4] as const;
/** Of the mains so many stand for all: a pair, and one pair more. */
const MOST_MAINS = 4;

/** null where nothing is dialled in, or a main or subwoofer has no field. */
export function crossoverInRoom(
  of: CrossoverCase,
  figures: CrossoverFigures,
  drives: readonly Drive[],
  at: AtSeat,
): CrossoverInRoom | null {
  const input = rankingInput(of);
  const { current, practice, ranked } = figures;
  const dialled = dialledOf(of);
  if (input === null || current === null) return null;
  const sides = sidesOf(of, drives, at);
  if (sides === null) return null;
  const exchange = exchanger(sides, dialled, current, at.frequency_hz);
  const told = (outcome: CrossoverOutcome): RoomOutcome | null => {
    const { filter, polarity, subDelay_s } = outcome;
    return exchange(slopesLike(input, filter), { filter, polarity, subDelay_s });
  };
  const own = exchange(null, current);
  const best = searched(input, current, exchange);
  if (own === null || best === null) return null;
  return {
    path: figures.path,
    set: figures.set,
    anechoicRipple_db: current.ripple_db,
    current: own,
    practice: practice && told(practice),
    suggested: ranked[0] ? told(ranked[0]) : null,
    best: score_db(best) < score_db(own) ? best : own,
  };
}

type Setting = Pick<RoomOutcome, 'filter' | 'polarity' | 'subDelay_s'>;
type Exchange = (slopes: SlopePair | null, setting: Setting) => RoomOutcome | null;

/** Every frequency, slope, polarity and delay of the bounded search; the least deviation. */
function searched(
  input: RankingInput,
  current: CrossoverOutcome,
  exchange: Exchange,
): RoomOutcome | null {
  const family = input.mainFamily ?? input.subFamily ?? current.filter.family;
  const polarities = input.canInvert
    ? (['normal', 'inverted'] as const)
    : ([current.polarity] as const);
  let best: RoomOutcome | null = null;
  for (const frequency_hz of stepsBetween(...SEARCHED_HZ, input.frequency_hz, MOST_FREQUENCIES)) {
    const delays_s =
      input.delay.most_s === 0 && input.delay.least_s === 0
        ? [current.subDelay_s]
        : DELAY_STEPS.map((eighths) => eighths / 8 / frequency_hz);
    for (const slopes of offeredSlopes(input)) {
      const slope_db_oct = slopes.main_db_oct ?? slopes.sub_db_oct ?? current.filter.slope_db_oct;
      const filter = { frequency_hz, slope_db_oct, family };
      for (const polarity of polarities) {
        for (const subDelay_s of delays_s) {
          const outcome = exchange(slopes, { filter, polarity, subDelay_s });
          if (outcome !== null && (best === null || score_db(outcome) < score_db(best)))
            best = outcome;
        }
      }
    }
  }
  return best;
}

/** Deviation, and what practice holds against the setting, as for the anechoic ranking. */
function score_db({ deviation_db, filter, subDelay_s }: RoomOutcome): number {
  return deviation_db + heldAgainst_db(filter.frequency_hz, subDelay_s, filter.slope_db_oct / 6);
}

/** Pressures at the seat: each main by itself, and all subwoofers together for its channel. */
interface Sides {
  readonly mains: readonly ComplexResponse[];
  readonly subs: readonly ComplexResponse[];
}

function sidesOf(
  { mains, subs, set }: CrossoverCase,
  drives: readonly Drive[],
  at: AtSeat,
): Sides | null {
  const here = drives.filter((drive) => drive.set === set && !drive.isLfe);
  const pairs = mains.slice(0, MOST_MAINS).flatMap(({ id }) => {
    const main = here.find(({ source }) => source.id === id);
    const own = here.filter(
      ({ source, channel }) =>
        channel === main?.channel && subs.some((sub) => sub.id === source.id),
    );
    const high = main && sumOf([main], at);
    const low = sumOf(own, at);
    return high && low && 0 < own.length ? [{ high, low }] : [];
  });
  if (pairs.length === 0) return null;
  return { mains: pairs.map(({ high }) => high), subs: pairs.map(({ low }) => low) };
}

function sumOf(drives: readonly Drive[], at: AtSeat): ComplexResponse | null {
  const sum = silence(at.frequency_hz.length);
  for (const drive of drives) {
    const transfer = at.transferOf(drive.source.id);
    if (transfer === null) return null;
    addPressure(sum, transfer, drive, at.frequency_hz, at.density_kg_m3);
  }
  return sum;
}

/** Filters of each side are exchanged once and kept; polarity and delay turn the subs' side. */
function exchanger(
  sides: Sides,
  dialled: Dialled,
  current: CrossoverOutcome,
  frequency_hz: readonly number[],
): Exchange {
  const kept = new Map<string, Sides | null>();
  return (slopes, setting) => {
    const { filter, polarity, subDelay_s } = setting;
    const key = JSON.stringify([slopes, slopes && filter]);
    const known = kept.get(key);
    const filtered =
      known === undefined ? filteredSides(sides, dialled, filter, slopes, frequency_hz) : known;
    kept.set(key, filtered);
    if (filtered === null) return null;
    const sign = polarity === current.polarity ? 1 : -1;
    const late_s = subDelay_s - current.subDelay_s;
    const levels = filtered.mains.map((main, i) =>
      levelsOf(main, filtered.subs[i] ?? main, sign, late_s, frequency_hz),
    );
    return { filter, polarity, subDelay_s, ...judged(levels, filter.frequency_hz, frequency_hz) };
  };
}

/** null where such a filter does not exist; the sides as they are where nothing is exchanged. */
function filteredSides(
  sides: Sides,
  { high, low }: Dialled,
  filter: FilterChoice,
  slopes: SlopePair | null,
  frequency_hz: readonly number[],
): Sides | null {
  if (slopes === null) return sides;
  const ratio = (
    old: FilterChoice | null,
    slope_db_oct: number | null,
    side: 'high_pass' | 'low_pass',
  ): ComplexResponse | null => {
    const before = electrical(old, side);
    const after = electrical(slope_db_oct === null ? null : { ...filter, slope_db_oct }, side);
    if (before === null || after === null) return null;
    return quotient(filterResponse(after, frequency_hz), filterResponse(before, frequency_hz));
  };
  const main = ratio(high, slopes.main_db_oct, 'high_pass');
  const sub = ratio(low, slopes.sub_db_oct, 'low_pass');
  if (main === null || sub === null) return null;
  return {
    mains: sides.mains.map((one) => productOf(one, main)),
    subs: sides.subs.map((one) => productOf(one, sub)),
  };
}

function quotient(a: ComplexResponse, b: ComplexResponse): ComplexResponse {
  const re = new Float64Array(a.re.length);
  const im = new Float64Array(a.re.length);
  for (let i = 0; i < re.length; i++) {
    const [aRe, aIm, bRe, bIm] = [a.re[i] ?? 0, a.im[i] ?? 0, b.re[i] ?? 0, b.im[i] ?? 0];
    const size = Math.max(1e-30, bRe * bRe + bIm * bIm);
    re[i] = (aRe * bRe + aIm * bIm) / size;
    im[i] = (aIm * bRe - aRe * bIm) / size;
  }
  return { re, im };
}

/** Mean power over a third of an octave around each frequency, dB SPL. */
function levelsOf(
  main: ComplexResponse,
  sub: ComplexResponse,
  sign: 1 | -1,
  late_s: number,
  frequency_hz: readonly number[],
): readonly number[] {
  const power = frequency_hz.map((f_hz, i) => {
    const angle = -2 * Math.PI * f_hz * late_s;
    const [cos, sin] = [sign * Math.cos(angle), sign * Math.sin(angle)];
    const [sRe, sIm] = [sub.re[i] ?? 0, sub.im[i] ?? 0];
    const re = (main.re[i] ?? 0) + cos * sRe - sin * sIm;
    const im = (main.im[i] ?? 0) + cos * sIm + sin * sRe;
    return re * re + im * im;
  });
  let first = 0;
  let last = 0;
  let sum = 0;
  return frequency_hz.map((f_hz) => {
    while (last < power.length && (frequency_hz[last] ?? 0) <= f_hz * SIXTH_RATIO)
      sum += power[last++] ?? 0;
    while ((frequency_hz[first] ?? 0) < f_hz / SIXTH_RATIO) sum -= power[first++] ?? 0;
    return level_dbspl(Math.max(0, sum) / Math.max(1, last - first));
  });
}

/** A sixth of an octave to either side. */
const SIXTH_RATIO = 2 ** (1 / 6);

/** Mean over the mains of each one's deviation from its own mean, and of its span within an octave of the crossover. */
function judged(
  levels: readonly (readonly number[])[],
  crossover_hz: number,
  frequency_hz: readonly number[],
): Pick<RoomOutcome, 'ripple_db' | 'deviation_db'> {
  const within = (level_db: readonly number[], [from_hz, to_hz]: readonly [number, number]) =>
    level_db.filter((_, i) => {
      const f_hz = frequency_hz[i] ?? 0;
      return from_hz <= f_hz && f_hz <= to_hz;
    });
  const mean = (values: readonly number[]) =>
    values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
  return {
    ripple_db: mean(
      levels.map((level_db) => {
        const inside = within(level_db, [crossover_hz / 2, crossover_hz * 2]);
        return Math.max(...inside) - Math.min(...inside);
      }),
    ),
    deviation_db: mean(
      levels.map((level_db) => {
        const inside = within(level_db, JUDGED_HZ);
        const middle_db = mean(inside);
        return Math.sqrt(mean(inside.map((one) => (one - middle_db) ** 2)));
      }),
    ),
  };
}

/** A suggestion is told by one slope: on the sides that have a filter. */
function slopesLike(input: RankingInput, { slope_db_oct }: FilterChoice): SlopePair {
  const nearest = (offered: readonly (number | null)[]) =>
    offered.includes(slope_db_oct) ? slope_db_oct : (offered[0] ?? null);
  const offered = offeredSlopes(input);
  return {
    main_db_oct: nearest(offered.map(({ main_db_oct }) => main_db_oct)),
    sub_db_oct: nearest(offered.map(({ sub_db_oct }) => sub_db_oct)),
  };
}
