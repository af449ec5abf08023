// The take that would tell two explanations apart: of those that could be made, the one in which they differ most.

import type { MeasuringTake } from '../../schema/model/sessions.ts';
import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import { placedSeats } from '../parts/referenceSeat.ts';
import type { Setup } from '../setup.ts';
import type { Evidence } from './causeFit.ts';
import { type Prediction, sessionPlan } from './plan.ts';
import { arrivalError_s, BAND_DB, MID_DB } from './takeErrors.ts';
import type { Variant } from './variant.ts';

/** Points about a seat: common practice, no source. */
const AWAY_M = 0.25;
/** So many errors apart, a single take tells. */
const CLEAR = 4;
const GRID = { from_hz: 25, to_hz: 160, perOctave: 9 } as const;

/** @param sources loudspeakers that are in question; null for all that were heard */
export function tellingTake(
  setup: Setup,
  evidence: Evidence,
  one: Variant,
  other: Variant,
  sources: readonly string[] | null,
): string {
  const plan = evidence[0]?.plan;
  if (plan === undefined) return NONE_TELLS;
  const heard = evidence
    .flatMap(({ data }) => data.map(({ planned }) => planned))
    .filter(
      ({ drives }) =>
        sources === null || drives.some(({ drive }) => sources.includes(drive.source.id)),
    );
  const takes = candidates(
    setup,
    heard.map(({ take }) => take),
  );
  const grid_hz = [...logGrid_hz(GRID.from_hz, GRID.to_hz, GRID.perOctave)];
  const wider = sessionPlan(setup, { ...plan.session, takes }, grid_hz);
  const [a, b] = [wider.predict(one), wider.predict(other)];
  const apart = wider.takes
    .map(({ take, mains }, i) => ({
      take,
      apart: apartness(
        a[i],
        b[i],
        mains.length === 0 ? 'slope' : 'peak',
        plan.air.speedOfSound_m_s,
      ),
    }))
    .toSorted((x, y) => y.apart - x.apart);
  const [best] = apart;
  if (best === undefined || best.apart < CLEAR) return NONE_TELLS;
  return `${wordsOf(best.take, setup)} would tell`;
}

const NONE_TELLS =
  'no further take of these loudspeakers would tell: look at the wiring and the tape';

/** What was heard, alone, at every seat and about it, with a timing reference. */
function candidates(setup: Setup, takes: readonly MeasuringTake[]): readonly MeasuringTake[] {
  const once = takes.filter(
    (take, i) => takes.findIndex((other) => other.sounding.join() === take.sounding.join()) === i,
  );
  return once.flatMap((take) =>
    placedSeats(setup.room).flatMap(({ id, at }) => [
      { ...take, id: `${take.id} ${id}`, seat: id, at: null, timing: 'loopback' as const },
      ...[-AWAY_M, AWAY_M].map((by_m) => ({
        ...take,
        id: `${take.id} ${id} ${by_m}`,
        seat: id,
        at: { ...at, x_m: at.x_m + by_m },
        timing: 'loopback' as const,
      })),
    ]),
  );
}

function apartness(
  a: Prediction | undefined,
  b: Prediction | undefined,
  by: 'peak' | 'slope',
  speedOfSound_m_s: number,
): number {
  if (a === undefined || b === undefined) return 0;
  const arrival =
    a.arrival_s === null || b.arrival_s === null
      ? 0
      : Math.abs(a.arrival_s - b.arrival_s) / arrivalError_s(by, speedOfSound_m_s);
  const polarity =
    a.polarity !== b.polarity && a.polarity !== 'undecided' && b.polarity !== 'undecided'
      ? CLEAR + 1
      : 0;
  const mid = a.mid_db === null || b.mid_db === null ? 0 : Math.abs(a.mid_db - b.mid_db) / MID_DB;
  const count = a.level_db?.length ?? 0;
  const bass = Math.sqrt(
    Array.from(
      { length: count },
      (_, i) => ((a.level_db?.[i] ?? 0) - (b.level_db?.[i] ?? 0)) ** 2,
    ).reduce((sum, square) => sum + square, 0) / Math.max(1, count),
  );
  return Math.max(arrival, polarity, mid, bass / BAND_DB);
}

function wordsOf({ sounding, drive, seat, at }: MeasuringTake, { room }: Setup): string {
  const whom = sounding.length === 0 ? `channel ${drive ?? ''}` : sounding.join(' with ');
  const place = room.seats.find(({ id }) => id === seat)?.at ?? null;
  const where =
    at === null || place === null
      ? `at ${seat ?? ''}`
      : `${Math.round(Math.abs(at.x_m - place.x_m) * 100)} cm to the ${at.x_m < place.x_m ? 'left' : 'right'} of ${seat ?? ''}`;
  return `a take of ${whom} ${where}, with a timing reference,`;
}
