// Bands and weightings held against the standards' tables and stored data.
import { bandAt, thirdOctaves } from '../../../core/acoustics/thirdOctave.ts';
import {
  pinkNoisePart_db,
  pinkNoiseWeighting_db,
  type Weighting,
  weighting_db,
} from '../../../core/acoustics/weighting.ts';
import { referenceData } from '../../support/referenceData.ts';
import { type Comparison, pairsOf } from '../comparison.ts';

interface StoredWeightings {
  readonly nominal_hz: readonly number[];
  readonly exact_hz: readonly number[];
  readonly A_db: readonly number[];
  readonly C_db: readonly number[];
  readonly arbitrary: {
    readonly f_hz: readonly number[];
    readonly A_db: readonly number[];
    readonly C_db: readonly number[];
  };
  readonly bands: readonly {
    readonly bands_per_octave: number;
    readonly k: readonly number[];
    readonly exact_mid_hz: readonly number[];
    readonly lower_edge_hz: readonly number[];
    readonly upper_edge_hz: readonly number[];
  }[];
}
const { expected } = referenceData<StoredWeightings>('weighting_bands');
const LIBRARY = 'NumPy (stored data)';

/** IEC 61672-1 Table 3, 10 Hz to 20 kHz in third octaves. */
const TABLE_3: Readonly<Record<'A' | 'C', readonly number[]>> = {
  A: [
    -70.4, -63.4, -56.7, -50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4,
    -10.9, -8.6, -6.6, -4.8, -3.2, -1.9, -0.8, 0, 0.6, 1, 1.2, 1.3, 1.2, 1, 0.5, -0.1, -1.1, -2.5,
    -4.3, -6.6, -9.3,
  ],
  C: [
    -14.3, -11.2, -8.5, -6.2, -4.4, -3, -2, -1.3, -0.8, -0.5, -0.3, -0.2, -0.1, 0, 0, 0, 0, 0, 0, 0,
    0, 0, -0.1, -0.2, -0.3, -0.5, -0.8, -1.3, -2, -3, -4.4, -6.2, -8.5, -11.2,
  ],
};

function weighted(weighting: Weighting, frequencies_hz: readonly number[]): readonly number[] {
  return frequencies_hz.map((frequency_hz) => weighting_db(weighting, frequency_hz));
}

export const bandCases: readonly Comparison[] = [
  ...(['A', 'C'] as const).map(
    (weighting): Comparison => ({
      computation: `${weighting} weighting`,
      source: 'IEC 61672-1:2013 Table 3, at exact frequencies',
      unit: 'dB',
      tolerance: 0.0501,
      because: 'half of the last digit printed',
      count: 34,
      pairs: () =>
        pairsOf(
          weighted(
            weighting,
            thirdOctaves(10, 20_000).map(({ exact_hz }) => exact_hz),
          ),
          TABLE_3[weighting],
          (i) => `${expected.nominal_hz[i]} Hz`,
        ),
    }),
  ),
  {
    computation: 'A and C weighting',
    source: `pole formulas by ${LIBRARY}`,
    unit: 'dB',
    tolerance: 5.1e-6,
    because: 'eight digits stored, so half of 1e-5 dB at −148 dB',
    count: 90,
    pairs: () => {
      const { arbitrary, exact_hz, A_db, C_db } = expected;
      return [
        ...pairsOf(weighted('A', exact_hz), A_db, (i) => `A ${exact_hz[i]} Hz`),
        ...pairsOf(weighted('C', exact_hz), C_db, (i) => `C ${exact_hz[i]} Hz`),
        ...pairsOf(
          weighted('A', arbitrary.f_hz),
          arbitrary.A_db,
          (i) => `A ${arbitrary.f_hz[i]} Hz`,
        ),
        ...pairsOf(
          weighted('C', arbitrary.f_hz),
          arbitrary.C_db,
          (i) => `C ${arbitrary.f_hz[i]} Hz`,
        ),
      ];
    },
  },
  {
    computation: 'mid frequencies and edges of bands',
    source: `IEC 61260-1 base 10, by ${LIBRARY}`,
    unit: 'Hz',
    tolerance: 1e-8,
    relative: true,
    because: 'nine digits stored',
    count: 3 * expected.bands.reduce((sum, { k }) => sum + k.length, 0),
    pairs: () =>
      expected.bands.flatMap(
        ({ bands_per_octave, k, exact_mid_hz, lower_edge_hz, upper_edge_hz }) => {
          const bands = k.map((index) => bandAt(index, bands_per_octave));
          const what = (i: number) => `1/${bands_per_octave} octave, band ${k[i]}`;
          return [
            ...pairsOf(
              bands.map(({ exact_hz }) => exact_hz),
              exact_mid_hz,
              what,
            ),
            ...pairsOf(
              bands.map(({ lower_hz }) => lower_hz),
              lower_edge_hz,
              what,
            ),
            ...pairsOf(
              bands.map(({ upper_hz }) => upper_hz),
              upper_edge_hz,
              what,
            ),
          ];
        },
      ),
  },
  {
    computation: 'nominal frequencies of third octaves',
    source: 'ISO 266:1997, 10 Hz to 20 kHz',
    unit: 'Hz',
    tolerance: 0,
    because: 'names are exact',
    count: 34,
    pairs: () =>
      pairsOf(
        thirdOctaves(10, 20_000).map(({ nominal_hz }) => nominal_hz),
        expected.nominal_hz,
        (i) => `band ${i}`,
      ),
  },
  {
    computation: 'weighted band-limited pink noise',
    source: 'IEC 61672-1 weightings integrated by another program',
    unit: 'dB',
    tolerance: 0.0101,
    because: 'two decimals',
    count: 5,
    pairs: () => [
      { what: 'C, 500 Hz–2 kHz', actual: pinkNoiseWeighting_db('C', 500, 2000), expected: -0.02 },
      { what: 'C, 40–80 Hz', actual: pinkNoiseWeighting_db('C', 40, 80), expected: -1.07 },
      { what: 'C, 20–120 Hz', actual: pinkNoiseWeighting_db('C', 20, 120), expected: -1.67 },
      { what: 'A, 500 Hz–2 kHz', actual: pinkNoiseWeighting_db('A', 500, 2000), expected: -0.17 },
      {
        what: 'A below C, 20 Hz–20 kHz',
        actual: pinkNoiseWeighting_db('A', 20, 20_000) - pinkNoiseWeighting_db('C', 20, 20_000),
        expected: -1.75,
      },
    ],
  },
  {
    computation: 'parts of a wide pink noise, C-weighted',
    source: 'IEC 61672-1 C integrated by another program; LFE +10 dB: BS.775-3 Annex 7',
    unit: 'dB',
    tolerance: 0.0501,
    because: 'one decimal',
    count: 2,
    pairs: () => {
      const wide = [20, 20_000] as const;
      const partOf85 = (lower: number, upper: number) =>
        85 -
        pinkNoiseWeighting_db('C', ...wide) +
        pinkNoisePart_db([lower, upper], wide) +
        pinkNoiseWeighting_db('C', lower, upper);
      return [
        { what: '500 Hz–2 kHz of 85 dBC', actual: partOf85(500, 2000), expected: 79.1 },
        { what: 'LFE beside 85 dBC', actual: partOf85(20, 120) + 10, expected: 88.6 },
      ];
    },
  },
];
