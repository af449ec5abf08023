// What a session's takes say, as numbers with their errors, in the order in which a plan predicts them.

import type { MeasuredTake } from './measuredFigures.ts';
import { onGrid_db, phaseOnGrid_rad } from './onGrid.ts';
import type { PlannedTake, Prediction, SessionPlan } from './plan.ts';
import { arrivalError_s, BAND_DB, MID_DB } from './takeErrors.ts';

export interface TakeData {
  readonly planned: PlannedTake;
  readonly measured: MeasuredTake;
  readonly arrival: { readonly arrival_s: number; readonly error_s: number } | null;
  /** Arrivals against a loudspeaker that plays along have a common offset. */
  readonly isRelative: boolean;
  /** The plan knows no levels of this room's loudspeakers against each other: each take's own offset is taken off. */
  readonly isMatched: boolean;
  readonly polarity: 'upright' | 'inverted' | null;
  readonly mid: { readonly level_db: number; readonly error_db: number } | null;
  readonly bands: readonly BandData[];
  /** Of a bass source with a timing reference, where it plays: what tells its arrival and polarity better than any slope. */
  readonly phases: readonly { readonly at: number; readonly phase_rad: number }[];
}

/** Mean power over a sixth of an octave: neither notches nor smoothing matter much in it. */
export interface BandData {
  /** Places in the grid. */
  readonly from: number;
  readonly to: number;
  readonly frequency_hz: number;
  readonly level_db: number;
  readonly error_db: number;
}

const BANDS_PER_OCTAVE = 6;
/** A take counts where the plan has it within this of its strongest band. */
const HEARD_DB = 20;
/** Room for errors of a plan whose envelope is not known: places, absorption, construction. Common practice, no source. */
const UNKNOWN_DB = 2.5;

/**
 * @param envelope_db half the width of a take's envelope by frequency; null where there is none
 * @returns takes of the plan of which something was read
 */
export function sessionData(
  plan: SessionPlan,
  measured: readonly MeasuredTake[],
  envelope_db: (one: PlannedTake) => readonly number[] | null,
): readonly { readonly data: TakeData; readonly index: number }[] {
  const asPlanned = plan.predict({});
  return plan.takes.flatMap((planned, index) => {
    const found = measured.find(({ take, kind }) => take === planned.take.id && kind !== null);
    const prediction = asPlanned[index];
    if (found === undefined || prediction === undefined) return [];
    const { timing } = planned.take;
    const arrived_s = found.arrival_s;
    const phases =
      planned.mains.length === 0 && timing === 'loopback'
        ? phasesOf(plan.frequency_hz, found, prediction)
        : [];
    const isSteep = found.polarity === 'undecided' && found.arrivalBy === 'slope';
    const by = planned.mains.length === 0 ? (found.arrivalBy ?? 'slope') : 'peak';
    const error_s = arrivalError_s(by, plan.air.speedOfSound_m_s);
    const isMid = found.level !== null && planned.mains.length === 1 && 400 <= found.level.from_hz;
    return [
      {
        index,
        data: {
          planned,
          measured: found,
          arrival:
            arrived_s === null || timing === 'none' || (isSteep && phases.length === 0)
              ? null
              : { arrival_s: arrived_s, error_s },
          isRelative: timing === 'acoustic',
          isMatched: plan.isMatched,
          polarity: found.polarity === 'undecided' ? null : found.polarity,
          mid:
            isMid && found.level && !plan.isMatched
              ? { level_db: found.level.level_db, error_db: MID_DB }
              : null,
          phases,
          bands: bandsOf(plan.frequency_hz, found, prediction, envelope_db(planned)),
        },
      },
    ];
  });
}

function bandsOf(
  frequency_hz: readonly number[],
  { response }: MeasuredTake,
  { level_db }: Prediction,
  envelope_db: readonly number[] | null,
): readonly BandData[] {
  if (response === null || level_db === null) return [];
  const here_db = onGrid_db(response, frequency_hz);
  const best_db = Math.max(...level_db);
  return edges(frequency_hz).flatMap(({ from, to }) => {
    const levels = here_db.slice(from, to).filter((level) => level !== null);
    if (levels.length < to - from) return [];
    if (meanPower_db(level_db, from, to) < best_db - HEARD_DB) return [];
    const half_db = envelope_db
      ? envelope_db.slice(from, to).reduce((sum, one) => sum + one, 0) / (to - from)
      : UNKNOWN_DB;
    return [
      {
        from,
        to,
        frequency_hz: Math.sqrt((frequency_hz[from] ?? 1) * (frequency_hz[to - 1] ?? 1)),
        level_db: meanPower_db(levels, 0, levels.length),
        // About nine tenths of all such rooms lie inside an envelope: 1.65 deviations to each side.
        error_db: Math.hypot(BAND_DB, Math.min(half_db, 3 * UNKNOWN_DB) / 1.65),
      },
    ];
  });
}

/** Bands that are so far below the strongest hold more of the room than of the source. */
const PLAYS_DB = 12;
const LEAST_PHASES = 12;

function phasesOf(
  frequency_hz: readonly number[],
  { response }: MeasuredTake,
  { level_db }: Prediction,
): TakeData['phases'] {
  if (response?.phaseFrom !== 'playing' || level_db === null) return [];
  const best_db = Math.max(...level_db);
  const phases = phaseOnGrid_rad(response, frequency_hz).flatMap((phase_rad, at) =>
    phase_rad !== null && best_db - PLAYS_DB <= (level_db[at] ?? Number.NEGATIVE_INFINITY)
      ? [{ at, phase_rad }]
      : [],
  );
  return phases.length < LEAST_PHASES ? [] : phases;
}

function edges(frequency_hz: readonly number[]): readonly { from: number; to: number }[] {
  const step = Math.log2((frequency_hz[1] ?? 2) / (frequency_hz[0] ?? 1));
  const width = Math.max(1, Math.round(1 / (BANDS_PER_OCTAVE * step)));
  return Array.from({ length: Math.floor(frequency_hz.length / width) }, (_, band) => ({
    from: band * width,
    to: (band + 1) * width,
  }));
}

export function meanPower_db(level_db: ArrayLike<number>, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += 10 ** ((level_db[i] ?? Number.NEGATIVE_INFINITY) / 10);
  return 10 * Math.log10(sum / (to - from));
}
