// Sweeps through systems that are written down: what the whole analysis finds of them again.

import { readFileSync } from 'node:fs';
import { biquad } from '../../../core/acoustics/biquad.ts';
import { filtered } from '../../../core/measure/bandFilter.ts';
import { createFourier } from '../../../core/measure/fourier.ts';
import { minimumPhase_rad } from '../../../core/measure/minimumPhase.ts';
import type { TakeFigures } from '../../../core/measure/takeFigures.ts';
import { impulseAt, RATE_HZ, sum, tail, takeOf, through } from '../../measure/takes.ts';
import type { Comparison, Pair } from '../comparison.ts';

interface PhaseData {
  readonly inputs: {
    readonly fs_hz: number;
    readonly transform: number;
    readonly hidden_delay_samples: number;
    readonly hidden_all_pass: { readonly f_hz: number; readonly q: number };
  };
  readonly expected: {
    readonly cases: readonly {
      readonly name: string;
      readonly sos: readonly (readonly number[])[];
      readonly bins: readonly number[];
      readonly level_db: readonly number[];
      readonly phase_rad: readonly number[];
    }[];
  };
}

const PHASES = JSON.parse(
  readFileSync(new URL('../../measure/data/minimum_phase.json', import.meta.url), 'utf8'),
) as PhaseData;
const SCIPY = 'scipy.signal, test/measure/data/minimum_phase.py';

/** Q of a Butterworth filter of the second order. */
const Q = Math.SQRT1_2;
const SUB_DELAYS_S = [0.0031, 0.0152] as const;
const LOW_PASSES = [
  { name: 'LR4 at 80 Hz', f_hz: 80, q: [Q, Q] },
  { name: 'LR2 at 120 Hz', f_hz: 120, q: [0.5] },
  { name: 'LR4 at 100 Hz', f_hz: 100, q: [Q, Q] },
] as const;
/** Two damped sines in the 63 Hz octave: frequency, decay time. */
const RINGS = [
  { f_hz: 52.3, time_s: 0.3 },
  { f_hz: 71.8, time_s: 0.22 },
] as const;

function subPairs(): readonly Pair[] {
  return LOW_PASSES.flatMap(({ name, f_hz, q }) =>
    SUB_DELAYS_S.map((delay_s, i) => {
      const height = i === 0 ? 1 : -1;
      const filters = q.map((one) => ['low_pass', f_hz, one] as const);
      const system = through(impulseAt(delay_s, height), ['high_pass', 28, Q], ...filters);
      const { arrival } = takeOf(system);
      return {
        what: `${name}, ${1000 * delay_s} ms, ${height < 0 ? 'inverted' : 'upright'}`,
        actual: 1000 * (arrival.arrival_s ?? Number.NaN),
        expected: 1000 * delay_s,
      };
    }),
  );
}

/** y = x + a x²: a A/2 at twice the frequency. y = x + a x³: a A²/4 at three times, the first grown by 3 a A²/4. By hand. */
const LAWS = [
  { order: 2, bend: (v: number) => v + 0.2 * v * v, want_db: 20 * Math.log10((0.2 * 0.1) / 2) },
  {
    order: 3,
    bend: (v: number) => v + 4 * v * v * v,
    want_db: 20 * Math.log10((4 * 0.01) / 4 / (1 + 0.75 * 4 * 0.01)),
  },
] as const;

/** Third octaves from 100 Hz to 5 kHz. */
function distortionPairs(): readonly Pair[] {
  return LAWS.flatMap(({ order, bend, want_db }) => {
    const { distortion } = takeOf(impulseAt(0.006, 0.5), { bend, noise_dbfs: -110 });
    const found = distortion?.harmonics.find((one) => one.order === order);
    return Array.from(distortion?.frequencies_hz ?? []).flatMap((f_hz, i) =>
      100 <= f_hz && f_hz <= 5000
        ? [
            {
              what: `harmonic ${order} at ${Math.round(f_hz)} Hz`,
              actual: found?.levels_db[i] ?? Number.NaN,
              expected: want_db,
            },
          ]
        : [],
    );
  });
}

function levelPairs(): readonly Pair[] {
  return [0.5, 0.02, 1].map((height) => ({
    what: `height ${height}`,
    actual: takeOf(impulseAt(0.007, height)).level.level_db,
    expected: 20 * Math.log10(height),
  }));
}

/** Twelve octave times of diffuse tails of 0.3 s, averaged over five draws: single draws scatter as ISO 3382-2 says. */
function tailPairs(): readonly Pair[] {
  const takes = [1, 2, 3, 4, 5].map((seed) =>
    takeOf(sum(impulseAt(0.006, 0.5), tail(seed, 0.3, 0.015, 0.01))),
  );
  return [500, 1000, 2000, 4000].map((band_hz) => ({
    what: `${band_hz} Hz`,
    actual: takes.reduce((all, take) => all + t20Of(take, band_hz) / takes.length, 0),
    expected: 0.3,
  }));
}

