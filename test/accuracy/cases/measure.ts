// Measuring held against scipy: decays, deconvolution of a sweep, delays, smoothing, weightings and bands.

import { readFileSync } from 'node:fs';
import { type BiquadKind, biquad } from '../../../core/acoustics/biquad.ts';
import { bandAt } from '../../../core/acoustics/thirdOctave.ts';
import { weighting_db } from '../../../core/acoustics/weighting.ts';
import { bandFilter, energyReversed, filtered } from '../../../core/measure/bandFilter.ts';
import { DECAY_RANGES, decayCurve_db, decayLine } from '../../../core/measure/decay.ts';
import { deconvolved } from '../../../core/measure/deconvolve.ts';
import { delayBetween_s } from '../../../core/measure/delayBetween.ts';
import { createFourier } from '../../../core/measure/fourier.ts';
import { kneeOf } from '../../../core/measure/knee.ts';
import { peakArrival } from '../../../core/measure/peakArrival.ts';
import { type SmoothingKernel, smoothed_db } from '../../../core/measure/smoothing.ts';
import { sweep } from '../../../core/measure/sweep.ts';
import { type Comparison, type Pair, pairsOf } from '../comparison.ts';

const SCIPY = 'NumPy 1.24.2, SciPy 1.10.1';

interface Times {
  readonly EDT_s: number | null;
  readonly T20_s: number | null;
  readonly T30_s: number | null;
}
interface DecayCase {
  readonly name: string;
  readonly seed: number;
  readonly fs: number;
  readonly n: number;
  readonly parts: readonly (readonly [number, number])[];
  readonly floor_db: number | null;
  readonly plain: Times;
  readonly truncated?: Times;
  readonly truncated_compensated?: Times;
  readonly expected_envelope_curve: Times;
  readonly plain_edc_db: { readonly t_s: readonly number[]; readonly level_db: readonly number[] };
  readonly truncation_sample?: number;
  readonly tail_energy_added?: number;
  readonly octave_bands: readonly ({ readonly nominal_hz: number } & Readonly<
    Partial<
      Record<'forward' | 'time_reversed' | 'forward_truncated' | 'time_reversed_truncated', Times>
    >
  >)[];
}
interface DecayData {
  readonly expected: {
    readonly decays: readonly DecayCase[];
    readonly octave_filters: readonly {
      readonly exact_hz: number;
      readonly check_f_hz: readonly number[];
      readonly check_db: readonly number[];
    }[];
  };
}
interface SweepData {
  readonly inputs: {
    readonly fs: number;
    readonly f1: number;
    readonly f2: number;
    readonly T: number;
    readonly tail: number;
    readonly delay: number;
    readonly echo_delay: number;
    readonly echo_gain: number;
    readonly biquads: readonly {
      readonly kind: string;
      readonly f0_hz: number;
      readonly Q: number;
      readonly gain_db: number;
    }[];
  };
  readonly expected: {
    readonly true_response: {
      readonly f_hz: readonly number[];
      readonly re: readonly number[];
      readonly im: readonly number[];
    };
    readonly true_impulse_from_delay: {
      readonly start_sample: number;
      readonly samples: readonly number[];
    };
    readonly deconvolved_peak_sample: number;
    readonly deconvolved_samples_around_peak: readonly number[];
  };
}
interface DelayData {
  readonly expected: {
    readonly cases: readonly {
      readonly N: number;
      readonly fs: number;
      readonly D: number;
      readonly f_hi: number;
      readonly seed: number;
      readonly noise: number;
      readonly parabolic_after_16x_upsampling: number;
    }[];
  };
}
interface SmoothingData {
  readonly inputs: {
    readonly f0: number;
    readonly f1: number;
    readonly n: number;
    readonly level_db: readonly number[];
  };
  readonly expected: {
    readonly smoothed: readonly {
      readonly n: number;
      readonly power_rectangular_db: readonly number[];
      readonly power_gaussian_db: readonly number[];
    }[];
  };
}
interface WeightingData {
  readonly expected: {
    readonly exact_hz: readonly number[];
    readonly A_db: readonly number[];
    readonly C_db: readonly number[];
    readonly bands: readonly {
      readonly bands_per_octave: number;
      readonly k: readonly number[];
      readonly exact_mid_hz: readonly number[];
      readonly lower_edge_hz: readonly number[];
      readonly upper_edge_hz: readonly number[];
    }[];
  };
}

function data<T>(name: string): T {
  const url = new URL(`../../measure/data/${name}.json`, import.meta.url);
  return JSON.parse(readFileSync(url, 'utf8')) as T;
}

