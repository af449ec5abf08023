// The take that would tell two explanations apart: of those that could be made, the one in which they differ most.

import type { MeasuringTake } from '../../schema/model/sessions.ts';
import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import { placedSeats } from '../parts/referenceSeat.ts';
import type { Setup } from '../setup.ts';
import type { Evidence } from './causeFit.ts';
import { type PlannedTake, type Prediction, type SessionPlan, sessionPlan } from './plan.ts';
import { arrivalError_s, BAND_DB, MID_DB } from './takeErrors.ts';
import type { Variant } from './variant.ts';

/** Points about a seat: common practice, no source. */
const AWAY_M = [0.25, 0.6] as const;
/** Beside a loudspeaker: far enough for its drivers to be one source. Common practice, no source. */
const BESIDE_M = 0.8;
/** So many errors apart, a single take tells. */
const CLEAR = 4;
const GRID = { from_hz: 25, to_hz: 160, perOctave: 9 } as const;
/** Thirds of an octave go each their own way; each is as far off as the best plan, and as an envelope of 2.5 dB besides. */
const BASS_BANDS: number = 3 * Math.log2(GRID.to_hz / GRID.from_hz);
const BASS_DB: number = Math.hypot(BAND_DB, 2.5 / 1.65);

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
  const takes = heard.map(({ take }) => take);
  const differing = differenceOf(setup, plan, one, other);
  const best = differing(atSeats(setup, takes)) ?? differing(besideSources(setup, heard, sources));
  return best === null ? NONE_TELLS : `${wordsOf(best)} would tell`;
}

const NONE_TELLS =
  'no further take of these loudspeakers would tell: look at the wiring and the tape';

interface Candidate {
  readonly take: MeasuringTake;
  readonly where: string;
}

/** Of several takes the one in which both differ most, if that is enough for a single take. */
function differenceOf(
  setup: Setup,
  plan: SessionPlan,
  one: Variant,
  other: Variant,
): (candidates: readonly Candidate[]) => Candidate | null {
  const grid_hz = [...logGrid_hz(GRID.from_hz, GRID.to_hz, GRID.perOctave)];
  return (candidates) => {
    const takes = candidates.map(({ take }) => take);
    const wider = sessionPlan(setup, { ...plan.session, takes }, grid_hz);
    const [a, b] = [wider.predict(one), wider.predict(other)];
    const apart = wider.takes.map(({ take, mains }, i) => {
      const by = mains.length === 0 ? 'slope' : 'peak';
      return { take, apart: apartness(a[i], b[i], by, plan.air.speedOfSound_m_s) };
    });
    const [best] = apart.toSorted((x, y) => y.apart - x.apart);
    if (best === undefined || best.apart < CLEAR) return null;
    return candidates.find(({ take }) => take.id === best.take.id) ?? null;
  };
}

/** What was heard, at every seat and about it, with a timing reference. */
function atSeats(setup: Setup, takes: readonly MeasuringTake[]): readonly Candidate[] {
  const once = takes.filter(
    (take, i) => takes.findIndex((other) => other.sounding.join() === take.sounding.join()) === i,
  );
  return once.flatMap((take) =>
    placedSeats(setup.room).flatMap(({ id, at }) => [
      candidate({ ...take, seat: id, at: null }, `at ${id}`),
      ...AWAY_M.flatMap((by_m) => [-by_m, by_m]).flatMap((by_m) => {
        const point = { ...at, x_m: at.x_m + by_m };
        return aboutSeat(setup, take, { ...take, seat: null, at: point }, sideways(by_m, id));
      }),
    ]),
  );
}

/** Of a subwoofer alone a point would be a spot where it could stand: its whole channel is played there. */
function aboutSeat(
  { room }: Setup,
  take: MeasuringTake,
  there: MeasuringTake,
  where: string,
): readonly Candidate[] {
  const isBass = take.sounding.every((id) => room.subwoofers.some((sub) => sub.id === id));
  if (!isBass) return [candidate(there, where)];
  return take.drive === null ? [] : [candidate({ ...there, sounding: [] }, where)];
}

/** Close beside a loudspeaker its place shows otherwise than its delay. */
function besideSources(
  { room }: Setup,
  heard: readonly PlannedTake[],
  sources: readonly string[] | null,
): readonly Candidate[] {
  const { shape } = room.space;
  const middle_m = shape?.kind === 'box' ? shape.width_m / 2 : null;
  return heard.flatMap(({ take, mains }) => {
    const [main, ...others] = mains;
    if (main === undefined || 0 < others.length || 1 < take.sounding.length) return [];
    const { id, at } = main.drive.source;
    if (sources !== null && !sources.includes(id)) return [];
    const by_m = middle_m !== null && middle_m < at.x_m ? -BESIDE_M : BESIDE_M;
    return [
      candidate({ ...take, seat: null, at: { ...at, x_m: at.x_m + by_m } }, sideways(by_m, id)),
    ];
  });
}

function candidate(take: MeasuringTake, where: string): Candidate {
  const id = `${take.id} ${take.sounding.join(' ')} ${where}`;
  return { take: { ...take, id, timing: 'loopback' }, where };
}

function sideways(by_m: number, whom: string): string {
  return `${Math.round(Math.abs(by_m) * 100)} cm to the ${by_m < 0 ? 'left' : 'right'} of ${whom}`;
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
  return Math.max(arrival, polarity, mid, (bass / BASS_DB) * Math.sqrt(BASS_BANDS));
}

function wordsOf({ take: { sounding, drive }, where }: Candidate): string {
  const whom = sounding.length === 0 ? `channel ${drive ?? ''}` : sounding.join(' with ');
  return `a take of ${whom} ${where}, with a timing reference,`;
}
