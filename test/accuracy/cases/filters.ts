// Filters held against general libraries: crossovers, equaliser bands, roll-offs, and tables of levels and delays.
import { secondOrderAllPass } from '../../../core/acoustics/allPass.ts';
import {
  type AnalogueFilter,
  filterAt,
  filterLevel_db,
  filterResponse,
  groupDelay_s,
} from '../../../core/acoustics/analogueFilter.ts';
import {
  type BiquadKind,
  biquad,
  biquadAt,
  biquadGroupDelay_s,
} from '../../../core/acoustics/biquad.ts';
import { magnitude_db, plus } from '../../../core/acoustics/complex.ts';
import {
  bessel,
  butterworth,
  crossoverFilter,
  linkwitzRiley,
} from '../../../core/acoustics/crossoverFilter.ts';
import { equaliserBand, q_ofBandwidth } from '../../../core/acoustics/equaliser.ts';
import { highRolloff, lowRolloff } from '../../../core/acoustics/rolloff.ts';
import { referenceData } from '../../support/referenceData.ts';
import { type Comparison, type Pair, pairsOf } from '../comparison.ts';

interface StoredComplex {
  readonly re: readonly number[];
  readonly im: readonly number[];
}
interface StoredCrossovers {
  readonly filters: readonly {
    readonly family: 'butterworth' | 'linkwitz-riley';
    readonly order: number;
    readonly fc_hz: number;
    readonly f_hz: readonly number[];
    readonly analog: {
      readonly low: StoredComplex;
      readonly high: StoredComplex;
      readonly low_group_delay_s: readonly number[];
      readonly high_group_delay_s: readonly number[];
      readonly sum_same_polarity_db: readonly (number | null)[];
      readonly sum_high_inverted_db: readonly (number | null)[];
    };
  }[];
}
interface StoredBiquads {
  readonly biquads: readonly {
    readonly kind: keyof typeof KINDS;
    readonly f0_hz: number;
    readonly Q: number;
    readonly gain_db: number;
    readonly b: readonly number[];
    readonly a: readonly number[];
    readonly f_hz: readonly number[];
    readonly h: StoredComplex;
    readonly group_delay_s: readonly number[];
  }[];
}
interface StoredAlignments {
  readonly alignments: readonly {
    readonly name: string;
    readonly denominator_normalised: readonly number[];
    readonly minus_3db_frequency_hz: number;
    readonly h: StoredComplex;
    readonly group_delay_s: readonly number[];
  }[];
}
interface StoredBessel {
  readonly fc_hz: number;
  readonly f_hz: readonly number[];
  readonly filters: readonly (StoredComplex & {
    readonly order: number;
    readonly side: 'low_pass' | 'high_pass';
  })[];
}

const KINDS = {
  peaking: 'bell',
  lowshelf: 'low_shelf',
  highshelf: 'high_shelf',
  allpass: 'all_pass',
  lowpass: 'low_pass',
  highpass: 'high_pass',
  notch: 'notch',
  bandpass0db: 'band_pass',
} as const satisfies Readonly<Record<string, BiquadKind>>;

const crossovers = referenceData<StoredCrossovers>('filters_crossover');
const biquads = referenceData<StoredBiquads>('filters_biquad');
const alignments = referenceData<StoredAlignments>('box_alignments');
const bessels = referenceData<StoredBessel>('bessel');
const LIBRARY = 'NumPy and SciPy (stored data)';
const SAMPLE_RATE_HZ = 48_000;
const ALIGNMENT_HZ = [
  10.5, 12.4867, 14.8492, 17.6588, 21, 24.9733, 29.6985, 35.3176, 42, 49.9467, 59.397, 70.6353, 84,
  99.8934, 118.7939, 141.2706, 168, 199.7868, 237.5879, 282.5412, 336,
];

function complexPairs(
  filter: AnalogueFilter,
  frequencies_hz: readonly number[],
  expected: StoredComplex,
  name: string,
): readonly Pair[] {
  const { re, im } = filterResponse(filter, frequencies_hz);
  const what = (i: number) => `${name} at ${frequencies_hz[i]} Hz`;
  return [...pairsOf(re, expected.re, what), ...pairsOf(im, expected.im, what)];
}

