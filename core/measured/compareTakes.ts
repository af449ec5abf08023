// Each take of a session beside its plan: arrival, polarity, level, response, decay, and a few words about them.

import type { Setup } from '../setup.ts';
import { type Show, showFor } from '../show.ts';
import type { SessionEvidence } from './causeFit.ts';
import { assess } from './causeFit.ts';
import type { MeasuredTake } from './measuredFigures.ts';
import type { TakeResiduals } from './misfit.ts';
import { onGrid_db, smoothed_db } from './onGrid.ts';
import type { PlannedTake, Prediction } from './plan.ts';
import type { TakeData } from './sessionData.ts';
import { octavesOf } from './sessionDecay.ts';
import { envelopeOf } from './takeEnvelope.ts';
import { AS_STATED } from './variant.ts';
import type { TakeComparison } from './verification.ts';

/**
 * @param evidence on the grid of the Setup's field
 * @returns one entry a take of which something can be compared, in the file's order
 */
export function comparedTakes(setup: Setup, evidence: SessionEvidence): readonly TakeComparison[] {
  const { residuals } = assess(evidence, AS_STATED);
  const predictions = evidence.plan.predict(AS_STATED);
  const show = showFor(setup.room.habits);
  return evidence.data.flatMap((data, i) => {
    const prediction = predictions[evidence.places[i] ?? -1];
    const own = residuals.takes[i];
    if (prediction === undefined || own === undefined) return [];
    const { measured, planned } = data;
    const { offset_db } = own;
    const response = responseOf(setup, evidence, planned, measured, prediction, offset_db);
    const compared = {
      session: evidence.plan.session.id,
      take: measured.take,
      path: measured.path,
      arrival: arrivalOf(data, own, prediction),
      polarity: polarityOf(data, own, prediction),
      level: levelOf(data, own),
      response,
      decay: decayOf(setup, measured),
    };
    return [{ ...compared, summary: summaryOf(compared, data, show) }];
  });
}

/** A bass source's arrival is told without what its phase control adds: as the Setup's arrivals are. */
function arrivalOf(
  { arrival, phases, planned }: TakeData,
  { arrival_s, agreement }: TakeResiduals,
  prediction: Prediction,
): TakeComparison['arrival'] {
  if (arrival === null || arrival_s === null || prediction.arrival_s === null) return null;
  if (agreement !== null && agreement < LEAST_AGREEMENT) return null;
  const control_s = planned.mains.length === 0 ? (planned.drives[0]?.control.late_s ?? 0) : 0;
  const planned_s = prediction.arrival_s - (0 < phases.length ? control_s : 0);
  return { planned_s, measured_s: planned_s + arrival_s, off_s: arrival_s };
}

/** Below this the phases have so little in common that no delay or sign can be told from them. Our own limit. */
const LEAST_AGREEMENT = 0.8;

/** Of a bass source by its phase against the plan's, where both are known. */
function polarityOf(
  { measured: { polarity }, phases, planned }: TakeData,
  { isTurned, agreement }: TakeResiduals,
  { polarity: predicted }: Prediction,
): TakeComparison['polarity'] {
  if (agreement !== null && agreement < LEAST_AGREEMENT) return null;
  if (0 < phases.length && isTurned !== null) {
    const isInverted = planned.drives[0]?.isInverted ?? false;
    const said = (inverted: boolean) => (inverted ? 'inverted' : 'upright');
    return {
      planned: said(isInverted),
      measured: said(isInverted !== isTurned),
      agrees: !isTurned,
    };
  }
  if (polarity === null || predicted === 'undecided') return null;
  return {
    planned: predicted,
    measured: polarity,
    agrees: polarity === 'undecided' ? null : polarity === predicted,
  };
}

/** Of a full-range loudspeaker in the middle band; of others the mean over their bands in the bass. */
function levelOf(
  { mid, bands, measured, isMatched }: TakeData,
  own: TakeResiduals,
): TakeComparison['level'] {
  if (isMatched) return null;
  const basis = measured.level?.basis ?? 'relative';
  if (mid !== null && own.mid_db !== null && measured.level)
    return {
      off_db: own.mid_db,
      from_hz: measured.level.from_hz,
      to_hz: measured.level.to_hz,
      basis,
    };
  const offs = own.bands_db.filter((off) => off !== null);
  const [first, last] = [bands[0], bands.at(-1)];
  if (offs.length === 0 || first === undefined || last === undefined) return null;
  const off_db = offs.reduce((sum, off) => sum + off, 0) / offs.length;
  return { off_db, from_hz: first.frequency_hz, to_hz: last.frequency_hz, basis };
}

