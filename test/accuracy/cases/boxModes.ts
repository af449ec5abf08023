// Modes of a box held against printed tables, exact enumeration and stored data; Bonello's counts; proportions.
import { bonello } from '../../../core/acoustics/bonello.ts';
import {
  type BoxMode,
  type BoxSize,
  boxModes,
  modeCount,
  modeDensity_per_hz,
  modeShape_ratio,
} from '../../../core/acoustics/boxModes.ts';
import { proportionInequality, proportions } from '../../../core/acoustics/proportions.ts';
import { referenceData } from '../../support/referenceData.ts';
import { type Comparison, pairsOf } from '../comparison.ts';

const FOOT_M = 0.3048;
const HANDBOOK_C_M_S = 1130 * FOOT_M;

interface StoredModes {
  readonly count: number;
  readonly f_hz: readonly number[];
  readonly index_nx_ny_nz: readonly (readonly [number, number, number])[];
  readonly modes: readonly {
    readonly index: readonly [number, number, number];
    readonly abs_p_rms_normalised: readonly number[];
  }[];
}
const stored = referenceData<StoredModes>('modes_rect');
const STORED_SIZE: BoxSize = { x_m: 6.2, y_m: 4.7, z_m: 2.9 };
const STORED_POINTS = [
  [0.5, 0.6, 0.4],
  [2.1, 1.3, 1.2],
  [3.9, 2.9, 1.2],
  [5.3, 4.1, 2.3],
  [6.2, 4.7, 2.9],
] as const;

export function feet(x: number, y: number, z: number): BoxSize {
  return { x_m: x * FOOT_M, y_m: y * FOOT_M, z_m: z * FOOT_M };
}

export function metres(x_m: number, y_m: number, z_m: number): BoxSize {
  return { x_m, y_m, z_m };
}

function frequencyOf(modes: readonly BoxMode[], order: string): number {
  return modes.find((mode) => mode.order.join() === order)?.frequency_hz ?? Number.NaN;
}

function counts(size: BoxSize, c_m_s: number): readonly number[] {
  return bonello(boxModes(size, c_m_s, 230), 0)
    .bands.filter(({ nominal_hz }) => 20 <= nominal_hz)
    .map(({ modeCount }) => modeCount);
}

/** Handbook for Sound Engineers, Table 6-4, p. 130: 16 × 12 × 8 ft, 1130 ft/s. */
const TABLE_6_4 = [
  ['1,0,0', 35.31],
  ['2,0,0', 70.63],
  ['3,0,0', 105.94],
  ['0,1,0', 47.08],
  ['0,2,0', 94.17],
  ['0,3,0', 141.25],
  ['0,0,1', 70.63],
  ['0,0,2', 141.25],
] as const;

const KUTTRUFF_20_HZ = [
  36.17, 41.46, 54.84, 55.02, 65.69, 68.75, 72.34, 77.68, 82.93, 83.38, 90.47, 90.78, 99.42, 99.8,
  105.79, 108.51, 109.68, 110.05, 115.49, 116.16,
];

