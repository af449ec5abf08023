// Air held against printed tables and independent data: speed of sound, density, absorption.
import {
  type AirState,
  density_kg_m3,
  ORDINARY_AIR,
  speedOfSound_m_s,
} from '../../../core/acoustics/air.ts';
import { airAbsorption_db_m } from '../../../core/acoustics/airAbsorption.ts';
import { exactFrequency_hz } from '../../../core/acoustics/thirdOctave.ts';
import { referenceData } from '../../support/referenceData.ts';
import { type Comparison, type Pair, pairsOf } from '../comparison.ts';

interface StoredState {
  readonly t_c: number;
  readonly rh_percent: number;
  readonly p_pa: number;
  readonly co2: number;
}
interface StoredAir {
  readonly speed: readonly (StoredState & {
    readonly c_cramer: number;
    readonly c_ideal_gas_mixture: number;
    readonly rho_cipm2007: number;
  })[];
  readonly absorption: readonly (StoredState & { readonly alpha_db_per_m: readonly number[] })[];
}

const { expected } = referenceData<StoredAir>('air');
const ABSORPTION_HZ = [63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000];

function state(
  celsius: number,
  percent: number,
  pressure_pa = 101_325,
  co2_ratio = 0.0004,
): AirState {
  return {
    temperature_k: celsius + 273.15,
    relativeHumidity_ratio: percent / 100,
    pressure_pa,
    co2_ratio,
  };
}

function stored(row: StoredState): AirState {
  return state(row.t_c, row.rh_percent, row.p_pa, row.co2);
}

function label(row: StoredState): string {
  return `${row.t_c} °C, ${row.rh_percent} %, ${row.p_pa} Pa, CO2 ${row.co2}`;
}

const TABLE_F1 = 'IEC 61094-2:2009 Table F.1';
/** Printed: 23 °C, 101 325 Pa, 50 % and 20 °C, 80 000 Pa, 65 %. */
const F1_STATES = [state(23, 50), state(20, 65, 80_000)] as const;

/** ISO 9613-2:1996 Table 2, dB/km in the octaves 63 Hz to 8 kHz; the print rounds to the digits shown. */
const ISO_9613_2_TABLE_2 = [
  { celsius: 10, percent: 70, db_km: [0.1, 0.4, 1, 1.9, 3.7, 9.7, 32.8, 117] },
  { celsius: 20, percent: 70, db_km: [0.1, 0.3, 1.1, 2.8, 5, 9, 22.9, 76.6] },
  { celsius: 30, percent: 70, db_km: [0.1, 0.3, 1, 3.1, 7.4, 12.7, 23.1, 59.3] },
  { celsius: 15, percent: 20, db_km: [0.3, 0.6, 1.2, 2.7, 8.2, 28.2, 88.8, 202] },
  { celsius: 15, percent: 50, db_km: [0.1, 0.5, 1.2, 2.2, 4.2, 10.8, 36.2, 129] },
  { celsius: 15, percent: 80, db_km: [0.1, 0.3, 1.1, 2.4, 4.1, 8.3, 23.7, 82.8] },
] as const;

/** Cells of that table whose print has whole numbers (8 kHz above 100), and the rest. */
function isoTable(whole: boolean): readonly Pair[] {
  return ISO_9613_2_TABLE_2.flatMap(({ celsius, percent, db_km }) =>
    db_km.flatMap((expected, i) => {
      const nominal_hz = 63 * 2 ** i;
      const exact_hz = exactFrequency_hz(nominal_hz);
      const actual = 1000 * airAbsorption_db_m(state(celsius, percent), exact_hz);
      const what = `${celsius} °C, ${percent} %, octave ${i} above 63 Hz`;
      return 100 < expected === whole ? [{ what, actual, expected }] : [];
    }),
  );
}

