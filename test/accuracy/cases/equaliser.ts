// EQ fits held against the best known ones of a general optimiser: what is left, and the level of its bands.
import { magnitude_db } from '../../../core/acoustics/complex.ts';
import { bandsLevel_db, fitEqualiser } from '../../../core/equaliser/fit.ts';
import type { FitTask } from '../../../core/equaliser/fitTask.ts';
import { referenceData } from '../../support/referenceData.ts';
import { type Comparison, pairsOf } from '../comparison.ts';

interface StoredFits {
  readonly cases: readonly {
    readonly seed: number;
    readonly response_db: readonly number[];
    readonly target_db: number;
    readonly rms_before_db: number;
    readonly best_cost_rms_db: number;
  }[];
}

interface StoredBiquads {
  readonly biquads: readonly {
    readonly kind: string;
    readonly f0_hz: number;
    readonly Q: number;
    readonly gain_db: number;
    readonly f_hz: readonly number[];
    readonly h: { readonly re: readonly number[]; readonly im: readonly number[] };
  }[];
}

export type StoredFit = StoredFits['cases'][number];

export const STORED_FITS = referenceData<StoredFits>('peq_fit').expected.cases;
const BELLS = referenceData<StoredBiquads>('filters_biquad').expected.biquads.filter(
  ({ kind }) => kind === 'peaking',
);
/** The stored data's own grid, sample rate and bounds. */
export const FIT_GRID_HZ = Array.from({ length: 81 }, (_, i) => 20 * 10 ** (i / 80));
const SAMPLE_RATE_HZ = 48_000;
const SOURCE =
  'SciPy differential_evolution with L-BFGS-B and Nelder-Mead, 14 restarts (stored data)';

/** The stored task: three cuts, continuous, one seat, nothing left out. */
export function storedTask({ response_db, target_db }: StoredFit): FitTask {
  const range = (min: number, max: number) => ({ min, max, step: null, choices: null });
  return {
    frequency_hz: FIT_GRID_HZ,
    seats: [{ seat: 'mix', level_db: response_db, weight: 1 }],
    target_db: FIT_GRID_HZ.map(() => target_db),
    device: {
      bands: 3,
      frequency_hz: range(20, 200),
      q: range(0.5, 10),
      gain_db: range(-12, 0),
    },
    limits: {
      from_hz: 20,
      to_hz: 200,
      broadTo_hz: null,
      boost: null,
      leaveNulls: false,
      leastGain_ratio: 0,
    },
    sampleRate_hz: SAMPLE_RATE_HZ,
  };
}

export const equaliserComparisons: readonly Comparison[] = [
  {
    computation: 'EQ fit: what is left, RMS',
    source: SOURCE,
    unit: 'dB',
    relative: true,
    tolerance: 0.02,
    because: 'as good as the best known fit; several sets of bands come to nearly the same',
    count: STORED_FITS.length,
    pairs: () =>
      STORED_FITS.map((stored) => ({
        what: `case ${stored.seed}`,
        actual: fitEqualiser(storedTask(stored)).after_db,
        expected: stored.best_cost_rms_db,
      })),
  },
  {
    computation: 'EQ fit: distance before, RMS',
    source: SOURCE,
    unit: 'dB',
    tolerance: 1e-6,
    because: 'seven digits in the data',
    count: STORED_FITS.length,
    pairs: () =>
      STORED_FITS.map((stored) => ({
        what: `case ${stored.seed}`,
        actual: fitEqualiser({ ...storedTask(stored), device: noBands(stored) }).before_db,
        expected: stored.rms_before_db,
      })),
  },
  {
    computation: 'EQ bands of a fit: level',
    source: 'SciPy freqz, cookbook peaking biquads at 48 kHz (stored data)',
    unit: 'dB',
    tolerance: 1e-6,
    because: 'nine digits of the coefficients in the data',
    count: BELLS.reduce((sum, { f_hz }) => sum + f_hz.length, 0),
    pairs: () =>
      BELLS.flatMap(({ f0_hz, Q, gain_db, f_hz, h }) =>
        pairsOf(
          bandsLevel_db(f_hz, [{ frequency_hz: f0_hz, q: Q, gain_db }], SAMPLE_RATE_HZ),
          h.re.map((re, i) => magnitude_db({ re, im: h.im[i] ?? Number.NaN })),
          (i) => `${gain_db} dB at ${f0_hz} Hz, Q ${Q}, at ${f_hz[i]} Hz`,
        ),
      ),
  },
];

function noBands(stored: StoredFit): FitTask['device'] {
  return { ...storedTask(stored).device, bands: 0 };
}