function t20Of({ octaves }: TakeFigures, band_hz: number): number {
  return octaves.find(({ band }) => band.nominal_hz === band_hz)?.t20_s ?? Number.NaN;
}

function ringingPairs(): readonly Pair[] {
  const modes = impulseAt(0, 0).map((_, i) => {
    const t = i / RATE_HZ - 0.006;
    return t < 0
      ? 0
      : RINGS.reduce(
          (all, { f_hz, time_s }) =>
            all + 0.02 * Math.sin(2 * Math.PI * f_hz * t) * 10 ** ((-3 * t) / time_s),
          0,
        );
  });
  const take = takeOf(sum(impulseAt(0.006, 0.3), modes));
  const found = take.octaves.find(({ band }) => band.nominal_hz === 63)?.ringings ?? [];
  return RINGS.map(({ f_hz, time_s }) => ({
    what: `${f_hz} Hz`,
    actual:
      found.find(({ frequency_hz }) => Math.abs(frequency_hz - f_hz) < 0.5)?.decayTime_s ??
      Number.NaN,
    expected: time_s,
  }));
}

/** The spectrum of each filter behind a delay and an all-pass: neither changes its level. */
function phasePairs(): readonly Pair[] {
  const { fs_hz, transform, hidden_delay_samples, hidden_all_pass } = PHASES.inputs;
  const fourier = createFourier(transform);
  const known = { from_hz: 5, to_hz: 0.49 * fs_hz };
  return PHASES.expected.cases.flatMap(({ name, sos, bins, phase_rad }) => {
    const impulse = new Float64Array(transform);
    impulse[hidden_delay_samples] = 1;
    const { f_hz, q } = hidden_all_pass;
    const { b, a } = biquad({ kind: 'all_pass', frequency_hz: f_hz, q, gain_db: 0 }, fs_hz);
    const sections = sos.map(([b0 = 0, b1 = 0, b2 = 0, , a1 = 0, a2 = 0]) => {
      return [b0, b1, b2, a1, a2] as const;
    });
    const heard = filtered([...sections, [b[0], b[1], b[2], a[1], a[2]]], impulse);
    const least = minimumPhase_rad(fourier, fourier.spectrumOf(heard), fs_hz / transform, known);
    return bins.map((bin, i) => ({
      what: `${name} at ${((bin * fs_hz) / transform).toFixed(0)} Hz`,
      actual: degrees(nearest(least[bin] ?? Number.NaN, phase_rad[i] ?? Number.NaN)),
      expected: degrees(phase_rad[i] ?? Number.NaN),
    }));
  });
}

/** An angle, whole turns from another taken out. */
function nearest(angle_rad: number, other_rad: number): number {
  const turn = 2 * Math.PI;
  return angle_rad - turn * Math.round((angle_rad - other_rad) / turn);
}

function degrees(angle_rad: number): number {
  return (angle_rad * 180) / Math.PI;
}

export const recordedSweepCases: readonly Comparison[] = [
  {
    computation: 'sweeps: level of direct sound',
    source: 'impulses of known height, by hand',
    unit: 'dB',
    tolerance: 0.1,
    because: 'the accuracy that is promised for a level',
    count: 3,
    pairs: levelPairs,
  },
  {
    computation: 'sweeps: arrival of a subwoofer behind its filters',
    source: 'known delays in front of known filters, both polarities',
    unit: 'ms',
    tolerance: 0.5,
    because: 'the accuracy that is promised for a bass source’s arrival',
    count: 6,
    pairs: subPairs,
  },
  {
    computation: 'sweeps: T20 of diffuse tails, mean of five',
    source: 'noise that falls by 60 dB in 0.3 s behind a direct sound',
    unit: 's',
    tolerance: 0.05,
    because: 'the accuracy that is promised where bandwidth × time exceeds 16',
    relative: true,
    count: 4,
    pairs: tailPairs,
  },
  {
    computation: 'sweeps: harmonics of a bent signal',
    source: 'square and cubic law by hand: a A/2, a A²/4; method of Farina 2000',
    unit: 'dB',
    tolerance: 0.5,
    because: 'a window of finite length about each harmonic',
    count: 34,
    pairs: distortionPairs,
  },
  {
    computation: 'sweeps: ringing of two modes in an octave',
    source: 'damped sines of 0.30 s and 0.22 s',
    unit: 's',
    tolerance: 0.05,
    because: 'noise, and a direct sound in the same band',
    relative: true,
    count: 2,
    pairs: ringingPairs,
  },
  {
    computation: 'minimum phase of a response',
    source: `phases of minimum-phase filters by ${SCIPY}, hidden by a delay and an all-pass`,
    unit: '°',
    tolerance: 4,
    because: 'below the known band a level is taken to stay, where these filters go on falling',
    count: PHASES.expected.cases.reduce((count, { bins }) => count + bins.length, 0),
    pairs: phasePairs,
  },
];
