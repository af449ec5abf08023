// Damping of modes and reverberation held against books and hand-worked rows.
import { boxMeasures, type ModeOrder } from '../../../core/acoustics/boxModes.ts';
import {
  decayConstant_per_s,
  modal_q,
  modalBandwidth_hz,
  modalDecayTime_s,
} from '../../../core/acoustics/modalDecay.ts';
import {
  type AbsorbingArea,
  arauPuchades_s,
  criticalDistance_m,
  eyring_s,
  fitzroy_s,
  meanReverberationTarget_s,
  type OppositePairs,
  sabine_s,
  schroederFrequency_hz,
} from '../../../core/acoustics/reverberation.ts';
import { type Comparison, pairsOf } from '../comparison.ts';

const SIZE = { x_m: 6, y_m: 4.5, z_m: 2.8 };
const TENTHS = [0.1, 0.1, 0.1, 0.1, 0.1, 0.1] as const;
const C_M_S = 343;
/** Speed at which 24 ln 10/c is exactly 0.161, for rows worked with that constant. */
const C_OF_0161_M_S = (24 * Math.LN10) / 0.161;
const { volume_m3, surface_m2 } = boxMeasures(SIZE);

function room(speedOfSound_m_s: number, volume = volume_m3) {
  return { volume_m3: volume, speedOfSound_m_s, airLoss_per_m: 0 };
}

const PAIRS: OppositePairs = [
  [{ area_m2: 25.2, absorption_ratio: 0.1 }],
  [{ area_m2: 33.6, absorption_ratio: 0.2 }],
  [{ area_m2: 54, absorption_ratio: 0.3 }],
];

/** Master Handbook of Acoustics, reverberation examples: 23.3 × 16 × 10 ft, 0.049 V = 182.7 in feet. */
const HANDBOOK = {
  floor: [0.01, 0.01, 0.015, 0.02, 0.02, 0.02],
  gypsum: [0.29, 0.1, 0.05, 0.04, 0.07, 0.09],
  tile: [0.09, 0.28, 0.78, 0.84, 0.73, 0.64],
  example1: { 0: 0.54, 3: 3.39 },
  example2: [0.49, 0.85, 0.56, 0.54, 0.54, 0.55],
};
const SQUARE_FOOT_M2 = 0.3048 ** 2;
const CUBIC_FOOT_M3 = 0.3048 ** 3;
/** Speed at which the book's 0.049 V/A in feet is 24 ln 10/c V/A in metres. */
const HANDBOOK_C_M_S = (24 * Math.LN10 * 0.3048) / 0.049;

function handbook_s(band: number, withTile: boolean): number {
  const surfaces: AbsorbingArea[] = [
    { area_m2: 373 * SQUARE_FOOT_M2, absorption_ratio: HANDBOOK.floor[band] ?? Number.NaN },
    { area_m2: 1159 * SQUARE_FOOT_M2, absorption_ratio: HANDBOOK.gypsum[band] ?? Number.NaN },
  ];
  if (withTile) {
    const absorption_ratio = HANDBOOK.tile[band] ?? Number.NaN;
    surfaces.push({ area_m2: 340 * SQUARE_FOOT_M2, absorption_ratio });
  }
  return sabine_s(surfaces, room(HANDBOOK_C_M_S, 3728 * CUBIC_FOOT_M3)) ?? Number.NaN;
}

function uniform(absorption_ratio: number): readonly AbsorbingArea[] {
  return [{ area_m2: surface_m2, absorption_ratio }];
}

const T_S = [0.2, 0.25, 0.3, 0.4, 0.5];

