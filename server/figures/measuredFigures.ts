// Takes and averages of a room's sessions as figures, each beside what was planned, and which takes are still to be made.

import type {
  MeasuredAverage,
  MeasuredDecay,
  MeasuredNoise,
  MeasuredResponse,
  MeasuredSession,
  MeasuredTake,
  NoiseFigures,
} from '../../core/measured/measuredFigures.ts';
import { recipeState } from '../../core/measured/recipeState.ts';
import type {
  LikelyCause,
  TakeComparison,
  VerificationFigures,
} from '../../core/measured/verification.ts';
import type { Setup } from '../../core/setup.ts';
import { pathText } from '../../schema/model/path.ts';
import { toDegrees, toMs } from './convert.ts';

export function measuredJson(setup: Setup): unknown {
  const { measured, verification } = setup;
  return {
    sessions: Object.fromEntries(
      (measured?.sessions ?? []).map((session) => [
        session.session,
        sessionJson(session, verification ?? null),
      ]),
    ),
    recipe: recipeState(setup).map(({ wanted, made }) => ({
      id: wanted.id,
      drive: wanted.drive,
      sounding: wanted.sounding,
      seat: wanted.seat,
      at: pointJson(wanted.point),
      inverted: wanted.inverted,
      unlocks: wanted.unlocks,
      take: made === null ? null : { session: made.session, take: made.take },
    })),
  };
}

function sessionJson(session: MeasuredSession, verification: VerificationFigures | null): unknown {
  const { date, takes, averages } = session;
  const verdict = verification?.sessions.find((one) => one.session === session.session) ?? null;
  const comparisonOf = (take: string): TakeComparison | null =>
    verification?.takes.find((one) => one.session === session.session && one.take === take) ?? null;
  return {
    date,
    takes: Object.fromEntries(
      takes.map((take) => [take.take, takeJson(take, comparisonOf(take.take))]),
    ),
    calibrator: calibratorJson(session),
    noise: Object.fromEntries((session.noise ?? []).map((one) => [one.recording, noiseJson(one)])),
    averages: Object.fromEntries(averages.map((one) => [one.average, averageJson(one)])),
    verdict: verdict?.verdict ?? null,
    differs: verdict?.differs ?? null,
    causes: (verdict?.causes ?? []).map(causeJson),
    cannot_tell: verdict?.cannotTell ?? [],
    pooled_with: verdict?.pooledWith ?? [],
    elsewhere: verdict?.elsewhere ?? [],
    contradicted: (verdict?.contradicted ?? []).map(({ by, isPutRight, message }) => ({
      by,
      put_right: isPutRight,
      message,
    })),
  };
}

function causeJson(cause: LikelyCause): unknown {
  const { kind, path, message, before, after, evidence } = cause;
  return {
    kind,
    path: pathText(path),
    message,
    misfit_before: before,
    misfit_after: after,
    explanation: cause.explanation ?? null,
    together_with: cause.togetherWith ?? [],
    certain: cause.isCertain ?? false,
    evidence,
  };
}

function takeJson(take: MeasuredTake, compared: TakeComparison | null): unknown {
  const { level, how } = take;
  return {
    kind: take.kind,
    drive: take.drive,
    sounding: take.sounding,
    seat: take.seat,
    at: pointJson(take.at),
    timing: take.timing ?? null,
    arrival_ms: toMs(take.arrival_s),
    arrival_by: take.arrivalBy,
    polarity: take.polarity,
    level:
      level === null
        ? null
        : {
            level_db: level.level_db,
            from_hz: level.from_hz,
            to_hz: level.to_hz,
            basis: level.basis,
          },
    response: responseJson(take.response),
    octaves: take.octaves.map(decayJson),
    third_octaves: take.thirdOctaves.map(decayJson),
    signal_to_noise: take.signalToNoise.map(({ frequency_hz, signalToNoise_db }) => ({
      frequency_hz,
      signal_to_noise_db: signalToNoise_db,
    })),
    noise: take.noise ? noiseLevelsJson(take.noise) : null,
    distortion_percent: take.distortion_ratio === null ? null : take.distortion_ratio * 100,
    source_band: how ? { from_hz: how.sourceBand.from_hz, to_hz: how.sourceBand.to_hz } : null,
    window: how?.window
      ? { before_ms: how.window.before_s * 1000, after_ms: how.window.after_s * 1000 }
      : null,
    faults: take.faults.map(({ code, severity, message }) => ({ code, severity, message })),
    refusals: take.refusals,
    warnings: take.warnings,
    plan: compared === null ? null : planJson(compared),
  };
}

