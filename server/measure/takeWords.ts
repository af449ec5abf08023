// The figures of a take in words, line by line, for people at a terminal.

import type { DecayRefusal } from '../../core/measure/bandDecay.ts';
import { levelAt_db } from '../../core/measure/correction.ts';
import type { BandFigures, TakeFigures, TakeWarning } from '../../core/measure/takeFigures.ts';
import type { TextArrival } from '../../core/measure/textArrival.ts';

export function takeLines(take: TakeFigures): readonly string[] {
  return [
    ...headLines(take),
    '',
    ...responseLines(take),
    '',
    ...decayLines(take),
    ...distortionLines(take),
    ...take.warnings.map((warning) => `! ${warningWords(warning)}`),
  ];
}

function headLines({
  arrival,
  polarity,
  level,
  sourceBand,
  signalToNoise,
}: TakeFigures): readonly string[] {
  const by =
    arrival.method === 'peak' ? 'by its peak' : `by the slope of its phase, ${range(arrival.band)}`;
  const when =
    arrival.arrival_s === null
      ? `refused: no timing reference (${ms(arrival.place_s)} into the file, ${by})`
      : `${ms(arrival.arrival_s)} ${by}`;
  const filters =
    arrival.withFilters_s === null
      ? []
      : [row('', `${ms(arrival.withFilters_s)} with its filters' own delay`)];
  const ratios = signalToNoise.filter(
    ({ band }) => sourceBand.from_hz <= band.exact_hz && band.exact_hz <= sourceBand.to_hz,
  );
  const least = ratios.reduce(
    (low, { signalToNoise_db }) => Math.min(low, signalToNoise_db),
    Infinity,
  );
  return [
    row('source', `within 10 dB of its strongest third octave ${range(sourceBand)}`),
    row('arrival', when),
    ...filters,
    row('polarity', polarity.polarity),
    row('level', `${decibels(level.level_db, 2)} dB, mean power ${range(level)}`),
    row(
      'signal to noise',
      ratios.length === 0
        ? 'unknown: too short for noise at its end'
        : `at least ${least.toFixed(0)} dB in the source's band`,
    ),
  ];
}

function responseLines({ response }: TakeFigures): readonly string[] {
  const { frequencies_hz, smoothingCount, window, refused } = response;
  const thirds = NOMINAL_HZ.filter(
    (f) => (frequencies_hz[0] as number) <= f && f <= (frequencies_hz.at(-1) as number),
  );
  const values = thirds.map((f) => {
    const level = levelAt_db(response, f);
    return `${hz(f)} ${Number.isNaN(level) ? '—' : decibels(level, 1)}`;
  });
  const refusal =
    refused.length === 0
      ? []
      : [
          `  refused below 20 dB of signal over noise: ${refused.map(({ band }) => hz(band.nominal_hz)).join(', ')}`,
        ];
  return [
    `response, dB, 1/${smoothingCount} octave, window ${ms(window.before_s)} before to ${ms(window.after_s)} after`,
    ...wrapped(values),
    ...refusal,
  ];
}

function decayLines({ octaves }: TakeFigures): readonly string[] {
  return [
    'decay          EDT      T20 ±          T30     peak to noise',
    ...octaves.map(decayLine),
  ];
}

function decayLine(one: BandFigures): string {
  const name = `  ${hz(one.band.nominal_hz)}`.padEnd(13);
  const noise = one.peakToNoise_db === null ? '' : `${one.peakToNoise_db.toFixed(0)} dB`;
  if (one.refusal !== null) {
    const rings = one.ringings
      .slice(0, 3)
      .map(
        ({ frequency_hz, decayTime_s }) =>
          `${frequency_hz.toFixed(1)} Hz ${decayTime_s.toFixed(2)} s`,
      );
    const why = `refused: ${REFUSALS[one.refusal]}`;
    return `${name}${why}${rings.length === 0 ? '' : `; modes ring: ${rings.join(', ')}`}${noise === '' ? '' : ` (${noise})`}`;
  }
  const spread = one.spread.t20_s === null ? '' : ` ± ${one.spread.t20_s.toFixed(2)}`;
  const t30 =
    one.t30_s === null ? `— ${REFUSALS[one.t30Refusal ?? 'no-decay']}` : seconds(one.t30_s);
  return `${name}${seconds(one.edt_s).padEnd(9)}${(seconds(one.t20_s) + spread).padEnd(15)}${t30.padEnd(8)}${noise}`;
}

