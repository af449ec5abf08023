// Recordings of noise and of a sound calibrator at a terminal and for programs.

import type {
  CalibratorFigures,
  NoiseFigures,
  TakeFault,
} from '../../core/measured/measuredFigures.ts';
import { noiseAgainstCurves } from '../../core/measured/noiseAgainstCurves.ts';
import { hz, wrapped } from './takeWords.ts';

export interface NamedNoise {
  readonly name: string;
  /** null where the file could not be read. */
  readonly noise: NoiseFigures | null;
  readonly faults: readonly TakeFault[];
}

export function noiseLines({ name, noise, faults }: NamedNoise): readonly string[] {
  const told = faultLines(name, faults);
  if (noise === null) return told;
  return [
    `${name}: recording of noise, ${noise.length_s.toFixed(1)} s`,
    ...told,
    ...noiseLevelLines(noise),
  ];
}

/** Level, octaves and ratings of a noise, wherever it was found. */
export function noiseLevelLines(noise: NoiseFigures): readonly string[] {
  const { a_db, whole_db, basis, octaves } = noise;
  const against = noiseAgainstCurves(noise, []);
  const [weighted, unit] = basis === 'spl' ? ['dBA', 'dB SPL'] : ['dBFS, A-weighted', 'dBFS'];
  const decided = (at_hz: number | null | undefined): string =>
    at_hz == null ? '' : `, decided at ${hz(at_hz)}`;
  return [
    row(
      'noise',
      `${a_db.toFixed(1)} ${weighted}; ${whole_db.toFixed(1)} ${unit} from 20 Hz to 20 kHz`,
    ),
    ...(against?.nr == null
      ? []
      : [
          row(
            'rating',
            `NR ${against.nr.toFixed(1)}${decided(against.governing_hz)}${against.nc === null ? '' : `; NC ${against.nc.toFixed(1)}${decided(against.ncGoverning_hz)}`}`,
          ),
        ]),
    `octaves, ${unit}`,
    ...wrapped(
      octaves.map(({ frequency_hz, level_db }) => `${hz(frequency_hz)} ${level_db.toFixed(1)}`),
    ),
  ];
}

export function noiseReportJson({ name, noise, faults }: NamedNoise): unknown {
  const against = noise === null ? null : noiseAgainstCurves(noise, []);
  return {
    file: name,
    faults: faults.map(({ code, severity, message }) => ({ code, severity, message })),
    kind: noise === null ? null : 'noise',
    ...(noise === null ? {} : { noise: noiseJson(noise) }),
    ...(against === null ? {} : { noise_rating: against.nr, noise_criterion: against.nc }),
  };
}

export function noiseJson({ basis, a_db, whole_db, length_s, octaves }: NoiseFigures): unknown {
  return { basis, a_weighted_db: a_db, unweighted_db: whole_db, length_s, octaves };
}

/** Of a recorded sweep where full scale is known. */
interface Pressure {
  readonly level_dbspl: number;
  readonly noise: NoiseFigures | null;
}

export function pressureLines(pressure: Pressure | null): readonly string[] {
  if (pressure === null) return [];
  return [
    '',
    row(
      'sound pressure',
      `${pressure.level_dbspl.toFixed(1)} dB SPL, of a sine as high as the sweep`,
    ),
    ...(pressure.noise === null
      ? [row('noise', 'no level: less than a second of silence before the sweep')]
      : noiseLevelLines(pressure.noise)),
  ];
}

export function pressureJson(pressure: Pressure | null): object {
  if (pressure === null) return {};
  const { level_dbspl, noise } = pressure;
  return { level_dbspl, noise: noise === null ? null : noiseJson(noise) };
}

export function calibratorLines(
  name: string,
  tone: CalibratorFigures,
  faults: readonly TakeFault[],
): readonly string[] {
  return [
    `${name}: calibrator at ${hz(Number(tone.frequency_hz.toPrecision(4)))}, ${tone.level_dbfs.toFixed(2)} dBFS for ${tone.level_dbspl} dB SPL: full scale is ${tone.fullScale_dbspl.toFixed(2)} dB SPL`,
    ...faultLines(name, faults),
  ];
}

export function calibratorJson(tone: CalibratorFigures, faults: readonly TakeFault[]): unknown {
  return {
    frequency_hz: tone.frequency_hz,
    level_dbfs: tone.level_dbfs,
    level_dbspl: tone.level_dbspl,
    full_scale_dbspl: tone.fullScale_dbspl,
    steady_s: tone.steady_s,
    unsteady_db: tone.unsteady_db,
    residual_percent: tone.residual_ratio * 100,
    faults: faults.map(({ code, severity, message }) => ({ code, severity, message })),
  };
}

function faultLines(name: string, faults: readonly TakeFault[]): readonly string[] {
  return faults.map(({ severity, message }) => `${name}: ${severity}: ${message}`);
}

function row(name: string, text: string): string {
  return `${name.padEnd(16)}${text}`;
}