/** The reference data's own generator: sums of four uniform numbers of a linear congruential one. */
export function referenceNoise(seed: number, count: number): Float64Array {
  let state = seed >>> 0;
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return Float64Array.from(
    { length: count },
    () => (next() + next() + next() + next() - 2) * Math.sqrt(3),
  );
}

export function referenceDecay({ seed, fs, n, parts, floor_db }: DecayCase): Float64Array {
  const sound = referenceNoise(seed, n);
  const noise = referenceNoise(seed + 1000, n);
  const floor = floor_db === null ? 0 : 10 ** (floor_db / 20);
  return sound.map((value, i) => {
    const power = parts.reduce((sum, [time_s, a]) => sum + a * 10 ** ((-6 * i) / fs / time_s), 0);
    return value * Math.sqrt(power) + (noise[i] as number) * floor;
  });
}

export const DECAYS: readonly DecayCase[] = data<DecayData>('decay').expected.decays;

function timePairs(
  what: string,
  energy: Float64Array,
  end: number,
  tail: number,
  fs: number,
  want: Times | undefined,
): readonly Pair[] {
  const curve = decayCurve_db(energy, end, tail);
  const of = (range: keyof typeof DECAY_RANGES): number =>
    decayLine(curve, fs, DECAY_RANGES[range])?.decayTime_s ?? Number.NaN;
  return [
    { what: `${what} EDT`, actual: of('edt'), expected: want?.EDT_s ?? Number.NaN },
    { what: `${what} T20`, actual: of('t20'), expected: want?.T20_s ?? Number.NaN },
    { what: `${what} T30`, actual: of('t30'), expected: want?.T30_s ?? Number.NaN },
  ];
}

function broadbandPairs(): readonly Pair[] {
  return DECAYS.flatMap((one) => {
    const energy = referenceDecay(one).map((h) => h * h);
    const { fs, truncation_sample: end } = one;
    const plain = timePairs(`${one.name} plain`, energy, energy.length, 0, fs, one.plain);
    if (end === undefined) return plain;
    return [
      ...plain,
      ...timePairs(`${one.name} cut`, energy, end, 0, fs, one.truncated),
      ...timePairs(
        `${one.name} compensated`,
        energy,
        end,
        one.tail_energy_added ?? Number.NaN,
        fs,
        one.truncated_compensated,
      ),
    ];
  });
}

function octavePairs(): readonly Pair[] {
  return DECAYS.flatMap((one) => {
    const signal = referenceDecay(one);
    return one.octave_bands.flatMap((want, index) => {
      const filter = bandFilter(bandAt(index - 4, 1), one.fs);
      if (filter === null) return [];
      const end = one.truncation_sample ?? signal.length;
      const energyOf = (s: Float64Array): Float64Array => s.map((h) => h * h);
      const name = `${one.name} ${want.nominal_hz} Hz`;
      return [
        ...timePairs(
          `${name} forward`,
          energyOf(filtered(filter, signal)),
          end,
          0,
          one.fs,
          want.forward ?? want.forward_truncated,
        ),
        ...timePairs(
          `${name} reversed`,
          energyReversed(filter, signal),
          end,
          0,
          one.fs,
          want.time_reversed ?? want.time_reversed_truncated,
        ),
      ];
    });
  });
}

const KINDS: Readonly<Record<string, BiquadKind>> = {
  peaking: 'bell',
  lowshelf: 'low_shelf',
  highpass: 'high_pass',
};

function sweepThroughSystem(): { readonly impulse: Float64Array; readonly data: SweepData } {
  const reference = data<SweepData>('sweep_deconvolution');
  const { fs, f1, f2, T, tail, delay, echo_delay, echo_gain, biquads } = reference.inputs;
  const one = sweep({
    sampleRate_hz: fs,
    from_hz: f1,
    to_hz: f2,
    length_s: T,
    level_dbfs: 0,
    fadeIn_s: 0,
    fadeOut_s: 0,
    lead_s: 0,
    gap_s: 0,
    repeatCount: 1,
  });
  const played = new Float64Array(one.length + tail);
  played.set(one);
  const sections = biquads.map(({ kind, f0_hz, Q, gain_db }) => {
    const { b, a } = biquad(
      { kind: KINDS[kind] ?? 'notch', frequency_hz: f0_hz, q: Q, gain_db },
      fs,
    );
    return [b[0], b[1], b[2], a[1], a[2]] as const;
  });
  const through = filtered(sections, played);
  const recorded = through.map(
    (_, i) => (through[i - delay] ?? 0) + echo_gain * (through[i - delay - echo_delay] ?? 0),
  );
  return {
    impulse: deconvolved(recorded, played, recorded.length + played.length),
    data: reference,
  };
}

