// One take held against the same take of an earlier session: what has moved, and by more than what.

import { ORDINARY_AIR, speedOfSound_m_s } from '../acoustics/air.ts';
import { bandAt } from '../acoustics/thirdOctave.ts';
import type { MeasuredTake } from '../measured/measuredFigures.ts';
import type { Moved, ResponseDrift, TakeDrift } from './driftFigures.ts';

export interface Limits {
  readonly moved_db: number;
  readonly from: 'policy' | 'practice';
}

export interface TakeDriftInput {
  readonly response: ResponseDrift | null;
  readonly level_db: number | null;
  readonly isJudged: boolean;
  readonly limits: Limits;
  /** From the one source that sounded to the microphone; null where that is not known. */
  readonly distance_m: number | null;
  /** Kelvin, the earlier session's first. */
  readonly temperatures_k: readonly [number | null, number | null];
}

/** What a microphone put back by hand, some 2 cm, does to an arrival: common practice, no source. */
const ARRIVAL_LIMIT_S = 1e-4;

/** An arrival read from the slope of a phase is good to about this much: see docs/measuring.md. */
const SLOPE_LIMIT_S = 5e-4;

export function takeDrift(
  earlier: MeasuredTake,
  later: MeasuredTake,
  { response, level_db, isJudged, limits, ...where }: TakeDriftInput,
): TakeDrift {
  const arrival = arrivalDrift(earlier, later, where);
  const decay = decayDrift(earlier, later);
  const polarities = [earlier.polarity, later.polarity];
  const isPolarityTurned = polarities.includes('upright') && polarities.includes('inverted');
  const unexplained_s = arrival === null ? 0 : Math.abs(arrival.moved_s - (arrival.byAir_s ?? 0));
  const found: readonly (readonly [Moved, boolean])[] = [
    ['response', response !== null && limits.moved_db < response.rms_db],
    ['level', level_db !== null && limits.moved_db < Math.abs(level_db)],
    ['arrival', arrival !== null && arrival.limit_s < unexplained_s],
    ['polarity', isPolarityTurned],
    ['decay', decay.some((one) => one.limit_s < Math.abs(one.later_s - one.earlier_s))],
  ];
  return {
    earlierTake: earlier.take,
    laterTake: later.take,
    path: later.path,
    response,
    level_db,
    arrival,
    isPolarityTurned,
    decay,
    moved: isJudged ? found.flatMap(([what, is]) => (is ? [what] : [])) : [],
  };
}

function arrivalDrift(
  earlier: MeasuredTake,
  later: MeasuredTake,
  {
    distance_m,
    temperatures_k: [before_k, after_k],
  }: Pick<TakeDriftInput, 'distance_m' | 'temperatures_k'>,
): TakeDrift['arrival'] {
  if (earlier.arrival_s === null || later.arrival_s === null) return null;
  if (earlier.arrivalBy !== later.arrivalBy) return null;
  const byAir_s =
    distance_m === null || before_k === null || after_k === null
      ? null
      : distance_m / speedAt_m_s(after_k) - distance_m / speedAt_m_s(before_k);
  return {
    moved_s: later.arrival_s - earlier.arrival_s,
    byAir_s,
    limit_s: later.arrivalBy === 'slope' ? SLOPE_LIMIT_S : ARRIVAL_LIMIT_S,
  };
}

function speedAt_m_s(temperature_k: number): number {
  return speedOfSound_m_s({ ...ORDINARY_AIR, temperature_k });
}

function decayDrift(earlier: MeasuredTake, later: MeasuredTake): TakeDrift['decay'] {
  return later.octaves.flatMap(({ frequency_hz, t20_s }) => {
    const before_s = earlier.octaves.find((one) => one.frequency_hz === frequency_hz)?.t20_s;
    if (t20_s === null || before_s === null || before_s === undefined) return [];
    const limit_s =
      2 * Math.hypot(deviation_s(before_s, frequency_hz), deviation_s(t20_s, frequency_hz));
    return [{ frequency_hz, earlier_s: before_s, later_s: t20_s, limit_s }];
  });
}

/**
 * Standard deviation of one T20 from an impulse response at one position.
 *
 * @source ISO 3382-2:2008, Eq. (2) (from memory): σ = 0.88 T √((1 + 1.90/n)/(N B T)), n = 10, N = 1
 */
function deviation_s(t20_s: number, octave_hz: number): number {
  const { lower_hz, upper_hz } = bandAt(Math.round(Math.log2(octave_hz / 1000)), 1);
  return 0.88 * t20_s * Math.sqrt((1 + 1.9 / 10) / ((upper_hz - lower_hz) * t20_s));
}