/** Both sides of every stored crossover. */
function storedSides() {
  return crossovers.expected.filters.flatMap(({ family, order, fc_hz, f_hz, analog }) => {
    const kind = family === 'butterworth' ? 'butterworth' : 'linkwitz_riley';
    const name = `${family} ${order} at ${fc_hz} Hz`;
    return (['low', 'high'] as const).map((side) => ({
      name: `${name}, ${side}`,
      filter: crossoverFilter({ kind, order }, `${side}_pass`, fc_hz),
      f_hz,
      response: analog[side],
      groupDelay_s: analog[`${side}_group_delay_s`],
    }));
  });
}

function sums(inverted: boolean): readonly Pair[] {
  return crossovers.expected.filters.flatMap(({ family, order, fc_hz, f_hz, analog }) => {
    const kind = family === 'butterworth' ? 'butterworth' : 'linkwitz_riley';
    const low = crossoverFilter({ kind, order }, 'low_pass', fc_hz);
    const high = crossoverFilter({ kind, order }, 'high_pass', fc_hz);
    const stored = inverted ? analog.sum_high_inverted_db : analog.sum_same_polarity_db;
    return stored.flatMap((expected, i) => {
      const frequency_hz = f_hz[i] ?? Number.NaN;
      const h = filterAt(high, frequency_hz);
      const sum = plus(filterAt(low, frequency_hz), inverted ? { re: -h.re, im: -h.im } : h);
      const what = `${family} ${order} at ${frequency_hz} Hz`;
      if (expected === null || expected < -100) return [];
      return [{ what, actual: magnitude_db(sum), expected }];
    });
  });
}

/** Level of the low-pass, dB, rows f/fc, columns Butterworth 2, 4, Linkwitz-Riley 2, 4, 8. */
const LEVELS = [
  [0.5, -0.26, -0.02, -1.94, -0.53, -0.03],
  [0.8, -1.49, -0.67, -4.3, -2.98, -1.35],
  [1, -3.01, -3.01, -6.02, -6.02, -6.02],
  [1.25, -5.37, -8.43, -8.17, -10.73, -16.85],
  [2, -12.3, -24.1, -13.98, -24.61, -48.2],
  [4, -24.1, -48.16, -24.61, -48.2, -96.33],
] as const;

const QUARTIC_Q = { 1: 0.5, 2: 0.57735026919, 3: Math.SQRT1_2 } as const;

function sealed(q: number): AnalogueFilter {
  return [{ corner_hz: 42, numerator: [1, 0, 0], denominator: [1, 1 / q, 1] }];
}

/** The stored alignments that these filters can make: sealed of any Q, Butterworth 4 and Bessel 4. */
function alignmentFilter(name: string, denominator: readonly number[]): AnalogueFilter | null {
  if (name.startsWith('sealed')) return sealed(1 / (denominator[1] ?? Number.NaN));
  if (name.startsWith('vented_B4')) return butterworth(4, 'high_pass', 42);
  return name.startsWith('vented_bessel4') ? bessel(4, 'high_pass', 42) : null;
}

const ours = alignments.expected.alignments.flatMap((stored) => {
  const filter = alignmentFilter(stored.name, stored.denominator_normalised);
  return filter ? [{ ...stored, filter }] : [];
});