function sweepResponsePairs(): readonly Pair[] {
  const { impulse, data: reference } = sweepThroughSystem();
  const { f_hz, re, im } = reference.expected.true_response;
  const { fs, f1, f2 } = reference.inputs;
  const fourier = createFourier(impulse.length);
  const spectrum = fourier.spectrumOf(impulse);
  return f_hz.flatMap((f, i) => {
    if (f < 1.5 * f1 || 0.92 * f2 < f) return [];
    // The exact response at a frequency that is no bin: the sum over the impulse response.
    const k = (f * fourier.count) / fs;
    const low = Math.floor(k);
    const level = (bin: number): number =>
      20 * Math.log10(Math.hypot(spectrum[2 * bin] as number, spectrum[2 * bin + 1] as number));
    const between = level(low) + (k - low) * (level(low + 1) - level(low));
    return [
      {
        what: `${f} Hz`,
        actual: between,
        expected: 20 * Math.log10(Math.hypot(re[i] as number, im[i] as number)),
      },
    ];
  });
}

function delayPairs(expected: 'true' | 'scipy'): readonly Pair[] {
  return data<DelayData>('delay_estimate').expected.cases.map((one) => {
    const { N, D, f_hi, seed, noise, fs } = one;
    const fourier = createFourier(N);
    const x = fourier.spectrumOf(referenceNoise(seed, N));
    for (let k = 0; k <= N / 2; k++) {
      const f = (k * fs) / N;
      const gain = (f / 20) ** 2 / (1 + (f / 20) ** 2) / (1 + (f / f_hi) ** 8);
      x[2 * k] = (x[2 * k] as number) * gain;
      x[2 * k + 1] = (x[2 * k + 1] as number) * gain;
    }
    const raw = fourier.signalOf(x);
    const rms = Math.sqrt(raw.reduce((sum, v) => sum + v * v, 0) / N);
    const early = raw.map((v) => v / rms);
    const y = fourier.spectrumOf(early);
    for (let k = 0; k <= N / 2; k++) {
      const angle = (-2 * Math.PI * k * D) / N;
      const c = Math.cos(angle);
      const s = k === N / 2 ? 0 : Math.sin(angle);
      const re = y[2 * k] as number;
      const im = y[2 * k + 1] as number;
      y[2 * k] = re * c - im * s;
      y[2 * k + 1] = re * s + im * c;
    }
    const hiss = referenceNoise(seed + 1000, N);
    const late = fourier.signalOf(y).map((v, i) => v + noise * (hiss[i] as number));
    return {
      what: `${D} samples, to ${f_hi} Hz`,
      actual: delayBetween_s(early, late, fs, true) * fs,
      expected: expected === 'true' ? D : one.parabolic_after_16x_upsampling,
    };
  });
}

function smoothingPairs(kernel: SmoothingKernel): readonly Pair[] {
  const { inputs, expected } = data<SmoothingData>('smoothing');
  const { f0, f1, n, level_db } = inputs;
  const frequencies = Float64Array.from({ length: n }, (_, i) => f0 * (f1 / f0) ** (i / (n - 1)));
  return expected.smoothed.flatMap((want) =>
    pairsOf(
      smoothed_db(frequencies, Float64Array.from(level_db), want.n, kernel),
      kernel === 'rectangular' ? want.power_rectangular_db : want.power_gaussian_db,
      (i) => `1/${want.n} octave, point ${i}`,
    ),
  );
}

/** What each decay is on average: power falls as the sum of its parts. */
function smoothDecayPairs(): readonly Pair[] {
  return DECAYS.flatMap((one) => {
    const { fs, n, parts } = one;
    const energy = Float64Array.from({ length: 4 * n }, (_, i) =>
      parts.reduce((sum, [time_s, a]) => sum + a * 10 ** ((-6 * i) / fs / time_s), 0),
    );
    return timePairs(one.name, energy, energy.length, 0, fs, one.expected_envelope_curve);
  });
}

