// The record of a room as plain JSON: its fingerprint, what still stands, what has moved between sessions.

import type { SessionDrift, TakeDrift } from '../../core/record/driftFigures.ts';
import type { RecordFigures, Tie } from '../../core/record/recordFigures.ts';
import type { Setup } from '../../core/setup.ts';
import { toMs } from './convert.ts';

/** null only for setups that are made by hand. */
export function recordFigures({ record, drift }: Pick<Setup, 'record' | 'drift'>): unknown {
  if (record === undefined) return null;
  const { fingerprint, state, sessions, signOff, listening } = record;
  return {
    state,
    fingerprint: fingerprint.text,
    fingerprint_short: fingerprint.short,
    parts: fingerprint.parts,
    sessions: sessions.map((one) => ({
      session: one.session,
      ...tieFigures(one),
      takes: one.takeCount,
      newest: one.isNewest,
    })),
    sign_off: signOff && {
      ...tieFigures(signOff),
      due: signOff.due,
      due_from: signOff.dueFrom,
      is_due: signOff.isDue,
      measured: signOff.isMeasured,
    },
    listening: listening.map(listeningFigures),
    drift: drift
      ? {
          limit_db: drift.limit_db,
          limit_from: drift.limitFrom,
          pairs: drift.pairs.map(pairFigures),
        }
      : null,
  };
}

function tieFigures({ date, by, setup, tie, changed }: Tie): Record<string, unknown> {
  return { date, by, setup, tie, changed };
}

function listeningFigures(one: RecordFigures['listening'][number]): unknown {
  const { check, play, listenFor, level, result, isAsked, state } = one;
  return {
    check,
    play,
    listen_for: listenFor,
    level: level && { level_db: level.level_db, weighting: level.weighting },
    result,
    ...tieFigures(one),
    asked: isAsked,
    state,
  };
}

function pairFigures(pair: SessionDrift): unknown {
  const { earlier, later, earlierDate, laterDate, changed, commonOffset_db, takes } = pair;
  return {
    earlier,
    later,
    earlier_date: earlierDate,
    later_date: laterDate,
    changed,
    common_offset_db: commonOffset_db,
    takes: takes.map(takeFigures),
  };
}

function takeFigures(take: TakeDrift): unknown {
  const { earlierTake, laterTake, response, level_db, arrival, isPolarityTurned, decay, moved } =
    take;
  return {
    earlier_take: earlierTake,
    later_take: laterTake,
    response: response && {
      rms_db: response.rms_db,
      worst: response.worst,
      frequency_hz: response.frequency_hz,
      moved_db: response.moved_db,
    },
    level_db,
    arrival: arrival && {
      moved_ms: toMs(arrival.moved_s),
      by_air_ms: toMs(arrival.byAir_s),
      limit_ms: toMs(arrival.limit_s),
    },
    polarity_turned: isPolarityTurned,
    decay,
    moved,
  };
}