function distortionLines({ distortion }: TakeFigures): readonly string[] {
  if (distortion === null) return [];
  const values = Array.from(distortion.frequencies_hz, (f, i) => {
    const ratio = distortion.total_ratio[i] as number;
    return `${hz(Math.round(f))} ${Number.isNaN(ratio) ? '—' : `${(ratio * 100).toPrecision(2)} %`}`;
  });
  return ['', 'distortion, harmonics 2 to 5 (— below the noise)', ...wrapped(values)];
}

const REFUSALS: Readonly<Record<DecayRefusal, string>> = {
  'bandwidth-time': 'bandwidth × time below 16',
  noise: 'too little above the noise',
  'no-decay': 'no decay to be seen',
};

/** Why levels and phases tell no arrival. */
export function textRefusalWords({ refusal, spacing_hz }: TextArrival): string {
  if (refusal === 'spacing')
    return `its points lie ${spacing_hz < 1000 ? `${Number(spacing_hz.toPrecision(3))} Hz` : 'more than 1 kHz'} apart or more, and an arrival shows only while spacing × delay is below ½`;
  return refusal === 'scatter'
    ? 'the phase scatters too far about its slope'
    : 'its phases make no sound that begins at one moment';
}

export function warningWords(warning: TakeWarning): string {
  switch (warning.kind) {
    case 'later-peak-higher':
      return `a later peak is ${warning.higher_db.toFixed(1)} dB higher than the first: a strong reflection, or the first is none of the direct sound`;
    case 'short-response':
      return `${seconds(warning.length_s)} are too short to read the noise at the end: signal to noise is unknown`;
    case 'window-coarse':
      return `the window is too short for this smoothing below ${warning.lowest_hz.toFixed(0)} Hz`;
    case 'phase-scatter':
      return `the phase scatters by ${((warning.scatter_rad * 180) / Math.PI).toFixed(0)}° about its slope: the arrival is a guess`;
    case 'not-straight':
      return `${octaves(warning.count)} ${warning.count === 1 ? 'does' : 'do'} not decay on a straight line (ISO 3382-2: above 10 ‰)`;
    case 'double-slope':
      return `in ${octaves(warning.count)} T30 is more than 10 % longer than T20: two decays (ISO 3382-2)`;
  }
}

function octaves(count: number): string {
  return count === 1 ? '1 octave' : `${count} octaves`;
}

const NOMINAL_HZ = [
  20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600,
  2000, 2500, 3150, 4000, 5000, 6300, 8000, 10000, 12500, 16000, 20000,
] as const;

/** Eight to a line. */
export function wrapped(values: readonly string[]): readonly string[] {
  const lines: string[] = [];
  for (let i = 0; i < values.length; i += 8) lines.push(`  ${values.slice(i, i + 8).join('   ')}`);
  return lines;
}

export function hz(frequency_hz: number): string {
  return frequency_hz < 1000
    ? `${frequency_hz} Hz`
    : `${Number((frequency_hz / 1000).toPrecision(3))} kHz`;
}

function row(name: string, text: string): string {
  return `${name.padEnd(16)}${text}`;
}

function range(band: { readonly from_hz: number; readonly to_hz: number } | null): string {
  return band === null ? '' : `${hz(Math.round(band.from_hz))} to ${hz(Math.round(band.to_hz))}`;
}

/** No `-0.0`: what rounds to nothing has no sign. */
export function decibels(level_db: number, digits: number): string {
  const text = level_db.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

export function ms(time_s: number): string {
  return `${Number((time_s * 1000).toFixed(3))} ms`;
}

function seconds(time_s: number | null): string {
  return time_s === null ? '—' : `${time_s.toFixed(2)} s`;
}