export const decayCases: readonly Comparison[] = [
  {
    computation: 'Schroeder frequency',
    source:
      'Kuttruff, Room Acoustics, 6th ed., p. 68 and Eq. (3.44); two rows of a published table',
    unit: 'Hz',
    tolerance: 0.005,
    because: 'two decimals',
    count: 3,
    pairs: () => [
      { what: '200 m³, 1 s', actual: schroederFrequency_hz(1, 200), expected: 141.42 },
      { what: '100 m³, 0.3 s', actual: schroederFrequency_hz(0.3, 100), expected: 109.545 },
      { what: '60 m³, 0.35 s', actual: schroederFrequency_hz(0.35, 60), expected: 152.753 },
    ],
  },
  {
    computation: 'decay constant, bandwidth and Q of modes',
    source: 'Kuttruff, Room Acoustics, ch. 3: δ = 6.908/T, B = 2.2/T; worked by hand',
    unit: '1/s, Hz, –',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 15,
    pairs: () => [
      ...pairsOf(
        T_S.map(decayConstant_per_s),
        [34.54, 27.63, 23.03, 17.27, 13.82],
        (i) => `δ ${i}`,
      ),
      ...pairsOf(T_S.map(modalBandwidth_hz), [10.99, 8.8, 7.33, 5.5, 4.4], (i) => `B ${i}`),
      ...pairsOf(
        T_S.map((t_s) => modal_q(50, t_s)),
        [4.55, 5.68, 6.82, 9.1, 11.37],
        (i) => `Q ${i}`,
      ),
    ],
  },
  {
    computation: 'decay time of single modes',
    source:
      'Morse & Ingard, Theoretical Acoustics, ch. 9 (perturbation): worked for 6 × 4.5 × 2.8 m, α 0.1',
    unit: 's',
    tolerance: 6e-4,
    because: 'three decimals, worked with 6.908 for 3 ln 10',
    count: 5,
    pairs: () => {
      const orders: readonly ModeOrder[] = [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
        [1, 1, 0],
        [1, 1, 1],
      ];
      return pairsOf(
        orders.map((order) => modalDecayTime_s(order, SIZE, C_M_S, TENTHS) ?? Number.NaN),
        [1.7652, 1.664, 1.461, 1.42, 1.0798],
        (i) => `${orders[i]}`,
      );
    },
  },
  {
    computation: 'reverberation by Sabine',
    source: 'Master Handbook of Acoustics, two worked examples (printed)',
    unit: 's',
    tolerance: 0.0061,
    because: 'printed to two decimals, sabins rounded on the way',
    count: 8,
    pairs: () => [
      ...Object.entries(HANDBOOK.example1).map(([band, expected]) => ({
        what: `example 1, octave ${band} above 125 Hz`,
        actual: handbook_s(Number(band), false),
        expected,
      })),
      ...pairsOf(
        HANDBOOK.example2.map((_, band) => handbook_s(band, true)),
        HANDBOOK.example2,
        (i) => `example 2, octave ${i} above 125 Hz`,
      ),
    ],
  },
  {
    computation: 'reverberation by Sabine and Eyring',
    source: 'both formulas for 6 × 4.5 × 2.8 m, α 0.1 to 0.4, worked by another program',
    unit: 's',
    tolerance: 5.1e-5,
    because: 'four decimals',
    count: 8,
    pairs: () => {
      const alphas = [0.1, 0.2, 0.3, 0.4];
      return [
        ...pairsOf(
          alphas.map((alpha) => sabine_s(uniform(alpha), room(C_OF_0161_M_S)) ?? Number.NaN),
          [1.079, 0.5395, 0.3597, 0.2698],
          (i) => `Sabine ${alphas[i]}`,
        ),
        ...pairsOf(
          alphas.map((alpha) => eyring_s(uniform(alpha), room(C_M_S)) ?? Number.NaN),
          [1.0249, 0.4839, 0.3027, 0.2114],
          (i) => `Eyring ${alphas[i]}`,
        ),
      ];
    },
  },
  {
    computation: 'reverberation with uneven absorption',
    source:
      'Sabine, Eyring, Fitzroy 1959, Arau-Puchades 1988 for pairs of 0.1, 0.2, 0.3, worked by another program',
    unit: 's',
    tolerance: 5.1e-5,
    because: 'four decimals',
    count: 4,
    pairs: () => {
      const air = room(C_OF_0161_M_S);
      return [
        { what: 'Sabine', actual: sabine_s(PAIRS.flat(), air) ?? Number.NaN, expected: 0.4784 },
        { what: 'Eyring', actual: eyring_s(PAIRS.flat(), air) ?? Number.NaN, expected: 0.4222 },
        { what: 'Fitzroy', actual: fitzroy_s(PAIRS, air) ?? Number.NaN, expected: 0.5177 },
        {
          what: 'Arau-Puchades',
          actual: arauPuchades_s(PAIRS, air) ?? Number.NaN,
          expected: 0.4568,
        },
      ];
    },
  },
  {
    computation: 'mean reverberation asked for',
    source: 'EBU Tech 3276 (1998): 0.25 (V/100)^(1/3), worked for nine volumes',
    unit: 's',
    tolerance: 5.1e-4,
    because: 'three decimals',
    count: 9,
    pairs: () =>
      (
        [
          [30, 0.167],
          [42, 0.187],
          [60, 0.211],
          [75, 0.227],
          [100, 0.25],
          [139.593, 0.2794],
          [150, 0.286],
          [200, 0.315],
          [300, 0.361],
        ] as const
      ).map(([v_m3, expected]) => ({
        what: `${v_m3} m³`,
        actual: meanReverberationTarget_s(v_m3),
        expected,
      })),
  },
  {
    computation: 'critical distance',
    source: '0.057 √(QV/T), Kuttruff (from memory), 60 m³ 0.25 s',
    unit: 'm',
    tolerance: 5.1e-4,
    because: 'three decimals',
    count: 1,
    pairs: () => [{ what: '60 m³', actual: criticalDistance_m(60, 0.25, 1), expected: 0.883 }],
  },
];
