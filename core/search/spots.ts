// Measured candidate spots: the subwoofer stood at the reference seat and the microphone where the subwoofer may go. By reciprocity
// the take is what the subwoofer would do at the seat from there; it takes the place of what the model says of that spot.
//
// Levels of takes are relative and their times may have a zero of their own: one gain, one delay and one polarity, common to all
// spots, are fitted to the model, so that what the takes say of the differences between spots and frequencies stays.

import type { Room, Speaker } from '../../schema/model/room.ts';
import type { ComplexResponse } from '../acoustics/complex.ts';
import { type Point3, planDistance_m } from '../acoustics/point.ts';
import type {
  MeasuredFigures,
  MeasuredResponse,
  MeasuredTake,
} from '../measured/measuredFigures.ts';
import type { TransferMap } from './transferMap.ts';

/** One spot with what was heard there. */
export interface Spot {
  readonly at: Point3;
  readonly take: string;
  readonly response: MeasuredResponse;
}

/** A microphone this much above or below the acoustic centre of the subwoofer stands for it. Common practice, no source. */
const HEIGHT_M = 0.35;
/** Nearer than this to a seat, the microphone was there for the seat. Common practice, no source. */
const FROM_SEAT_M = 0.6;
/** Takes of one spot, and a place of the grid that is one. */
const SAME_M = 0.02;

/** Whether a take is one of a candidate spot: one subwoofer alone, the microphone low down, at no seat and not at that subwoofer. */
export function isSpotTake(
  { sounding, seat, at }: Pick<MeasuredTake, 'sounding' | 'seat' | 'at'>,
  { subwoofers, seats }: Pick<Room, 'subwoofers' | 'seats'>,
): boolean {
  const sub = sounding.length === 1 ? subwoofers.find(({ id }) => id === sounding[0]) : undefined;
  if (sub === undefined || at === null || seat !== null) return false;
  return (
    Math.abs(at.z_m - (sub.at?.z_m ?? 0)) <= HEIGHT_M &&
    seats.every((one) => one.at === null || FROM_SEAT_M <= planDistance_m(one.at, at))
  );
}

/** Spots of one subwoofer, the last take of each; at the height of its acoustic centre. */
export function spotsOf(
  measured: MeasuredFigures | null | undefined,
  room: Pick<Room, 'subwoofers' | 'seats'>,
  { id }: Speaker,
  height_m: number,
): readonly Spot[] {
  const spots: Spot[] = [];
  for (const one of (measured?.sessions ?? []).flatMap(({ takes }) => takes)) {
    if (!one.sounding.includes(id) || !isSpotTake(one, room)) continue;
    const { at, take, response } = one;
    if (at === null || response === null) continue;
    const spot = { at: { ...at, z_m: height_m }, take, response };
    const known = spots.findIndex((other) => planDistance_m(other.at, at) <= SAME_M);
    if (known < 0) spots.push(spot);
    else spots[known] = spot;
  }
  return spots;
}

/** The places with the spots among them: a place of the grid that is a spot is left to it. */
export function withSpots(places: readonly Point3[], spots: readonly Spot[]): readonly Point3[] {
  const isSpot = (place: Point3) => spots.some(({ at }) => planDistance_m(at, place) <= SAME_M);
  return [...places.filter((place) => !isSpot(place)), ...spots.map(({ at }) => at)];
}

/**
 * The map with what was measured in the place of what is predicted, at one seat; a new one where there are spots.
 *
 * @param drive what the subwoofer makes of the signal as the file has it set, by frequency
 * @param seatIndex the seat at which the subwoofer stood
 */
export function measuredAtSpots(
  map: TransferMap,
  spots: readonly Spot[],
  drive: ComplexResponse,
  seatIndex: number,
): TransferMap {
  const { frequency_hz, points, seatCount } = map;
  const count = frequency_hz.length;
  const found = spots.flatMap((spot) => {
    const point = points.indexOf(spot.at);
    return point < 0 ? [] : [{ spot, from: (point * seatCount + seatIndex) * count }];
  });
  if (found.length === 0) return map;
  const corrections = found.map(({ spot, from }) =>
    correctionOf(spot.response, frequency_hz, (i) => modelAt(map, drive, from + i, i)),
  );
  const common = commonOf(corrections, frequency_hz);
  const [re, im] = [map.re.slice(), map.im.slice()];
  found.forEach(({ from }, index) => {
    const { level_db = [], phase_rad } = corrections[index] ?? {};
    frequency_hz.forEach((f_hz, i) => {
      const off_db = level_db[i];
      if (off_db === null || off_db === undefined) return;
      const gain = 10 ** ((off_db - common.level_db) / 20);
      const turn =
        common.phaseAt_rad === null ? 0 : (phase_rad?.[i] ?? 0) - common.phaseAt_rad(f_hz);
      const [x, y] = [re[from + i] as number, im[from + i] as number];
      re[from + i] = gain * (x * Math.cos(turn) - y * Math.sin(turn));
      im[from + i] = gain * (x * Math.sin(turn) + y * Math.cos(turn));
    });
  });
  return { ...map, re, im };
}