export const boxModeCases: readonly Comparison[] = [
  {
    computation: 'modes of a box',
    source: 'Handbook for Sound Engineers, Table 6-4, p. 130',
    unit: 'Hz',
    tolerance: 0.006,
    because: 'printed to two decimals',
    count: 8,
    pairs: () => {
      const modes = boxModes(feet(16, 12, 8), HANDBOOK_C_M_S, 150);
      return TABLE_6_4.map(([order, expected]) => ({
        what: order,
        actual: frequencyOf(modes, order),
        expected,
      }));
    },
  },
  {
    computation: 'modes of a box',
    source:
      'Kuttruff, Room Acoustics, ch. 3, first twenty of 4.7 × 4.1 × 3.1 m (table from memory, by the formula)',
    unit: 'Hz',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 20,
    pairs: () =>
      pairsOf(
        boxModes(metres(4.7, 4.1, 3.1), 340, 116.5).map(({ frequency_hz }) => frequency_hz),
        KUTTRUFF_20_HZ,
        (i) => `mode ${i + 1}`,
      ),
  },
  {
    computation: 'modes of a box',
    source: 'Master Handbook of Acoustics p. 216: axials 24.18 and 35.27 Hz give 42.76 Hz',
    unit: 'Hz',
    tolerance: 0.01,
    because: 'printed to two decimals',
    count: 1,
    pairs: () => {
      const size = metres(343 / 2 / 24.18, 343 / 2 / 35.27, 1);
      return [
        { what: '1,1,0', actual: frequencyOf(boxModes(size, 343, 50), '1,1,0'), expected: 42.76 },
      ];
    },
  },
  {
    computation: 'modes of a box',
    source: 'analytic, checked by finite elements (stored data): 6.2 × 4.7 × 2.9 m to 150 Hz',
    unit: 'Hz',
    tolerance: 1e-9,
    relative: true,
    because: 'ten digits stored',
    count: 52,
    pairs: () =>
      pairsOf(
        boxModes(STORED_SIZE, 343, 150).map(({ frequency_hz }) => frequency_hz),
        stored.expected.f_hz,
        (i) => `mode ${i + 1}`,
      ),
  },
  {
    computation: 'pressure of modes at places',
    source: 'stored data: three modes at five points, mean square 1',
    unit: '',
    tolerance: 2e-9,
    because: 'precision stated with the data',
    count: 15,
    pairs: () =>
      stored.expected.modes.flatMap(({ index, abs_p_rms_normalised }) => {
        const rms = Math.sqrt(2) ** index.filter((n) => n !== 0).length;
        const shapes = STORED_POINTS.map(([x_m, y_m, z_m]) =>
          Math.abs(rms * modeShape_ratio(index, STORED_SIZE, { x_m, y_m, z_m })),
        );
        return pairsOf(shapes, abs_p_rms_normalised, (i) => `${index.join()} at point ${i}`);
      }),
  },
  {
    computation: 'number of modes',
    source: 'exact enumeration of five rooms, by hand-written loop elsewhere',
    unit: 'modes',
    tolerance: 0,
    because: 'counts are exact',
    count: 5,
    pairs: () =>
      (
        [
          [metres(5, 4, 3), 343, 100, 13],
          [metres(5, 4, 3), 343, 200, 76],
          [metres(5, 4, 3), 343, 300, 230],
          [metres(6, 4.5, 2.8), 343, 200, 95],
          [metres(4.7, 4.1, 3.1), 340, 200, 81],
        ] as const
      ).map(([size, c_m_s, limit_hz, expected]) => ({
        what: `${size.x_m} m to ${limit_hz} Hz`,
        actual: boxModes(size, c_m_s, limit_hz).length,
        expected,
      })),
  },
  {
    computation: 'number and density of modes by formula',
    source: 'Maa 1939, Bolt 1939: worked by another program',
    unit: 'modes, modes/Hz',
    tolerance: 0.0051,
    because: 'two decimals; density four',
    count: 5,
    pairs: () => {
      const room = metres(5, 4, 3);
      return [
        { what: 'N(100)', actual: modeCount(room, 343, 100), expected: 14.25 },
        { what: 'N(200)', actual: modeCount(room, 343, 200), expected: 78.42 },
        { what: 'N(300)', actual: modeCount(room, 343, 300), expected: 229.88 },
        { what: 'dN/df(100)', actual: modeDensity_per_hz(room, 343, 100), expected: 0.3298 },
        { what: 'dN/df(300)', actual: modeDensity_per_hz(room, 343, 300), expected: 2.0756 },
      ];
    },
  },
  {
    computation: 'modes in an octave',
    source:
      'Master Handbook of Acoustics pp. 217–219: 63 Hz octave of a 20.5 × 15 × 9.5 ft studio has 4, 6, 2',
    unit: 'modes',
    tolerance: 0,
    because:
      'counts printed; the octave taken as 45 to 90 Hz, sound as 1130 ft/s: neither is printed there',
    count: 3,
    pairs: () => {
      const modes = boxModes(feet(20.5, 15, 9.5), HANDBOOK_C_M_S, 90).filter(
        ({ frequency_hz }) => 45 <= frequency_hz,
      );
      return (['axial', 'tangential', 'oblique'] as const).map((kind, i) => ({
        what: kind,
        actual: modes.filter((mode) => mode.kind === kind).length,
        expected: [4, 6, 2][i] ?? Number.NaN,
      }));
    },
  },
  {
    computation: "Bonello's counts, 20 to 200 Hz",
    source:
      'Handbook for Sound Engineers p. 133 (verdict on 23 × 17 × 9 ft); counts by enumeration elsewhere',
    unit: 'modes',
    tolerance: 0,
    because: 'counts are exact',
    count: 55,
    pairs: () =>
      (
        [
          [feet(23, 17, 9), HANDBOOK_C_M_S, [0, 1, 1, 1, 1, 4, 8, 11, 23, 39, 79]],
          [feet(16, 12, 8), HANDBOOK_C_M_S, [0, 0, 1, 0, 1, 3, 3, 6, 10, 21, 33]],
          [feet(10, 10, 10), HANDBOOK_C_M_S, [0, 0, 0, 0, 0, 3, 3, 1, 12, 9, 22]],
          [metres(5, 4, 3), 343, [0, 0, 1, 1, 1, 3, 4, 8, 14, 26, 48]],
          [metres(6.36, 4.44, 3), 343, [0, 1, 0, 1, 2, 4, 6, 9, 22, 34, 62]],
        ] as const
      ).flatMap(([size, c_m_s, expected]) =>
        pairsOf(counts(size, c_m_s), expected, (i) => `${size.x_m.toFixed(2)} m, band ${i}`),
      ),
  },
  {
    computation: 'bounds of the proportion inequality',
    source: 'ITU-R BS.1116-3 §8.2.2.3, EBU Tech 3276 App. 2: worked by hand',
    unit: '',
    tolerance: 5.1e-4,
    because: 'three decimals',
    count: 7,
    pairs: () => {
      const paper = proportionInequality(proportions(6.36, 4.44, 3));
      const square = proportionInequality(proportions(4, 4, 3));
      const sepmeyer = proportionInequality({
        lengthToHeight_ratio: 1.39,
        widthToHeight_ratio: 1.14,
      });
      return [
        { what: '6.36 × 4.44 × 3 least', actual: paper.least_ratio, expected: 1.628 },
        { what: '6.36 × 4.44 × 3 is', actual: paper.lengthToHeight_ratio, expected: 2.12 },
        { what: '6.36 × 4.44 × 3 greatest', actual: paper.greatest_ratio, expected: 2.66 },
        { what: '4 × 4 × 3 least', actual: square.least_ratio, expected: 1.467 },
        { what: '4 × 4 × 3 is', actual: square.lengthToHeight_ratio, expected: 1.333 },
        { what: '1 : 1.14 : 1.39 greatest', actual: sepmeyer.greatest_ratio, expected: 1.13 },
        { what: '4 × 4 × 3 greatest', actual: square.greatest_ratio, expected: 2 },
      ];
    },
  },
];
