// Sums of mains and subwoofer held against stored sums and exhaustive searches, and against the cosine of a delay error.
import type { AnalogueFilter } from '../../../core/acoustics/analogueFilter.ts';
import { levels_db, sumOf } from '../../../core/acoustics/complex.ts';
import { butterworth, linkwitzRiley } from '../../../core/acoustics/crossoverFilter.ts';
import { branchResponse, crossoverSum } from '../../../core/acoustics/crossoverSum.ts';
import {
  alignDelay,
  type Pairing,
  pairing,
  summationLoss_db,
} from '../../../core/acoustics/delayAlignment.ts';
import { logGrid_hz } from '../../../core/acoustics/frequencyGrid.ts';
import { referenceData } from '../../support/referenceData.ts';
import { type Comparison, pairsOf } from '../comparison.ts';

interface StoredCase {
  readonly name: string;
  readonly fc: number;
  readonly order: number;
  readonly sub_delay_ms: number;
  readonly sub_gain_db: number;
  readonly sub_polarity: 1 | -1;
  readonly main_hp2_f: number;
  readonly main_hp2_q: number;
  readonly sub_hp4_f: number;
  readonly main: StoredComplex;
  readonly sub_as_given: StoredComplex;
  readonly sum_db: readonly number[];
  readonly band_hz: readonly [number, number];
  readonly best_summation_loss_per_polarity: readonly {
    readonly polarity_factor: 1 | -1;
    readonly rms_loss_db: number;
    readonly extra_sub_delay_ms: number;
  }[];
  readonly loss_map_every_0p5_ms: {
    readonly extra_sub_delay_ms: readonly number[];
    readonly polarity_plus: readonly number[];
    readonly polarity_minus: readonly number[];
  };
}
interface StoredComplex {
  readonly re: readonly number[];
  readonly im: readonly number[];
}

const { expected } = referenceData<{ readonly cases: readonly StoredCase[] }>('combination');
const GRID_HZ = Float64Array.from({ length: 181 }, (_, i) => 20 + i);
const SOURCE = 'complex addition and exhaustive search by NumPy (stored data)';
/** The stored search: −15 to 15 ms in steps of 0.01 ms. */
const RANGE = { least_s: -0.015, most_s: 0.015, step_s: 1e-5 };

function highPass(corner_hz: number, q: number): AnalogueFilter {
  return [{ corner_hz, numerator: [1, 0, 0], denominator: [1, 1 / q, 1] }];
}

function mainOf({ fc, order, main_hp2_f, main_hp2_q }: StoredCase) {
  const filter = [...highPass(main_hp2_f, main_hp2_q), ...linkwitzRiley(order, 'high_pass', fc)];
  return branchResponse({ filter, level_db: 0, inverted: false, delay_s: 0 }, GRID_HZ);
}

function subOf({ fc, order, sub_hp4_f, ...sub }: StoredCase) {
  const natural = butterworth(4, 'high_pass', sub_hp4_f);
  const branch = {
    filter: [...natural, ...linkwitzRiley(order, 'low_pass', fc)],
    level_db: sub.sub_gain_db,
    inverted: sub.sub_polarity < 0,
    delay_s: sub.sub_delay_ms / 1000,
  };
  return branchResponse(branch, GRID_HZ);
}

function pairOf(stored: StoredCase): Pairing {
  const [from_hz, to_hz] = stored.band_hz;
  const used = Array.from({ length: to_hz - from_hz + 1 }, (_, i) => from_hz - 20 + i);
  return pairing(GRID_HZ, mainOf(stored), subOf(stored), used);
}

/** A delay error on an aligned fourth-order crossover: level at the crossover, re aligned. */
function delayError_db(crossover_hz: number, delay_s: number, inverted: boolean, at_hz: number) {
  const frequencies_hz = logGrid_hz(crossover_hz / 2, crossover_hz * 2, 1000);
  const branch = (filter: AnalogueFilter, late_s: number, turned: boolean) =>
    branchResponse({ filter, level_db: 0, inverted: turned, delay_s: late_s }, frequencies_hz);
  const { sum_db } = crossoverSum({
    frequencies_hz,
    main: branch(linkwitzRiley(4, 'high_pass', crossover_hz), 0, false),
    sub: branch(linkwitzRiley(4, 'low_pass', crossover_hz), delay_s, inverted),
    crossover_hz,
  });
  const index = frequencies_hz.findIndex((frequency_hz) => at_hz * 0.9999 <= frequency_hz);
  return sum_db[index] ?? Number.NaN;
}

/** Rows: crossover; level after 0.5, 1, 2, 3 ms; ms to −1 dB and −3 dB. 20 lg |cos(π f τ)|. */
const DELAY_ERRORS = [
  [60, -0.04, -0.16, -0.63, -1.47],
  [80, -0.07, -0.28, -1.15, -2.75],
  [100, -0.11, -0.44, -1.84, -4.62],
  [120, -0.16, -0.63, -2.75, -7.42],
] as const;
const ERRORS_S = [0.0005, 0.001, 0.002, 0.003];

