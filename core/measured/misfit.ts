// How badly a prediction fits the takes: squares of deviations in units of their errors, large ones counted in a straight line.

import { huberLoss_ratio, huberWeight } from './huber.ts';
import { smoothed_db } from './onGrid.ts';
import { phaseLag } from './phaseLag.ts';
import type { Prediction } from './plan.ts';
import { meanPower_db, type TakeData } from './sessionData.ts';
import { WRONG_POLARITY_MISFIT } from './takeErrors.ts';

/** Measured minus predicted of everything in a session's takes, offsets that mean nothing taken out. */
export interface Residuals {
  readonly takes: readonly TakeResiduals[];
  /** What was taken off arrivals that are only relative. */
  readonly late_s: number;
}

export interface TakeResiduals {
  readonly arrival_s: number | null;
  /** Whether a polarity that is known on both sides is the other one. */
  readonly isTurned: boolean | null;
  /** How well a bass source's phases agree once it is moved in time; null where arrival and polarity are told otherwise. */
  readonly agreement: number | null;
  readonly mid_db: number | null;
  /** By band of the take's data; null where the variant has no field there. */
  readonly bands_db: readonly (number | null)[];
  /** What was taken off its bands. */
  readonly offset_db: number;
}

export function residualsOf(
  data: readonly TakeData[],
  predictions: readonly (Prediction | undefined)[],
  frequency_hz: readonly number[],
): Residuals {
  const raw = data.map((one, i): TakeResiduals => raws(one, predictions[i], frequency_hz));
  const levels = data.map((one, i) => levelDeviations(one, raw[i]));
  const relative = data.flatMap(({ isRelative, arrival }, i) => {
    const off_s = raw[i]?.arrival_s ?? null;
    return isRelative && arrival !== null && off_s !== null
      ? [{ off: off_s, error: arrival.error_s, weight: 1 }]
      : [];
  });
  const level_db = centre(levels.flat());
  const offsets_db = data.map(({ isMatched }, i) =>
    isMatched ? centre(levels[i] ?? []) : level_db,
  );
  const mids_db = midOffsets_db(data, raw);
  const late_s = centre(relative);
  return {
    late_s,
    takes: raw.map((one, i) => ({
      ...one,
      offset_db: offsets_db[i] ?? 0,
      arrival_s: one.arrival_s === null ? null : one.arrival_s - (data[i]?.isRelative ? late_s : 0),
      mid_db: one.mid_db === null ? null : one.mid_db - (mids_db[i] ?? 0),
      bands_db: less(one.bands_db, offsets_db[i] ?? 0),
    })),
  };
}

function less(offs_db: readonly (number | null)[], by_db: number): readonly (number | null)[] {
  return offs_db.map((off) => (off === null ? null : off - by_db));
}

/**
 * Of each take what is taken off its middle level. What loudspeakers send into the room besides towards the seat is not known, but it is
 * the same for all that stand alike: only levels at one place are held against each other.
 */
function midOffsets_db(
  data: readonly TakeData[],
  raw: readonly TakeResiduals[],
): readonly number[] {
  const placeOf = ({ planned: { receiver } }: TakeData) => JSON.stringify(receiver);
  return data.map((one) =>
    centre(
      data.flatMap((other, i) => {
        const off = raw[i]?.mid_db ?? null;
        return other.mid === null || off === null || placeOf(one) !== placeOf(other)
          ? []
          : [{ off, error: other.mid.error_db, weight: 1 }];
      }),
    ),
  );
}

function raws(
  { arrival, polarity, mid, bands, phases, measured: { response } }: TakeData,
  prediction: Prediction | undefined,
  frequency_hz: readonly number[],
): TakeResiduals {
  const expected = prediction?.polarity ?? 'undecided';
  const level_db =
    prediction?.level_db && 0 < bands.length
      ? smoothed_db(frequency_hz, prediction.level_db, response?.smoothing ?? null)
      : null;
  const byPhase = phaseLag(phases, prediction, frequency_hz);
  return {
    offset_db: 0,
    arrival_s:
      arrival === null || prediction === undefined || prediction.arrival_s === null
        ? null
        : (byPhase?.late_s ?? arrival.arrival_s - prediction.arrival_s),
    agreement: byPhase?.agreement ?? null,
    isTurned:
      byPhase?.isTurned ??
      (polarity === null || expected === 'undecided' ? null : polarity !== expected),
    mid_db:
      mid === null || prediction === undefined || prediction.mid_db === null
        ? null
        : mid.level_db - prediction.mid_db,
    bands_db: bands.map((band) =>
      level_db === null ? null : band.level_db - meanPower_db(level_db, band.from, band.to),
    ),
  };
}

interface Deviation {
  readonly off: number;
  readonly error: number;
  readonly weight: number;
}

/** Neighbouring sixths of an octave go together: two count as one. */
const BAND_WEIGHT = 0.5;

function levelDeviations(
  { bands }: TakeData,
  residuals: TakeResiduals | undefined,
): readonly Deviation[] {
  return bands.flatMap(({ error_db }, i) => {
    const off = residuals?.bands_db[i] ?? null;
    return off === null ? [] : [{ off, error: error_db, weight: BAND_WEIGHT }];
  });
}

/** The offset that leaves the least misfit, by reweighting a few times from the median. */
function centre(deviations: readonly Deviation[]): number {
  if (deviations.length === 0) return 0;
  const sorted = deviations.toSorted((a, b) => a.off - b.off);
  let offset = sorted[Math.floor(sorted.length / 2)]?.off ?? 0;
  for (let round = 0; round < 8; round++) {
    let sum = 0;
    let total = 0;
    for (const { off, error, weight } of deviations) {
      const w = (weight * huberWeight((off - offset) / error)) / error ** 2;
      sum += w * off;
      total += w;
    }
    offset = sum / total;
  }
  return offset;
}

export interface Misfit {
  /** Of arrivals, polarities and middle levels, and how many figures those are. */
  readonly sharp: number;
  readonly sharpCount: number;
  /** Of the bass by bands, and how many bands it is made of. */
  readonly bands: number;
  readonly bandCount: number;
}

export function misfitOf(data: readonly TakeData[], { takes }: Residuals): Misfit {
  let sharp = 0;
  let sharpCount = 0;
  let bands = 0;
  let bandCount = 0;
  data.forEach(({ arrival, mid, bands: measured }, i) => {
    const one = takes[i];
    if (one === undefined) return;
    const figures = [
      arrival === null || one.arrival_s === null
        ? null
        : huberLoss_ratio(one.arrival_s / arrival.error_s),
      mid === null || one.mid_db === null ? null : huberLoss_ratio(one.mid_db / mid.error_db),
      one.isTurned === null ? null : one.isTurned ? WRONG_POLARITY_MISFIT : 0,
    ].filter((figure) => figure !== null);
    sharp += figures.reduce((sum, figure) => sum + figure, 0);
    sharpCount += figures.length;
    measured.forEach(({ error_db }, band) => {
      const off = one.bands_db[band] ?? null;
      if (off === null) return;
      bands += BAND_WEIGHT * huberLoss_ratio(off / error_db);
      bandCount += BAND_WEIGHT;
    });
  });
  return { sharp, sharpCount, bands, bandCount };
}
