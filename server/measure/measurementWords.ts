// A measurement file in words: what it is, what it shows, what is wrong with it.

import { type LevelCurve, levelAt_db } from '../../core/measure/correction.ts';
import type { TextArrival } from '../../core/measure/textArrival.ts';
import type { FileFault } from './fileFault.ts';
import type { Measurement } from './measurement.ts';
import { smoothedCurve } from './smoothedCurve.ts';
import { decibels, hz, ms, takeLines, textRefusalWords, wrapped } from './takeWords.ts';

interface NamedMeasurement {
  readonly name: string;
  readonly measurement: Measurement | null;
  readonly faults: readonly FileFault[];
}

export function measurementLines(
  { name, measurement, faults }: NamedMeasurement,
  smoothingCount: number,
): readonly string[] {
  const told = faults.map(
    ({ line, severity, message }) =>
      `${name}${line === null ? '' : `:${line}`}: ${severity}: ${message}`,
  );
  if (measurement === null) return told;
  if (measurement.kind === 'text') {
    const { response } = measurement;
    const { frequencies_hz, phase_rad } = response;
    const phase = phase_rad === null ? 'no phase' : 'with phase';
    return [
      `${name}: response in text, ${frequencies_hz.length} points, ${phase}`,
      ...told,
      ...arrivalLines(measurement.arrival),
      `level, dB, 1/${smoothingCount} octave`,
      ...levels(smoothedCurve(response, smoothingCount)),
    ];
  }
  const { wav, recorded, take } = measurement;
  const what = recorded === null ? 'impulse response' : 'recording of a sweep';
  const levelsOfRecording =
    recorded === null
      ? []
      : [
          `${'recorded'.padEnd(16)}${recorded.recorded_dbfs.toFixed(1)} dBFS RMS, ${noiseBefore(recorded.noise_dbfs)}`,
        ];
  return [
    `${name}: ${what}, ${wav.sampleRate_hz} Hz, ${wav.encoding}`,
    ...told,
    ...levelsOfRecording,
    ...takeLines(take),
  ];
}

function noiseBefore(noise_dbfs: number | null): string {
  if (noise_dbfs === null) return 'noise before it unknown';
  return Number.isFinite(noise_dbfs)
    ? `noise before it ${noise_dbfs.toFixed(1)} dBFS RMS`
    : 'nothing before it';
}

function arrivalLines(arrival: TextArrival | null): readonly string[] {
  if (arrival === null) return [];
  if (arrival.arrival_s === null)
    return [`${'arrival'.padEnd(16)}refused: ${textRefusalWords(arrival)}`];
  const by = arrival.by === 'peak' ? 'by its peak' : 'by the slope of its phase';
  const filters =
    arrival.withFilters_s === null
      ? ''
      : `, ${ms(arrival.withFilters_s)} with its filters' own delay`;
  return [
    `${'arrival'.padEnd(16)}${ms(arrival.arrival_s)} ${by}${filters}`,
    `${'polarity'.padEnd(16)}${arrival.polarity ?? 'undecided'}`,
  ];
}

export function meanLines(mean: LevelCurve & { readonly count: number }): readonly string[] {
  return [`mean power of ${mean.count} responses, dB`, ...levels(mean)];
}

/** Three an octave, and both ends. */
function levels(curve: LevelCurve): readonly string[] {
  const { frequencies_hz } = curve;
  const first = frequencies_hz[0] as number;
  const last = frequencies_hz.at(-1) as number;
  const values: string[] = [];
  for (
    let index = Math.ceil(10 * Math.log10(first) - 1e-9);
    10 ** (index / 10) <= last * (1 + 1e-9);
    index++
  ) {
    const f = Math.min(last, 10 ** (index / 10));
    const level = levelAt_db(curve, f);
    values.push(
      `${hz(Number(f.toPrecision(3)))} ${Number.isNaN(level) ? '—' : decibels(level, 1)}`,
    );
  }
  return wrapped(values);
}
