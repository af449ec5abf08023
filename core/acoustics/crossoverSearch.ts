// Searches what a device offers (frequency, slope, polarity, phase, delay) for the crossover whose acoustic sum is best.
//
// All settings are scored together, on the sum of electrical filter and natural roll-off, since each changes what is
// right for the others. Responses are worked out once for each filter; delays are searched coarse to fine.

import { type AnalogueFilter, filterResponse, WIRE } from './analogueFilter.ts';
import { type ComplexResponse, levels_db, polar, productOf, responseOf } from './complex.ts';
import { type CrossoverShape, crossoverFilter, type PassSide } from './crossoverFilter.ts';
import { type LevelAt, overlapIndices } from './crossoverSum.ts';
import {
  alignDelay,
  type DelayRange,
  type Pairing,
  pairing,
  stretchOfPairing,
} from './delayAlignment.ts';
import { logGrid_hz, nearestIndex } from './frequencyGrid.ts';

/** One loudspeaker before any crossover filter. */
export interface NaturalBranch {
  /** its own response, level 1 in the pass band: a roll-off, or measured */
  readonly natural: AnalogueFilter;
  readonly level_db: number;
  /** latency and flight, without the delay that is searched */
  readonly arrival_s: number;
}

/** A high-pass for the main and a low-pass for the sub that are chosen together; null is none. */
export interface CrossoverPair {
  readonly highPass: CrossoverShape | null;
  readonly lowPass: CrossoverShape | null;
}

/** What can be dialled in. No list may be empty. */
export interface CrossoverOffer {
  readonly frequencies_hz: readonly number[];
  readonly pairs: readonly CrossoverPair[];
  /** polarities of the sub: `[false]`, or `[false, true]` with a switch */
  readonly inverted: readonly boolean[];
  /** phase control of the sub, one filter a setting; left out, none */
  readonly phases?: readonly AnalogueFilter[] | undefined;
  /** extra delay of the sub; negative values delay the main */
  readonly delay: DelayRange;
}

export interface CrossoverCandidate {
  readonly frequency_hz: number;
  readonly pair: CrossoverPair;
  readonly inverted: boolean;
  /** which of `offer.phases`, 0 without any */
  readonly phaseIndex: number;
  readonly delay_s: number;
  /** lower is better: `deviation_db` + half of `loss_db` */
  readonly score_db: number;
  /** rms of the sum against its target, an octave to either side of the crossover */
  readonly deviation_db: number;
  /** worst dip and bump of the sum against its target in that range */
  readonly dip: LevelAt;
  readonly bump: LevelAt;
  /** rms loss by phase in the overlap */
  readonly loss_db: number;
}

/** Delays whose loss is this near count as equally good; the smallest is taken. */
const SAME_LOSS_DB = 0.1;
const POINTS_PER_OCTAVE = 12;

/**
 * All offered crossovers, best first.
 *
 * The target at each frequency is what the better of the two loudspeakers gives unfiltered (at most the main's level), so
 * that a sub's own lower end is not held against a crossover.
 *
 * @returns one for each frequency, pair, polarity and phase, each with its own best delay; ties in the order offered
 * @source complex addition; the score is our own. Phase is only as good as the natural responses given.
 */
export function searchCrossover(
  main: NaturalBranch,
  sub: NaturalBranch,
  offer: CrossoverOffer,
): readonly CrossoverCandidate[] {
  const found: CrossoverCandidate[] = [];
  const filtered = createFiltered();
  for (const frequency_hz of offer.frequencies_hz) {
    const stage = stageAt(frequency_hz, main, sub);
    for (const pair of offer.pairs) {
      const high = filtered(stage.main, pair.highPass, 'high_pass');
      const low = filtered(stage.sub, pair.lowPass, 'low_pass');
      for (const [phaseIndex, phase] of (offer.phases ?? [WIRE]).entries()) {
        const turned =
          phase.length === 0 ? low : productOf(low, filterResponse(phase, stage.grid_hz));
        const scored = scoreBoth(stage, high, turned, offer);
        found.push(...scored.map((score) => ({ frequency_hz, pair, phaseIndex, ...score })));
      }
    }
  }
  return found.sort((a, b) => a.score_db - b.score_db);
}

/** The two loudspeakers around one crossover frequency. */
interface Stage {
  readonly grid_hz: Float64Array;
  readonly main: ComplexResponse;
  readonly sub: ComplexResponse;
  readonly target_db: Float64Array;
  readonly centre: number;
}