/** Measured less planned. */
function planJson({ summary, arrival, polarity, level, response, decay }: TakeComparison): unknown {
  return {
    summary,
    arrival:
      arrival === null
        ? null
        : { planned_ms: toMs(arrival.planned_s), off_ms: toMs(arrival.off_s) },
    polarity: polarity === null ? null : { planned: polarity.planned, agrees: polarity.agrees },
    level: level === null ? null : { off_db: level.off_db, basis: level.basis },
    response:
      response === null
        ? null
        : {
            frequency_hz: response.frequency_hz,
            planned_db: response.planned_db,
            lower_db: response.lower_db,
            upper_db: response.upper_db,
            measured_db: response.measured_db,
            rms_db: response.rms_db,
            worst: { frequency_hz: response.worst.frequency_hz, off_db: response.worst.off_db },
            inside: response.inside,
          },
    decay: decay.map(({ frequency_hz, planned_s, measured_s }) => ({
      frequency_hz,
      planned_s,
      measured_s,
    })),
  };
}

function calibratorJson({ calibrator }: MeasuredSession): unknown {
  if (!calibrator) return null;
  const { tone, faults } = calibrator;
  return {
    frequency_hz: tone?.frequency_hz ?? null,
    level_dbfs: tone?.level_dbfs ?? null,
    level_dbspl: tone?.level_dbspl ?? null,
    full_scale_dbspl: tone?.fullScale_dbspl ?? null,
    steady_s: tone?.steady_s ?? null,
    unsteady_db: tone?.unsteady_db ?? null,
    residual_percent: tone ? tone.residual_ratio * 100 : null,
    faults: faults.map(({ code, severity, message }) => ({ code, severity, message })),
  };
}

/** Levels are sound pressure levels where `basis` is `spl`, otherwise against a sine at full scale. */
function noiseJson({ seat, at, noise, background, faults, refusals }: MeasuredNoise): unknown {
  return {
    seat,
    at: pointJson(at),
    ...noiseLevelsJson(noise),
    noise_rating: background?.nr ?? null,
    noise_rating_decided_at_hz: background?.governing_hz ?? null,
    noise_criterion: background?.nc ?? null,
    faults: faults.map(({ code, severity, message }) => ({ code, severity, message })),
    refusals,
  };
}

function noiseLevelsJson(noise: NoiseFigures | null) {
  return {
    basis: noise?.basis ?? null,
    a_weighted_db: noise?.a_db ?? null,
    unweighted_db: noise?.whole_db ?? null,
    length_s: noise?.length_s ?? null,
    octaves: noise?.octaves.map(({ frequency_hz, level_db }) => ({ frequency_hz, level_db })) ?? [],
  };
}

function averageJson({ takes, by, response, refusals }: MeasuredAverage): unknown {
  return { takes, by, response: responseJson(response), refusals: refusals ?? [] };
}

function responseJson(response: MeasuredResponse | null): unknown {
  if (response === null) return null;
  const { frequency_hz, level_db, phase_rad, phaseFrom, smoothing } = response;
  return {
    frequency_hz,
    level_db,
    phase_deg: phase_rad?.map((phase) => (phase === null ? null : toDegrees(phase))) ?? null,
    phase_from: phaseFrom,
    smoothing: smoothing === null ? null : `1/${smoothing} octave, power`,
  };
}

function decayJson({ frequency_hz, earlyDecay_s, t20_s, t30_s, modalDecay_s }: MeasuredDecay) {
  return {
    frequency_hz,
    early_decay_s: earlyDecay_s,
    t20_s,
    t30_s,
    modal_decay_s: modalDecay_s,
  };
}

function pointJson(at: MeasuredTake['at']): unknown {
  return at === null ? null : { x_m: at.x_m, y_m: at.y_m, z_m: at.z_m };
}
