// The figures of a take for programs: units in the keys, null for what the take does not support.

import type { BandFigures, TakeFigures } from '../../core/measure/takeFigures.ts';
import { warningWords } from './takeWords.ts';

export function takeJson(take: TakeFigures): unknown {
  const { arrival, response, distortion } = take;
  return {
    sample_rate_hz: take.sampleRate_hz,
    source_band: { from_hz: take.sourceBand.from_hz, to_hz: take.sourceBand.to_hz },
    arrival: {
      arrival_ms: toMs(arrival.arrival_s),
      refusal: arrival.refusal,
      place_ms: toMs(arrival.place_s),
      method: arrival.method,
      with_filters_ms: toMs(arrival.withFilters_s),
      band:
        arrival.band === null ? null : { from_hz: arrival.band.from_hz, to_hz: arrival.band.to_hz },
    },
    polarity: take.polarity,
    level: { level_db: take.level.level_db, from_hz: take.level.from_hz, to_hz: take.level.to_hz },
    response: {
      smoothing: `1/${response.smoothingCount} octave, power`,
      window: {
        before_ms: response.window.before_s * 1000,
        after_ms: response.window.after_s * 1000,
      },
      frequency_hz: listed(response.frequencies_hz),
      level_db: listed(response.levels_db),
      phase_deg: listed(response.phase_rad.map(toDegrees)),
      minimum_phase_deg: listed(response.minimumPhase_rad.map(toDegrees)),
      refused: response.refused.map(({ band, signalToNoise_db }) => ({
        nominal_hz: band.nominal_hz,
        signal_to_noise_db: signalToNoise_db,
        reason: 'signal-to-noise below 20 dB',
      })),
    },
    signal_to_noise: take.signalToNoise.map(({ band, signalToNoise_db }) => ({
      nominal_hz: band.nominal_hz,
      signal_to_noise_db: signalToNoise_db,
    })),
    decay: { octaves: take.octaves.map(bandJson), third_octaves: take.thirdOctaves.map(bandJson) },
    distortion:
      distortion === null
        ? null
        : {
            frequency_hz: listed(distortion.frequencies_hz),
            total_percent: listed(distortion.total_ratio.map((ratio) => ratio * 100)),
            harmonics: distortion.harmonics.map(({ order, levels_db }) => ({
              order,
              level_db: listed(levels_db),
            })),
          },
    warnings: take.warnings.map((warning) => ({ ...warning, message: warningWords(warning) })),
  };
}

function bandJson(one: BandFigures): unknown {
  return {
    nominal_hz: one.band.nominal_hz,
    edt_s: one.edt_s,
    t20_s: one.t20_s,
    t20_spread_s: one.spread.t20_s,
    t20_refusal: one.refusal,
    t30_s: one.t30_s,
    t30_spread_s: one.spread.t30_s,
    t30_refusal: one.t30Refusal,
    peak_to_noise_db: one.peakToNoise_db,
    bandwidth_time: one.bandwidthTime_ratio,
    non_linearity_permille:
      one.nonLinearity.t20_ratio === null ? null : one.nonLinearity.t20_ratio * 1000,
    curvature_percent: one.curvature_ratio === null ? null : one.curvature_ratio * 100,
    modal_decays: one.ringings.map((ringing) => ({
      frequency_hz: ringing.frequency_hz,
      decay_time_s: ringing.decayTime_s,
      energy_db: ringing.energy_db,
    })),
  };
}

/** JSON has no NaN: null stands for what is not known. */
export function listed(values: Float64Array): readonly (number | null)[] {
  return Array.from(values, (value) => (Number.isFinite(value) ? value : null));
}

function toMs(time_s: number | null): number | null {
  return time_s === null ? null : time_s * 1000;
}

function toDegrees(angle_rad: number): number {
  return (angle_rad * 180) / Math.PI;
}
