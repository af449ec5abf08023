// The record: fingerprints by published vectors, drift by another program and by hand.

import { readFileSync } from 'node:fs';
import { thirdOctaves } from '../../../core/acoustics/thirdOctave.ts';
import type { MeasuredResponse, MeasuredTake } from '../../../core/measured/measuredFigures.ts';
import { digest16, digest32 } from '../../../core/record/fnv.ts';
import { bandLevel_db, responseDrift } from '../../../core/record/responseDrift.ts';
import { takeDrift } from '../../../core/record/takeDrift.ts';
import { EMPTY_TAKE } from '../../support/emptyTake.ts';
import { referenceData } from '../../support/referenceData.ts';
import { type Comparison, type Pair, pairsOf } from '../comparison.ts';

interface DriftData {
  readonly inputs: {
    readonly frequency_hz: readonly number[];
    readonly before_db: readonly number[];
    readonly after_db: readonly number[];
  };
  readonly expected: {
    readonly band_index: readonly number[];
    readonly nominal_hz: readonly number[];
    readonly before_db: readonly number[];
    readonly after_db: readonly number[];
    readonly mean_db: number;
    readonly rms_db: number;
    readonly worst_hz: number;
    readonly worst_db: number;
    readonly left_db: readonly number[];
  };
}

interface StoredSpeeds {
  readonly speed: readonly {
    readonly t_c: number;
    readonly rh_percent: number;
    readonly p_pa: number;
    readonly co2: number;
    readonly c_cramer: number;
  }[];
}

const DATA = JSON.parse(
  readFileSync(new URL('../../record/data/drift.json', import.meta.url), 'utf8'),
) as DriftData;
const NUMPY = 'NumPy and SciPy (quad), test/record/data/drift.py';

/** FNV-1a, 32 bits: the authors' list of vectors, as test suites repeat it. */
const VECTORS: readonly (readonly [string, number])[] = [
  ['', 0x811c9dc5],
  ['a', 0xe40c292c],
  ['b', 0xe70c2de5],
  ['c', 0xe60c2c52],
  ['d', 0xe10c2473],
  ['e', 0xe00c22e0],
  ['f', 0xe30c2799],
  ['fo', 0x6222e842],
  ['foo', 0xa9f37ed7],
  ['foob', 0x3f5076ef],
  ['fooba', 0x39aaa18a],
  ['foobar', 0xbf9cf968],
  ['ch', 0x5f299f4e],
  ['cho', 0xef8580f3],
];
/** Halves laid over each other, by hand. */
const FOLDED: readonly (readonly [string, number])[] = [
  ['foobar', 0xbf9c ^ 0xf968],
  ['a', 0xe40c ^ 0x292c],
  ['fo', 0x6222 ^ 0xe842],
];

function responseOf(level_db: readonly number[]): MeasuredResponse {
  const { frequency_hz } = DATA.inputs;
  return { frequency_hz, level_db, phase_rad: null, phaseFrom: null, smoothing: null };
}

function found() {
  return responseDrift(responseOf(DATA.inputs.before_db), responseOf(DATA.inputs.after_db));
}

function levelPairs(): readonly Pair[] {
  const { band_index, nominal_hz } = DATA.expected;
  return (['before_db', 'after_db'] as const).flatMap((when) =>
    pairsOf(
      band_index.map((index) => bandLevel_db(responseOf(DATA.inputs[when]), index) ?? Number.NaN),
      DATA.expected[when],
      (i) => `${when} ${nominal_hz[i]} Hz`,
    ),
  );
}

const QUIET: MeasuredTake = {
  take: 'left',
  path: [],
  drive: 'L',
  sounding: ['left'],
  seat: 'mix',
  at: null,
  ...EMPTY_TAKE,
  kind: 'impulse',
};

/** Drift of two takes at a distance, in air of two temperatures. */
function movedBy(
  earlier: Partial<MeasuredTake>,
  later: Partial<MeasuredTake>,
  distance_m: number | null,
  temperatures_k: readonly [number | null, number | null],
) {
  return takeDrift(
    { ...QUIET, ...earlier },
    { ...QUIET, ...later },
    {
      response: null,
      level_db: null,
      isJudged: true,
      limits: { moved_db: 1, from: 'practice' },
      distance_m,
      temperatures_k,
    },
  );
}

/** Metres; °C before and after. */
const BY_AIR = [
  [3.43, 20, 25],
  [2.1, 15, 20],
  [5, 25, 20],
] as const;

/** Of the stored speeds: half humid, at sea level. */
function storedSpeed_m_s(celsius: number): number {
  const { speed } = referenceData<StoredSpeeds>('air').expected;
  return (
    speed.find(
      ({ t_c, rh_percent, p_pa, co2 }) =>
        t_c === celsius && rh_percent === 50 && p_pa === 101_325 && co2 === 0.0004,
    )?.c_cramer ?? Number.NaN
  );
}

/** T20 before and after, octave; 2 √(σ₁² + σ₂²) with σ = 0.88 T √(1.19/(B T)), by hand, s. */
const DECAY_LIMITS = [
  [0.3, 0.36, 125, 0.1656],
  [0.3, 0.36, 1000, 0.0588],
  [0.25, 0.25, 500, 0.0722],
] as const;