export const filterCases: readonly Comparison[] = [
  {
    computation: 'Butterworth and Linkwitz-Riley, complex',
    source: LIBRARY,
    unit: '',
    tolerance: 2e-8,
    because: 'precision stated with the data, frequencies stored to four decimals',
    count: 2 * 2 * crossovers.expected.filters.reduce((sum, { f_hz }) => sum + f_hz.length, 0),
    pairs: () =>
      storedSides().flatMap(({ filter, f_hz, response, name }) =>
        complexPairs(filter, f_hz, response, name),
      ),
  },
  {
    computation: 'group delay of crossover filters',
    source: LIBRARY,
    unit: 's',
    tolerance: 1e-6,
    relative: true,
    because: 'precision stated with the data',
    count: 2 * crossovers.expected.filters.reduce((sum, { f_hz }) => sum + f_hz.length, 0),
    pairs: () =>
      storedSides().flatMap(({ filter, f_hz, groupDelay_s: expected, name }) =>
        pairsOf(
          f_hz.map((frequency_hz) => groupDelay_s(filter, frequency_hz)),
          expected,
          (i) => `${name} at ${f_hz[i]} Hz`,
        ),
      ),
  },
  ...[false, true].map(
    (inverted): Comparison => ({
      computation: `sums of both sides, ${inverted ? 'one inverted' : 'same polarity'}`,
      source: `${LIBRARY}, nulls left out`,
      unit: 'dB',
      tolerance: 1e-6,
      because: 'precision stated with the data',
      count: crossovers.expected.filters.reduce((sum, { analog }) => {
        const stored = inverted ? analog.sum_high_inverted_db : analog.sum_same_polarity_db;
        return sum + stored.filter((level) => level !== null && -100 <= level).length;
      }, 0),
      pairs: () => sums(inverted),
    }),
  ),
  {
    computation: 'levels of low-passes',
    source: 'Butterworth and Linkwitz 1976 formulas, table worked by another program',
    unit: 'dB',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 30,
    pairs: () => {
      const columns = [
        butterworth(2, 'low_pass', 1),
        butterworth(4, 'low_pass', 1),
        linkwitzRiley(2, 'low_pass', 1),
        linkwitzRiley(4, 'low_pass', 1),
        linkwitzRiley(8, 'low_pass', 1),
      ];
      return LEVELS.flatMap(([ratio, ...expected]) =>
        pairsOf(
          columns.map((filter) => filterLevel_db(filter, ratio)),
          expected,
          (i) => `column ${i} at ${ratio}`,
        ),
      );
    },
  },
  {
    computation: 'group delay of Linkwitz-Riley sums, 80 Hz',
    source: 'closed forms 2/ω, 2√2/ω, 2·2.613/ω near 0 Hz, and values at the crossover',
    unit: 'ms',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 6,
    pairs: () => {
      const sum = (order: number, frequency_hz: number) =>
        1000 * groupDelay_s(linkwitzRiley(order, 'low_pass', 80), frequency_hz);
      return [
        // both sides of an aligned pair have the phase, so the group delay, of their sum
        { what: 'LR2 near 0', actual: sum(2, 1e-3), expected: 3.98 },
        { what: 'LR2 at 80', actual: sum(2, 80), expected: 1.99 },
        { what: 'LR4 near 0', actual: sum(4, 1e-3), expected: 5.63 },
        { what: 'LR4 at 80', actual: sum(4, 80), expected: 5.63 },
        { what: 'LR8 near 0', actual: sum(8, 1e-3), expected: 10.4 },
        { what: 'LR8 at 80', actual: sum(8, 80), expected: 14.7 },
      ];
    },
  },
  {
    computation: 'Bessel filters, complex',
    source: bessels.source,
    unit: '',
    tolerance: 1e-7,
    because: 'poles written to ten digits',
    count: 2 * 8 * bessels.expected.f_hz.length,
    pairs: () =>
      bessels.expected.filters.flatMap(({ order, side, re, im }) => {
        const filter = bessel(order, side, bessels.expected.fc_hz);
        return complexPairs(filter, bessels.expected.f_hz, { re, im }, `Bessel ${order} ${side}`);
      }),
  },
  {
    computation: 'coefficients of digital sections',
    source: `W3C Note "Audio EQ Cookbook" by ${LIBRARY}`,
    unit: '',
    tolerance: 1e-11,
    because: 'twelve digits stored',
    count: 6 * biquads.expected.biquads.length,
    pairs: () =>
      biquads.expected.biquads.flatMap(({ kind, f0_hz, Q, gain_db, b, a }) => {
        const section = biquad(
          { kind: KINDS[kind], frequency_hz: f0_hz, gain_db, q: Q },
          SAMPLE_RATE_HZ,
        );
        const what = (i: number) => `${kind} at ${f0_hz} Hz, coefficient ${i}`;
        return [...pairsOf(section.b, b, what), ...pairsOf(section.a, a, what)];
      }),
  },
  {
    computation: 'response and group delay of digital sections',
    source: `W3C Note "Audio EQ Cookbook" by ${LIBRARY}`,
    unit: '',
    tolerance: 5e-8,
    because: 'precision stated with the data (frequencies to four decimals); delays in seconds',
    count: 3 * biquads.expected.biquads.reduce((sum, { f_hz }) => sum + f_hz.length, 0),
    pairs: () =>
      biquads.expected.biquads.flatMap(({ kind, f0_hz, Q, gain_db, f_hz, h, group_delay_s }) => {
        const section = biquad(
          { kind: KINDS[kind], frequency_hz: f0_hz, gain_db, q: Q },
          SAMPLE_RATE_HZ,
        );
        const at = f_hz.map((frequency_hz) => biquadAt(section, frequency_hz, SAMPLE_RATE_HZ));
        const delays = f_hz.map((frequency_hz) =>
          biquadGroupDelay_s(section, frequency_hz, SAMPLE_RATE_HZ),
        );
        const what = (i: number) => `${kind} at ${f0_hz} Hz, ${f_hz[i]} Hz`;
        return [
          ...pairsOf(
            at.map(({ re }) => re),
            h.re,
            what,
          ),
          ...pairsOf(
            at.map(({ im }) => im),
            h.im,
            what,
          ),
          ...pairsOf(delays, group_delay_s, what),
        ];
      }),
  },
  {
    computation: 'analogue equaliser bands',
    source: `digital sections below 1 kHz, where both agree (${LIBRARY})`,
    unit: 'dB',
    tolerance: 0.02,
    because: 'the bilinear transform bends frequency: 0.14 % at 1 kHz',
    count: biquads.expected.biquads
      .filter(({ kind, f0_hz }) => analogueKind(kind) !== null && f0_hz <= 1000)
      .reduce((sum, { f_hz }) => sum + f_hz.filter((f) => f <= 1000).length, 0),
    pairs: () =>
      biquads.expected.biquads.flatMap(({ kind, f0_hz, Q, gain_db, f_hz, h }) => {
        const analogue = analogueKind(kind);
        if (analogue === null || 1000 < f0_hz) return [];
        const filter = equaliserBand({ kind: analogue, frequency_hz: f0_hz, gain_db, q: Q });
        return f_hz.flatMap((frequency_hz, i) => {
          const [re, im] = [h.re[i] ?? Number.NaN, h.im[i] ?? Number.NaN];
          const what = `${kind} at ${f0_hz} Hz, ${frequency_hz} Hz`;
          const actual = filterLevel_db(filter, frequency_hz);
          return frequency_hz <= 1000 ? [{ what, actual, expected: magnitude_db({ re, im }) }] : [];
        });
      }),
  },
  {
    computation: 'second-order all-pass',
    source: `digital section at 90 Hz, where both agree (${LIBRARY})`,
    unit: '',
    tolerance: 5e-4,
    because: 'the bilinear transform bends frequency: 0.04 % at 500 Hz',
    count: 2 * allPassRows().length,
    pairs: () => {
      const filter = secondOrderAllPass(90, Math.SQRT1_2);
      return allPassRows().flatMap(({ frequency_hz, re, im }) => {
        const ours = filterAt(filter, frequency_hz);
        const what = `${frequency_hz} Hz`;
        return [
          { what, actual: ours.re, expected: re },
          { what, actual: ours.im, expected: im },
        ];
      });
    },
  },
  {
    computation: 'Q of a bandwidth',
    source: 'W3C Note "Audio EQ Cookbook": 1/(2 sinh(ln2/2 · octaves)), worked by hand',
    unit: '',
    tolerance: 5.1e-4,
    because: 'three decimals',
    count: 4,
    pairs: () =>
      pairsOf(
        [1 / 3, 1 / 2, 1, 2].map(q_ofBandwidth),
        // biome-ignore lint/suspicious/noApproximativeNumericConstant: a printed figure, not the constant
        [4.318, 2.871, 1.414, 0.667],
        (i) => `row ${i}`,
      ),
  },
  {
    computation: 'high-pass alignments of boxes, complex',
    source: `sealed Q 0.5 to 1.2, Butterworth 4, Bessel 4 by ${LIBRARY}`,
    unit: '',
    tolerance: 5e-6,
    because: 'frequencies stored to four decimals',
    count: 2 * 7 * ALIGNMENT_HZ.length,
    pairs: () => ours.flatMap(({ name, filter, h }) => complexPairs(filter, ALIGNMENT_HZ, h, name)),
  },
  {
    computation: 'group delay of box alignments',
    source: `sealed Q 0.5 to 1.2, Butterworth 4, Bessel 4 by ${LIBRARY}`,
    unit: 's',
    tolerance: 1e-5,
    relative: true,
    because: 'frequencies stored to four decimals',
    count: 7 * ALIGNMENT_HZ.length,
    pairs: () =>
      ours.flatMap(({ name, filter, group_delay_s }) =>
        pairsOf(
          ALIGNMENT_HZ.map((frequency_hz) => groupDelay_s(filter, frequency_hz)),
          group_delay_s,
          (i) => `${name} at ${ALIGNMENT_HZ[i]} Hz`,
        ),
      ),
  },
  {
    computation: 'level at the −3 dB point of box alignments',
    source: `−3.000 dB points by ${LIBRARY}`,
    unit: 'dB',
    tolerance: 1e-7,
    because: 'frequency to ten digits',
    count: 7,
    pairs: () =>
      ours.map(({ name, filter, minus_3db_frequency_hz }) => ({
        what: name,
        actual: filterLevel_db(filter, minus_3db_frequency_hz),
        expected: -3,
      })),
  },
  {
    computation: 'level of a sealed box at resonance',
    source: '20 lg Q: Small, J. Audio Eng. Soc. 1972; worked by hand',
    unit: 'dB',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 3,
    pairs: () =>
      pairsOf(
        Object.values(QUARTIC_Q).map((q) => filterLevel_db(sealed(q), 42)),
        [-6.02, -4.77, -3.01],
        (i) => `row ${i}`,
      ),
  },
  {
    computation: 'natural roll-off from the −6 dB point',
    source:
      'Butterworth: −6 dB at 0.760 f3 (2nd order) and 0.872 f3 (4th), so −3.01 dB at its inverse; worked by hand',
    unit: 'dB',
    tolerance: 0.02,
    because: 'ratios to three decimals',
    count: 8,
    pairs: () => [
      { what: 'sealed at f6', actual: low(2, 50), expected: -6 },
      { what: 'sealed at f3', actual: low(2, 50 / 0.76), expected: -3.01 },
      { what: 'vented at f6', actual: low(4, 50), expected: -6 },
      { what: 'vented at f3', actual: low(4, 50 / 0.872), expected: -3.01 },
      { what: 'upper 2nd at f6', actual: filterLevel_db(upper(2), 150), expected: -6 },
      { what: 'upper 2nd at f3', actual: filterLevel_db(upper(2), 150 * 0.76), expected: -3.01 },
      { what: 'upper 4th at f6', actual: filterLevel_db(upper(4), 150), expected: -6 },
      { what: 'upper 4th at f3', actual: filterLevel_db(upper(4), 150 * 0.872), expected: -3.01 },
    ],
  },
];

function low(order: number, frequency_hz: number): number {
  return filterLevel_db(lowRolloff({ minus6db_hz: 50, order }), frequency_hz);
}

function upper(order: number): AnalogueFilter {
  return highRolloff({ minus6db_hz: 150, order });
}

function analogueKind(kind: keyof typeof KINDS): 'bell' | 'low_shelf' | 'high_shelf' | null {
  const ourKind = KINDS[kind];
  return ourKind === 'bell' || ourKind === 'low_shelf' || ourKind === 'high_shelf' ? ourKind : null;
}

function allPassRows() {
  const stored = biquads.expected.biquads.find(
    ({ kind, f0_hz }) => kind === 'allpass' && f0_hz === 90,
  );
  return (stored?.f_hz ?? []).flatMap((frequency_hz, i) => {
    const [re, im] = [stored?.h.re[i] ?? Number.NaN, stored?.h.im[i] ?? Number.NaN];
    return frequency_hz <= 500 ? [{ frequency_hz, re, im }] : [];
  });
}