export const crossoverCases: readonly Comparison[] = [
  {
    computation: 'main and sub, complex',
    source: SOURCE,
    unit: '',
    tolerance: 1e-7,
    because: 'precision stated with the data',
    count: 4 * 4 * 181,
    pairs: () =>
      expected.cases.flatMap((stored) => {
        const [main, sub] = [mainOf(stored), subOf(stored)];
        const what = (i: number) => `${stored.name} at ${GRID_HZ[i]} Hz`;
        return [
          ...pairsOf(main.re, stored.main.re, what),
          ...pairsOf(main.im, stored.main.im, what),
          ...pairsOf(sub.re, stored.sub_as_given.re, what),
          ...pairsOf(sub.im, stored.sub_as_given.im, what),
        ];
      }),
  },
  {
    computation: 'level of the sum',
    source: SOURCE,
    unit: 'dB',
    tolerance: 1e-6,
    because: 'precision stated with the data',
    count: 4 * 181,
    pairs: () =>
      expected.cases.flatMap((stored) =>
        pairsOf(
          levels_db(sumOf(mainOf(stored), subOf(stored))),
          stored.sum_db,
          (i) => `${stored.name} at ${GRID_HZ[i]} Hz`,
        ),
      ),
  },
  {
    computation: 'loss of the sum over delay',
    source: `${SOURCE}, every 0.5 ms, both polarities`,
    unit: 'dB',
    tolerance: 1e-5,
    because: 'precision stated with the data',
    count: expected.cases.reduce(
      (sum, { loss_map_every_0p5_ms }) => sum + 2 * loss_map_every_0p5_ms.extra_sub_delay_ms.length,
      0,
    ),
    pairs: () =>
      expected.cases.flatMap((stored) => {
        const pair = pairOf(stored);
        const map = stored.loss_map_every_0p5_ms;
        const loss = (inverted: boolean) =>
          map.extra_sub_delay_ms.map((ms) => summationLoss_db(pair, inverted, ms / 1000));
        const what = (i: number) => `${stored.name} at ${map.extra_sub_delay_ms[i]} ms`;
        return [
          ...pairsOf(loss(false), map.polarity_plus, what),
          ...pairsOf(loss(true), map.polarity_minus, what),
        ];
      }),
  },
  {
    computation: 'best delay for each polarity',
    source: SOURCE,
    unit: 'ms',
    tolerance: 0.0051,
    because: 'half a step of the search, stated with the data',
    count: 8,
    pairs: () =>
      expected.cases.flatMap((stored) =>
        stored.best_summation_loss_per_polarity.map((best) => {
          const choice = alignDelay(pairOf(stored), best.polarity_factor < 0, RANGE, 0);
          return {
            what: `${stored.name}, polarity ${best.polarity_factor}`,
            actual: choice.delay_s * 1000,
            expected: best.extra_sub_delay_ms,
          };
        }),
      ),
  },
  {
    computation: 'loss at the best delay',
    source: SOURCE,
    unit: 'dB',
    tolerance: 1e-5,
    because: 'precision stated with the data',
    count: 8,
    pairs: () =>
      expected.cases.flatMap((stored) =>
        stored.best_summation_loss_per_polarity.map((best) => ({
          what: `${stored.name}, polarity ${best.polarity_factor}`,
          actual: alignDelay(pairOf(stored), best.polarity_factor < 0, RANGE, 0).loss_db,
          expected: best.rms_loss_db,
        })),
      ),
  },
  {
    computation: 'delay error at a fourth-order crossover',
    source: '20 lg |cos(π f τ)|, table worked by another program',
    unit: 'dB',
    tolerance: 0.0101,
    because: 'two decimals',
    count: 16,
    pairs: () =>
      DELAY_ERRORS.flatMap(([crossover_hz, ...levels]) =>
        pairsOf(
          ERRORS_S.map((late_s) => delayError_db(crossover_hz, late_s, false, crossover_hz)),
          levels,
          (i) => `${crossover_hz} Hz, ${(ERRORS_S[i] ?? 0) * 1000} ms`,
        ),
      ),
  },
  {
    computation: 'dip of a fourth-order crossover, one side inverted',
    source: 'Linkwitz 1976; worked by another program: an octave away, and at 0.9 of the crossover',
    unit: 'dB',
    tolerance: 0.02,
    because: 'two decimals, grid of 1/1000 octave',
    count: 2,
    pairs: () => [
      { what: 'half', actual: delayError_db(80, 0, true, 40), expected: -1.09 },
      { what: '0.9', actual: delayError_db(80, 0, true, 72), expected: -13.65 },
    ],
  },
];