/** Measured minus predicted, by frequency; null where nothing was measured. */
interface Correction {
  readonly level_db: readonly (number | null)[];
  /** null where the take has no phase against the moment of playing. */
  readonly phase_rad: readonly (number | null)[] | null;
}

function modelAt({ re, im }: TransferMap, drive: ComplexResponse, at: number, i: number) {
  const [x, y] = [re[at] as number, im[at] as number];
  const [dRe, dIm] = [drive.re[i] as number, drive.im[i] as number];
  // p = G · 4πA/(jωρ): the j turns by −90°, the rest has no phase.
  const [pRe, pIm] = [x * dIm + y * dRe, -(x * dRe - y * dIm)];
  return {
    level_db: 10 * Math.log10(pRe * pRe + pIm * pIm + 1e-300),
    phase_rad: Math.atan2(pIm, pRe),
  };
}

function correctionOf(
  { frequency_hz: measured_hz, level_db, phase_rad, phaseFrom }: MeasuredResponse,
  frequency_hz: readonly number[],
  model: (index: number) => { readonly level_db: number; readonly phase_rad: number },
): Correction {
  const levels = frequency_hz.map((f_hz) => valueAt(measured_hz, level_db, f_hz));
  // Phase is read from neighbours that lie close together: unwrapped only where it turns by less than half a turn between them.
  const phases =
    phase_rad === null || phaseFrom !== 'playing'
      ? null
      : frequency_hz.map((f_hz) => valueAt(measured_hz, unwrapped(phase_rad), f_hz));
  return {
    level_db: levels.map((level, i) =>
      // A level re the frequency of the drive's own unit: p carries 1/f, which the drive of the map leaves out.
      level === null ? null : level - model(i).level_db + 20 * Math.log10(frequency_hz[i] ?? 1),
    ),
    phase_rad:
      phases?.map((phase, i) => (phase === null ? null : phase - model(i).phase_rad)) ?? null,
  };
}

function unwrapped(phase_rad: readonly (number | null)[]): readonly (number | null)[] {
  let turns = 0;
  let before: number | null = null;
  return phase_rad.map((phase) => {
    if (phase === null) return null;
    if (before !== null) turns -= Math.round((phase - before) / (2 * Math.PI));
    before = phase;
    return phase + 2 * Math.PI * turns;
  });
}

/** Evenly between the two neighbours; null outside, and beside what is not known. */
function valueAt(
  frequency_hz: readonly number[],
  values: readonly (number | null)[],
  at_hz: number,
): number | null {
  const above = frequency_hz.findIndex((f_hz) => at_hz <= f_hz * (1 + 1e-9));
  const to = values[above] ?? null;
  const [from_hz, to_hz] = [frequency_hz[above - 1], frequency_hz[above]];
  if (to_hz === undefined || to === null) return null;
  if (Math.abs(to_hz - at_hz) <= 1e-6 * at_hz) return to;
  const from = values[above - 1] ?? null;
  if (from_hz === undefined || from === null) return null;
  return from + ((to - from) * (at_hz - from_hz)) / (to_hz - from_hz);
}

const LONGEST_S = 0.03;
const STEP_S = 0.00005;

/** One gain for all spots; one delay and one polarity, where all of them have phase. */
function commonOf(corrections: readonly Correction[], frequency_hz: readonly number[]) {
  const levels = corrections.flatMap(({ level_db }) => level_db.flatMap((one) => one ?? []));
  const level_db = levels.reduce((sum, one) => sum + one, 0) / Math.max(1, levels.length);
  const all = corrections.flatMap(({ phase_rad }) =>
    phase_rad === null
      ? []
      : phase_rad.flatMap((phase, i) =>
          phase === null ? [] : [{ f_hz: frequency_hz[i] ?? 0, phase }],
        ),
  );
  const isWhole = corrections.every(({ phase_rad }) => phase_rad !== null) && 0 < all.length;
  if (!isWhole) return { level_db, phaseAt_rad: null };
  let best = { delay_s: 0, sum: 0 };
  for (let delay_s = -LONGEST_S; delay_s <= LONGEST_S; delay_s += STEP_S) {
    const sum = all.reduce(
      (total, { f_hz, phase }) => total + Math.cos(phase + 2 * Math.PI * f_hz * delay_s),
      0,
    );
    if (Math.abs(best.sum) < Math.abs(sum)) best = { delay_s, sum };
  }
  const { delay_s, sum } = best;
  const turned_rad = sum < 0 ? Math.PI : 0;
  return { level_db, phaseAt_rad: (f_hz: number) => turned_rad - 2 * Math.PI * f_hz * delay_s };
}