/** The plan is not held against what it says of frequencies where the loudspeaker hardly plays. */
const HEARD_DB = 20;

function responseOf(
  setup: Setup,
  { plan }: SessionEvidence,
  planned: PlannedTake,
  { response }: MeasuredTake,
  { level_db }: Prediction,
  offset_db: number,
): TakeComparison['response'] {
  if (response === null || level_db === null) return null;
  const planned_db = smoothed_db(plan.frequency_hz, level_db, response.smoothing);
  const best_db = Math.max(...planned_db);
  const measured_db = onGrid_db(response, plan.frequency_hz);
  const at = plan.frequency_hz.flatMap((_, i) => {
    const level = measured_db[i] ?? null;
    return level !== null && best_db - HEARD_DB <= (planned_db[i] ?? 0) ? [i] : [];
  });
  if (at.length < 8) return null;
  const off = at.map((i) => (measured_db[i] ?? 0) - (planned_db[i] ?? 0));
  const mean_db = off.reduce((sum, one) => sum + one, 0) / off.length;
  const worst = at.reduce(
    (most, i, k) =>
      Math.abs(most.off_db) < Math.abs((off[k] ?? 0) - mean_db)
        ? { frequency_hz: plan.frequency_hz[i] ?? 0, off_db: (off[k] ?? 0) - mean_db }
        : most,
    { frequency_hz: plan.frequency_hz[at[0] ?? 0] ?? 0, off_db: 0 },
  );
  const envelope = envelopeOf(setup, planned);
  const lies = (i: number) =>
    envelope !== null &&
    (envelope.lower_db[i] ?? 0) - EDGE_DB <= (measured_db[i] ?? 0) - offset_db &&
    (measured_db[i] ?? 0) - offset_db <= (envelope.upper_db[i] ?? 0) + EDGE_DB;
  return {
    frequency_hz: plan.frequency_hz,
    planned_db: rounded(planned_db),
    lower_db: envelope?.lower_db ?? null,
    upper_db: envelope?.upper_db ?? null,
    measured_db: measured_db.map((level) =>
      level === null ? null : Math.round((level - offset_db) * 100) / 100,
    ),
    rms_db: Math.sqrt(off.reduce((sum, one) => sum + (one - mean_db) ** 2, 0) / off.length),
    worst,
    inside: envelope === null ? null : at.filter(lies).length / at.length,
  };
}

/** An envelope's edge is no wall: what the analysis itself leaves. */
const EDGE_DB = 0.5;

function rounded(values: ArrayLike<number>): readonly number[] {
  return Array.from(values, (value) => Math.round(value * 100) / 100);
}

function decayOf({ space }: Setup, take: MeasuredTake): TakeComparison['decay'] {
  const planned = space?.decayTime?.bands ?? [];
  return octavesOf(take).flatMap(({ frequency_hz, t20_s, t30_s }) => {
    const measured_s = t20_s ?? t30_s;
    const band = planned.find((one) => Math.abs(Math.log2(one.frequency_hz / frequency_hz)) < 0.1);
    return measured_s === null || band === undefined
      ? []
      : [{ frequency_hz: band.frequency_hz, planned_s: band.decayTime_s, measured_s }];
  });
}

/** What is said is more than three deviations off. */
const CLEAR = 3;

function summaryOf(
  { arrival, polarity, level, response }: Omit<TakeComparison, 'summary'>,
  data: TakeData,
  show: Show,
): string {
  const said = [
    arrival && data.arrival && CLEAR * data.arrival.error_s < Math.abs(arrival.off_s)
      ? `${show.time(Math.abs(arrival.off_s))} ${0 < arrival.off_s ? 'late' : 'early'}`
      : '',
    polarity?.agrees === false ? 'polarity turned' : '',
    level && (data.mid ? CLEAR * data.mid.error_db : LEVEL_DB) < Math.abs(level.off_db)
      ? `${show.level(Math.abs(level.off_db))} ${0 < level.off_db ? 'louder' : 'quieter'}`
      : '',
    response && response.inside !== null && response.inside < LEAST_INSIDE
      ? `${show.share(1 - response.inside)} outside the envelope`
      : '',
  ].filter(Boolean);
  if (0 < said.length) return said.join(', ');
  return arrival || polarity || level || response ? 'agrees' : 'nothing to compare';
}

/** In the bass, where plans are worse. */
const LEVEL_DB = 3;
/** Nine tenths of all rooms like this one lie inside; half of the curve outside is no chance. Our own limit. */
export const LEAST_INSIDE = 0.5;