export const airCases: readonly Comparison[] = [
  {
    computation: 'speed of sound',
    source: TABLE_F1,
    unit: 'm/s',
    tolerance: 5e-6,
    because: 'half of the last digit printed',
    count: 2,
    pairs: () =>
      pairsOf(F1_STATES.map(speedOfSound_m_s), [345.86652, 344.38267], (i) => `row ${i}`),
  },
  {
    computation: 'density of air',
    source: TABLE_F1,
    unit: 'kg/m³',
    tolerance: 5.1e-8,
    because: 'half of the last digit printed',
    count: 2,
    pairs: () => pairsOf(F1_STATES.map(density_kg_m3), [1.1860848, 0.9441589], (i) => `row ${i}`),
  },
  {
    computation: 'speed of sound',
    source: 'Cramer 1993 by NumPy (stored data)',
    unit: 'm/s',
    tolerance: 1e-3,
    because:
      'the data has 0.04 % more or less water (another form of the humidity formula); the print of IEC 61094-2 decides',
    count: 96,
    pairs: () =>
      expected.speed.map((row) => ({
        what: label(row),
        actual: speedOfSound_m_s(stored(row)),
        expected: row.c_cramer,
      })),
  },
  {
    computation: 'speed of sound',
    source: 'ideal-gas mixture, a different formula (stored data)',
    unit: 'm/s',
    tolerance: 0.2,
    because: 'the mixture leaves out virial terms and dispersion',
    count: 96,
    pairs: () =>
      expected.speed.map((row) => ({
        what: label(row),
        actual: speedOfSound_m_s(stored(row)),
        expected: row.c_ideal_gas_mixture,
      })),
  },
  {
    computation: 'speed of sound',
    source: 'Cramer 1993, worked rows: 0 °C dry CO2 314 ppm; 20 °C 50 %; 30 °C 100 %',
    unit: 'm/s',
    tolerance: 0.001,
    because: 'rows worked to three decimals',
    count: 3,
    pairs: () => [
      { what: '0 °C', actual: speedOfSound_m_s(state(0, 0, 101_325, 314e-6)), expected: 331.455 },
      { what: '20 °C', actual: speedOfSound_m_s(ORDINARY_AIR), expected: 343.987 },
      { what: '30 °C', actual: speedOfSound_m_s(state(30, 100)), expected: 351.47 },
    ],
  },
  {
    computation: 'density of air',
    source: 'CIPM-2007 by NumPy (stored data)',
    unit: 'kg/m³',
    tolerance: 2e-5,
    relative: true,
    because: 'precision stated with the data',
    count: 96,
    pairs: () =>
      expected.speed.map((row) => ({
        what: label(row),
        actual: density_kg_m3(stored(row)),
        expected: row.rho_cipm2007,
      })),
  },
  {
    computation: 'absorption by air',
    source: 'ISO 9613-2:1996 Table 2, cells with one decimal',
    unit: 'dB/km',
    tolerance: 0.0515,
    because:
      'half of the last digit printed; one cell (15 °C, 80 %, 1 kHz) prints 4.1 where the formula gives 4.151',
    count: 45,
    pairs: () => isoTable(false),
  },
  {
    computation: 'absorption by air',
    source: 'ISO 9613-2:1996 Table 2, cells without decimals',
    unit: 'dB/km',
    tolerance: 0.5,
    because: 'half of the last digit printed',
    count: 3,
    pairs: () => isoTable(true),
  },
  {
    computation: 'absorption by air',
    source: 'ISO 9613-1 by NumPy (stored data)',
    unit: 'dB/m',
    tolerance: 1e-6,
    relative: true,
    because: 'precision stated with the data',
    count: 432,
    pairs: () =>
      expected.absorption.flatMap((row) =>
        pairsOf(
          ABSORPTION_HZ.map((frequency_hz) => airAbsorption_db_m(stored(row), frequency_hz)),
          row.alpha_db_per_m,
          (i) => `${label(row)}, ${ABSORPTION_HZ[i]} Hz`,
        ),
      ),
  },
];