function stageAt(frequency_hz: number, main: NaturalBranch, sub: NaturalBranch): Stage {
  const grid_hz = ABOUT_1_HZ.map((about_hz) => about_hz * frequency_hz);
  const natural = {
    main: filterResponse(main.natural, grid_hz),
    sub: filterResponse(sub.natural, grid_hz),
  };
  const bare = [levels_db(natural.main), levels_db(natural.sub)];
  const target_db = grid_hz.map(
    (_, i) => main.level_db + Math.min(0, Math.max(bare[0]?.[i] ?? 0, bare[1]?.[i] ?? 0)),
  );
  return {
    grid_hz,
    main: arrived(main, natural.main, grid_hz, main.arrival_s),
    sub: arrived(sub, natural.sub, grid_hz, main.arrival_s),
    target_db,
    centre: nearestIndex(grid_hz, frequency_hz),
  };
}

/** @param natural the branch's own response on the grid */
function arrived(
  { level_db, arrival_s }: NaturalBranch,
  natural: ComplexResponse,
  grid_hz: Float64Array,
  zero_s: number,
): ComplexResponse {
  const gain = 10 ** (level_db / 20);
  if (gain === 1 && arrival_s === zero_s) return natural;
  const late = responseOf(grid_hz, (frequency_hz) =>
    polar(gain, -2 * Math.PI * frequency_hz * (arrival_s - zero_s)),
  );
  return productOf(natural, late);
}

/** Two octaves about 1 Hz: a filter looks the same about its own frequency, whichever that is. */
const ABOUT_1_HZ = logGrid_hz(1 / 2, 2, POINTS_PER_OCTAVE);

/** Filters responses that lie on a stage's grid, about its frequency; each filter is worked out once. */
function createFiltered(): (
  response: ComplexResponse,
  shape: CrossoverShape | null,
  side: PassSide,
) => ComplexResponse {
  const known = new Map<string, ComplexResponse>();
  return (response, shape, side) => {
    if (shape === null) return response;
    const key = `${side} ${shape.kind} ${shape.order}`;
    const filter = known.get(key) ?? filterResponse(crossoverFilter(shape, side, 1), ABOUT_1_HZ);
    known.set(key, filter);
    return productOf(response, filter);
  };
}

type Score = Omit<CrossoverCandidate, 'frequency_hz' | 'pair' | 'phaseIndex'>;

/** The best delay and its score for each polarity offered. */
function scoreBoth(
  stage: Stage,
  main: ComplexResponse,
  sub: ComplexResponse,
  offer: CrossoverOffer,
): readonly Score[] {
  const overlap = overlapIndices(levels_db(main), levels_db(sub), stage.centre);
  const whole = pairing(stage.grid_hz, main, sub);
  const first = overlap?.at(0) ?? 0;
  const last = overlap?.at(-1) ?? whole.omega_rad_s.length - 1;
  const common = stretchOfPairing(whole, first, last);
  return offer.inverted.map((inverted) => {
    const { delay_s, loss_db } = alignDelay(common, inverted, offer.delay, SAME_LOSS_DB);
    const deviation = deviationOf(stage, whole, inverted, delay_s);
    const score_db = deviation.deviation_db + loss_db / 2;
    return { inverted, delay_s, loss_db, score_db, ...deviation };
  });
}

function deviationOf(
  stage: Stage,
  pair: Pairing,
  inverted: boolean,
  delay_s: number,
): Pick<Score, 'deviation_db' | 'dip' | 'bump'> {
  let square = 0;
  let dip: LevelAt = { frequency_hz: Number.NaN, level_db: Infinity };
  let bump: LevelAt = { frequency_hz: Number.NaN, level_db: -Infinity };
  for (let i = 0; i < stage.grid_hz.length; i++) {
    const frequency_hz = stage.grid_hz[i] ?? Number.NaN;
    const level_db = shiftedSum_db(pair, i, inverted, delay_s) - (stage.target_db[i] ?? 0);
    square += level_db ** 2;
    if (level_db < dip.level_db) dip = { frequency_hz, level_db };
    if (bump.level_db < level_db) bump = { frequency_hz, level_db };
  }
  return { deviation_db: Math.sqrt(square / stage.grid_hz.length), dip, bump };
}

function shiftedSum_db(pair: Pairing, i: number, inverted: boolean, delay_s: number): number {
  const m = pair.main_ratio[i] as number;
  const s = (inverted ? -1 : 1) * (pair.sub_ratio[i] as number);
  const angle = (pair.difference_rad[i] as number) - (pair.omega_rad_s[i] as number) * delay_s;
  return 10 * Math.log10(Math.max(0, m * m + s * s + 2 * m * s * Math.cos(angle)));
}