export const measureCases: readonly Comparison[] = [
  {
    computation: 'EDT, T20, T30, broadband',
    source: `backward integration and regression by ${SCIPY} on four synthetic decays, plain, cut, compensated`,
    unit: 's',
    tolerance: 1e-6,
    because: 'the same rules; eight digits are stored',
    relative: true,
    count: 24,
    pairs: broadbandPairs,
  },
  {
    computation: 'decay curve',
    source: `backward integration by ${SCIPY}, five moments of each synthetic decay`,
    unit: 'dB',
    tolerance: 1e-6,
    because: 'seven decimals are stored',
    count: DECAYS.reduce((sum, { plain_edc_db }) => sum + plain_edc_db.t_s.length, 0),
    pairs: () =>
      DECAYS.flatMap((one) => {
        const energy = referenceDecay(one).map((h) => h * h);
        const curve = decayCurve_db(energy, energy.length, 0);
        const { t_s, level_db } = one.plain_edc_db;
        return pairsOf(
          t_s.map((time_s) => curve[Math.round(time_s * one.fs)] ?? Number.NaN),
          level_db,
          (i) => `${one.name} after ${t_s[i]} s`,
        );
      }),
  },
  {
    computation: 'EDT, T20, T30 of smooth decays',
    source: 'the same four decays without their noise: sums of exponentials, by NumPy',
    unit: 's',
    tolerance: 0.001,
    because: 'one sample of the curve at each end of a line',
    relative: true,
    count: 3 * DECAYS.length,
    pairs: smoothDecayPairs,
  },
  {
    computation: 'EDT, T20, T30 per octave',
    source: `Butterworth band passes and regression by ${SCIPY}, forwards and reversed in time`,
    unit: 's',
    tolerance: 1e-6,
    because: 'the same rules; eight digits are stored',
    relative: true,
    count: 168,
    pairs: octavePairs,
  },
  {
    computation: 'octave filters',
    source: `responses of the filters by ${SCIPY}, 63 Hz to 4 kHz`,
    unit: 'dB',
    tolerance: 1e-5,
    because: 'seven digits are stored',
    count: 90,
    pairs: filterPairs,
  },
  {
    computation: 'T20 with knee and noise found by itself',
    source: 'nominal decay times of the synthetic decays (the signal was made with them)',
    unit: 's',
    tolerance: 0.05,
    because: 'the reference allows a method of its own 5 %: single draws of noise scatter',
    relative: true,
    count: 3,
    pairs: () =>
      DECAYS.filter(({ parts }) => parts.length === 1).map((one) => {
        const energy = referenceDecay(one).map((h) => h * h);
        const knee = kneeOf(energy, one.fs);
        const curve = decayCurve_db(energy, knee?.kneeIndex ?? 0, knee?.tail_ratio ?? 0);
        return {
          what: one.name,
          actual: decayLine(curve, one.fs, DECAY_RANGES.t20)?.decayTime_s ?? Number.NaN,
          expected: one.parts[0]?.[0] ?? Number.NaN,
        };
      }),
  },
  {
    computation: 'response by a sweep',
    source: `a sweep through known filters and an echo by ${SCIPY}; the true response is exact`,
    unit: 'dB',
    tolerance: 2.8e-4,
    because: 'what the reference allows this deconvolution, between bins added',
    count: 59,
    pairs: sweepResponsePairs,
  },
  {
    computation: 'impulse response by a sweep',
    source: `the same deconvolution by ${SCIPY}, twelve samples about the peak`,
    unit: '–',
    tolerance: 1e-6,
    because: 'six digits are stored',
    count: 12,
    pairs: () => {
      const { impulse, data: reference } = sweepThroughSystem();
      const { delay } = reference.inputs;
      return pairsOf(
        impulse.slice(delay - 4, delay + 8),
        reference.expected.deconvolved_samples_around_peak,
        (i) => `sample ${delay - 4 + i}`,
      );
    },
  },
  {
    computation: 'what a sweep leaves out of an impulse response',
    source: `the system's own impulse response by ${SCIPY}, 64 samples from its delay on`,
    unit: '–',
    tolerance: 0.005,
    because: 'the sweep begins at 10 Hz and ends at 22 kHz: what lies beyond is not there',
    count: 64,
    pairs: () => {
      const { impulse, data: reference } = sweepThroughSystem();
      const { start_sample, samples } = reference.expected.true_impulse_from_delay;
      return pairsOf(
        impulse.slice(start_sample, start_sample + samples.length),
        samples,
        (i) => `sample ${start_sample + i}`,
      );
    },
  },
  {
    computation: 'arrival in an impulse response',
    source: 'the known delay of 156 samples of the same system',
    unit: 'ms',
    tolerance: 0.02,
    because: 'the accuracy that is promised for a full-range arrival',
    count: 1,
    pairs: () => {
      const { impulse, data: reference } = sweepThroughSystem();
      const { fs, delay } = reference.inputs;
      const found = peakArrival(impulse, fs)?.arrival_s ?? Number.NaN;
      return [{ what: 'direct sound', actual: found * 1000, expected: (delay / fs) * 1000 }];
    },
  },
  {
    computation: 'delay by cross-correlation',
    source: `the same estimator by ${SCIPY}: 16 steps a sample, then a parabola`,
    unit: 'samples',
    tolerance: 1e-6,
    because: 'the same rules; nine digits are stored',
    count: 3,
    pairs: () => delayPairs('scipy'),
  },
  {
    computation: 'delay by cross-correlation',
    source: 'the true delay, with noise in two of three',
    unit: 'samples',
    tolerance: 0.3,
    because: 'what the reference asks of a good estimator below 1 kHz',
    count: 3,
    pairs: () => delayPairs('true'),
  },
  {
    computation: 'smoothing, rectangular',
    source: `direct means of power by ${SCIPY}`,
    unit: 'dB',
    tolerance: 1e-5,
    because: 'seven digits are stored',
    count: 2400,
    pairs: () => smoothingPairs('rectangular'),
  },
  {
    computation: 'smoothing, bell-shaped',
    source: `direct means of power by ${SCIPY}`,
    unit: 'dB',
    tolerance: 1e-5,
    because: 'seven digits are stored',
    count: 2400,
    pairs: () => smoothingPairs('gaussian'),
  },
  {
    computation: 'weightings A and C at exact frequencies',
    source: 'IEC 61672-1, pole formulas by NumPy',
    unit: 'dB',
    tolerance: 1e-6,
    because: 'eight digits are stored',
    count: 68,
    pairs: () => {
      const { exact_hz, A_db, C_db } = data<WeightingData>('weighting_bands').expected;
      return [
        ...pairsOf(
          exact_hz.map((f) => weighting_db('A', f)),
          A_db,
          (i) => `A ${exact_hz[i]} Hz`,
        ),
        ...pairsOf(
          exact_hz.map((f) => weighting_db('C', f)),
          C_db,
          (i) => `C ${exact_hz[i]} Hz`,
        ),
      ];
    },
  },
  {
    computation: 'middles and edges of the bands',
    source: 'IEC 61260-1, base 10, by NumPy: 1, 3, 6 and 12 an octave',
    unit: 'Hz',
    tolerance: 1e-8,
    because: 'nine digits are stored',
    relative: true,
    count: 3 * bandCount(),
    pairs: () =>
      data<WeightingData>('weighting_bands').expected.bands.flatMap((one) => {
        const ours = one.k.map((k) => bandAt(k, one.bands_per_octave));
        const name = (i: number): string => `${one.k[i]} of ${one.bands_per_octave}`;
        return [
          ...pairsOf(
            ours.map(({ exact_hz }) => exact_hz),
            one.exact_mid_hz,
            name,
          ),
          ...pairsOf(
            ours.map(({ lower_hz }) => lower_hz),
            one.lower_edge_hz,
            name,
          ),
          ...pairsOf(
            ours.map(({ upper_hz }) => upper_hz),
            one.upper_edge_hz,
            name,
          ),
        ];
      }),
  },
];

function bandCount(): number {
  const { bands } = data<WeightingData>('weighting_bands').expected;
  return bands.reduce((sum, { k }) => sum + k.length, 0);
}

function filterPairs(): readonly Pair[] {
  return data<DecayData>('decay').expected.octave_filters.flatMap((want, index) => {
    const filter = bandFilter(bandAt(index - 4, 1), 48000);
    return pairsOf(
      want.check_f_hz.map((f) => filterLevel_db(filter ?? [], f)),
      want.check_db,
      (i) => `${want.exact_hz} Hz at ${want.check_f_hz[i]} Hz`,
    );
  });
}

/** Of sections in z at 48 kHz. */
function filterLevel_db(
  filter: readonly (readonly [number, number, number, number, number])[],
  frequency_hz: number,
): number {
  const w = (2 * Math.PI * frequency_hz) / 48000;
  return filter.reduce((sum, [b0, b1, b2, a1, a2]) => {
    const of = (c0: number, c1: number, c2: number): number =>
      (c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w)) ** 2 +
      (c1 * Math.sin(w) + c2 * Math.sin(2 * w)) ** 2;
    return sum + 10 * Math.log10(of(b0, b1, b2) / of(1, a1, a2));
  }, 0);
}
