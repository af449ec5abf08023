// A measurement file for programs: its figures, or why there are none.

import type { LevelCurve } from '../../core/measure/correction.ts';
import type { FileFault } from './fileFault.ts';
import type { Measurement } from './measurement.ts';
import { smoothedCurve } from './smoothedCurve.ts';
import { listed, takeJson } from './takeJson.ts';

export function measurementJson(
  {
    name,
    measurement,
    faults,
  }: {
    readonly name: string;
    readonly measurement: Measurement | null;
    readonly faults: readonly FileFault[];
  },
  smoothingCount: number,
): object {
  return { file: name, faults, ...figuresOf(measurement, smoothingCount) };
}

export function meanJson(mean: LevelCurve & { readonly count: number }): unknown {
  return {
    by: 'power',
    files: mean.count,
    frequency_hz: listed(mean.frequencies_hz),
    level_db: listed(mean.levels_db),
  };
}

function figuresOf(measurement: Measurement | null, smoothingCount: number): object {
  if (measurement === null) return { kind: null };
  if (measurement.kind === 'text') {
    const { response, arrival } = measurement;
    const smoothed = smoothedCurve(response, smoothingCount);
    return {
      kind: 'response',
      response: {
        frequency_hz: listed(response.frequencies_hz),
        level_db: listed(response.levels_db),
        phase_deg:
          response.phase_rad === null
            ? null
            : listed(response.phase_rad.map((rad) => (rad * 180) / Math.PI)),
      },
      arrival:
        arrival === null
          ? null
          : {
              arrival_ms: arrival.arrival_s === null ? null : arrival.arrival_s * 1000,
              refusal: arrival.refusal,
              method: arrival.by,
              with_filters_ms: arrival.withFilters_s === null ? null : arrival.withFilters_s * 1000,
              polarity: arrival.polarity,
            },
      smoothed: {
        smoothing: `1/${smoothingCount} octave, power`,
        frequency_hz: listed(smoothed.frequencies_hz),
        level_db: listed(smoothed.levels_db),
      },
    };
  }
  const { wav, recorded, take } = measurement;
  return {
    kind: recorded === null ? 'impulse response' : 'sweep recording',
    encoding: wav.encoding,
    channels: wav.channels.length,
    recording:
      recorded === null
        ? null
        : {
            recorded_dbfs: recorded.recorded_dbfs,
            noise_dbfs:
              recorded.noise_dbfs === null || !Number.isFinite(recorded.noise_dbfs)
                ? null
                : recorded.noise_dbfs,
            loopback_ms: recorded.loopback_s === null ? null : recorded.loopback_s * 1000,
          },
    take: takeJson(take),
  };
}