function decayOf(frequency_hz: number, t20_s: number): Pick<MeasuredTake, 'octaves'> {
  const rest = { earlyDecay_s: null, t30_s: null, modalDecay_s: null };
  return { octaves: [{ frequency_hz, t20_s, ...rest }] };
}

export const recordCases: readonly Comparison[] = [
  {
    computation: 'digest of a fingerprint',
    source: 'FNV-1a, 32 bits (RFC 9923): the authors’ vectors, as public test suites repeat them',
    unit: '–',
    tolerance: 0,
    because: 'exact',
    count: VECTORS.length,
    pairs: () =>
      VECTORS.map(([text, expected]) => ({
        what: `"${text}"`,
        actual: Number.parseInt(digest32(text), 16),
        expected,
      })),
  },
  {
    computation: 'digest folded to 16 bits',
    source: 'RFC 9923, XOR folding: halves of the authors’ vectors, by hand',
    unit: '–',
    tolerance: 0,
    because: 'exact',
    count: FOLDED.length,
    pairs: () =>
      FOLDED.map(([text, expected]) => ({
        what: `"${text}"`,
        actual: Number.parseInt(digest16(text), 16),
        expected,
      })),
  },
  {
    computation: 'drift: third-octave levels',
    source: `mean power over the logarithm of frequency by ${NUMPY}`,
    unit: 'dB',
    tolerance: 0.05,
    because: 'thirteen readings a band instead of an integral',
    count: 2 * DATA.expected.band_index.length,
    pairs: levelPairs,
  },
  {
    computation: 'drift: what moved, band by band',
    source: `differences less their mean by ${NUMPY}`,
    unit: 'dB',
    tolerance: 0.05,
    because: 'thirteen readings a band instead of an integral',
    count: DATA.expected.left_db.length,
    pairs: () =>
      pairsOf(
        found()?.response.moved_db ?? [],
        DATA.expected.left_db,
        (i) => `${DATA.expected.nominal_hz[i]} Hz`,
      ),
  },
  {
    computation: 'drift: level, shape, worst band',
    source: `mean, root mean square and greatest by ${NUMPY}`,
    unit: 'dB, Hz',
    tolerance: 0.02,
    because: 'errors of bands average out',
    count: 4,
    pairs: () => {
      const drift = found();
      const { mean_db, rms_db, worst_hz, worst_db } = DATA.expected;
      const { rms_db: shape_db, worst } = drift?.response ?? {};
      return [
        { what: 'level', actual: drift?.mean_db ?? Number.NaN, expected: mean_db },
        { what: 'shape', actual: shape_db ?? Number.NaN, expected: rms_db },
        { what: 'worst', actual: worst?.moved_db ?? Number.NaN, expected: worst_db },
        { what: 'worst band', actual: worst?.frequency_hz ?? Number.NaN, expected: worst_hz },
      ];
    },
  },
  {
    computation: 'drift: arrival that the air explains',
    source: 'distance over the speeds of Cramer 1993 at 50 % humidity (stored data)',
    unit: 'ms',
    tolerance: 1e-4,
    because: 'the same formula in the data',
    count: BY_AIR.length,
    pairs: () =>
      BY_AIR.map(([distance_m, before, after]) => {
        const arrived = { arrival_s: 0.01, arrivalBy: 'peak' } as const;
        const kelvin = [before + 273.15, after + 273.15] as const;
        const { arrival } = movedBy(arrived, arrived, distance_m, kelvin);
        return {
          what: `${distance_m} m, ${before} to ${after} °C`,
          actual: 1000 * (arrival?.byAir_s ?? Number.NaN),
          expected:
            1000 * (distance_m / storedSpeed_m_s(after) - distance_m / storedSpeed_m_s(before)),
        };
      }),
  },
  {
    computation: 'drift: least change of T20',
    source: 'ISO 3382-2:2008, Eq. (2) (from memory), n = 10, N = 1: twice both deviations, by hand',
    unit: 's',
    tolerance: 2e-4,
    because: 'four decimals, exact or nominal edges of bands',
    count: DECAY_LIMITS.length,
    pairs: () =>
      DECAY_LIMITS.map(([before_s, after_s, frequency_hz, expected]) => ({
        what: `${before_s} s to ${after_s} s at ${frequency_hz} Hz`,
        actual:
          movedBy(decayOf(frequency_hz, before_s), decayOf(frequency_hz, after_s), null, [
            null,
            null,
          ]).decay[0]?.limit_s ?? Number.NaN,
        expected,
      })),
  },
  {
    computation: 'drift: bands that count',
    source: 'IEC 61260-1: third octaves from 25 Hz to 16 kHz lie whole between 20 Hz and 20 kHz',
    unit: 'Hz',
    tolerance: 0,
    because: 'names of bands',
    count: DATA.expected.nominal_hz.length,
    pairs: () =>
      pairsOf(
        found()?.response.frequency_hz ?? [],
        thirdOctaves(25, 16_000).map(({ nominal_hz }) => nominal_hz),
        (i) => `band ${i}`,
      ),
  },
];
