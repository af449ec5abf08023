// Judging of takes: the masks of the listening-room standards, bands, averages, all by the printed figures or by hand.

import { octaves, thirdOctaves } from '../../../core/acoustics/thirdOctave.ts';
import { averageOf } from '../../../core/measured/averageOf.ts';
import type { MeasuredResponse, MeasuredTake } from '../../../core/measured/measuredFigures.ts';
import { maskFloor_db, outsideMask, outsideTarget } from '../../../core/measured/responseMask.ts';
import { sessionDecay } from '../../../core/measured/sessionDecay.ts';
import { thirdOctaveLevels } from '../../../core/measured/thirdOctaveLevels.ts';
import { decayMask_s } from '../../../core/rules/decayMask.ts';
import { EMPTY_TAKE } from '../../support/emptyTake.ts';
import { type Comparison, type Pair, pairsOf } from '../comparison.ts';

/** −3 dB to 2 kHz, then 1 dB an octave down to −6 dB at 16 kHz. */
const FLOORS = [
  [50, -3],
  [200, -3],
  [2000, -3],
  [2828.427, -3.5],
  [4000, -4],
  [8000, -5],
  [16_000, -6],
] as const;

/** Band, least, most, at 0.25 s (100 m³): ±0.05 s, to +0.3 s at 63 Hz straight over log f, ±0.1 s above 4 kHz. By hand. */
const DECAY_MASK = [
  [63, 0.2, 0.55],
  [80, 0.2, 0.4983],
  [100, 0.2, 0.45],
  [125, 0.2, 0.4017],
  [160, 0.2, 0.3483],
  [200, 0.2, 0.3],
  [500, 0.2, 0.3],
  [4000, 0.2, 0.3],
  [8000, 0.15, 0.35],
] as const;

/** One octave of the mean of takes: what the mask is held against. @source ISO 3382-2: arithmetic mean of the times of all positions */
function meanDecayPairs(): readonly Pair[] {
  const take = (t20_s: number | null, t30_s: number | null): MeasuredTake => ({
    ...takeOf('x', flat(0), null),
    octaves: [{ frequency_hz: 500, earlyDecay_s: null, t20_s, t30_s, modalDecay_s: null }],
  });
  const [mean] = sessionDecay({ takes: [take(0.24, null), take(0.3, 0.5), take(null, 0.36)] });
  return [
    {
      what: '0.24, 0.30 and, by T30, 0.36 s',
      actual: mean?.decayTime_s ?? Number.NaN,
      expected: 0.3,
    },
    { what: 'positions', actual: mean?.count ?? Number.NaN, expected: 3 },
  ];
}

/** Third octaves from 50 Hz to 16 kHz, flat but for some. */
function bandsWith(off_db: Readonly<Record<number, number>>) {
  return thirdOctaves(50, 16_000).map((band) => ({ band, level_db: off_db[band.nominal_hz] ?? 0 }));
}

/** The mean from 200 Hz to 4 kHz is of 14 bands: one of them 5 dB up lifts it by 5/14. By hand. */
function maskPairs(): readonly Pair[] {
  const offs = outsideMask(bandsWith({ 1000: 5, 63: -3.5, 8000: -5 })) ?? [];
  const of = (nominal_hz: number) => offs.find(({ band }) => band.nominal_hz === nominal_hz);
  const row = (nominal_hz: number, expected: number): Pair => ({
    what: `beyond at ${nominal_hz} Hz`,
    actual: of(nominal_hz)?.beyond_db ?? Number.NaN,
    expected,
  });
  const shift = 5 / 14;
  return [
    row(1000, 5 - shift - 3),
    row(63, 3.5 + shift - 3),
    row(8000, 5 + shift - 5),
    { what: 'bands outside', actual: offs.length, expected: 3 },
  ];
}

/** A target laid through the median; ±3 dB. By hand. */
function targetPairs(): readonly Pair[] {
  const slope_db = (f_hz: number) => -Math.log10(f_hz / 1000);
  const levels = thirdOctaves(50, 16_000).map((band) => ({
    band,
    level_db: 70 + slope_db(band.exact_hz) + (band.nominal_hz === 80 ? 4.5 : 0),
  }));
  const offs = outsideTarget(levels, slope_db, 3);
  return [
    { what: 'off at 80 Hz', actual: offs[0]?.off_db ?? Number.NaN, expected: 4.5 },
    { what: 'beyond', actual: offs[0]?.beyond_db ?? Number.NaN, expected: 1.5 },
    { what: 'bands', actual: offs.length, expected: 1 },
  ];
}

const GRID_HZ = Array.from({ length: 241 }, (_, i) => 20 * 2 ** (i / 24));

function flat(level_db: number, phase_rad: number | null = null): MeasuredResponse {
  return {
    frequency_hz: GRID_HZ,
    level_db: GRID_HZ.map(() => level_db),
    phase_rad: phase_rad === null ? null : GRID_HZ.map(() => phase_rad),
    phaseFrom: phase_rad === null ? null : 'playing',
    smoothing: 6,
  };
}

function takeOf(id: string, response: MeasuredResponse, drive: string | null): MeasuredTake {
  return {
    take: id,
    path: [],
    drive,
    sounding: ['left'],
    seat: 'mix',
    at: null,
    ...EMPTY_TAKE,
    kind: 'impulse',
    response,
  };
}

const SIX_DB = 20 * Math.log10(2);

/** Two takes, one twice the pressure of the other: (1 + 4)/2, √2, |1 + 2e^{jφ}|/2. By hand. */
const AVERAGES = [
  ['power', 0, 3.9794],
  ['level', 0, 3.0103],
  ['vector', 0, 3.5218],
  ['vector', Math.PI / 2, 0.9691],
  ['vector', Math.PI, -6.0206],
] as const;

function averagePairs(): readonly Pair[] {
  return AVERAGES.map(([by, apart_rad, expected]) => {
    const takes = [takeOf('one', flat(0, 0), 'L'), takeOf('two', flat(SIX_DB, apart_rad), 'L')];
    const average = { id: 'both', path: [], takes: ['one', 'two'], by };
    const levels = averageOf(average, takes).response?.level_db ?? [];
    return {
      what: `${by}, ${Math.round((apart_rad * 180) / Math.PI)}° apart`,
      actual: levels[120] ?? Number.NaN,
      expected,
    };
  });
}

/** Points of a band at 0 dB but for one of 10 dB: 8 points a third octave, 10 lg((7 + 10)/8). By hand. */
function bandPairs(): readonly Pair[] {
  const raised = flat(0);
  const at = GRID_HZ.findIndex((f_hz) => 990 < f_hz);
  const level_db = raised.level_db.map((level, i) => (i === at ? 10 : level));
  const levels = thirdOctaveLevels({ frequency_hz: GRID_HZ, level_db }, 800, 1250);
  return pairsOf(
    levels.map((one) => one.level_db),
    [0, 10 * Math.log10(17 / 8), 0],
    (i) => `${levels[i]?.band.nominal_hz} Hz`,
  );
}

const ROOM_RESPONSE =
  'operational room response, ITU-R BS.1116-3, EBU Tech 3276: ±3 dB from 50 Hz, from 2 kHz 1 dB an octave down (from memory)';

export const judgingCases: readonly Comparison[] = [
  {
    computation: 'mask of a room’s response: its floor',
    source: ROOM_RESPONSE,
    unit: 'dB',
    tolerance: 1e-6,
    because: 'exact',
    count: FLOORS.length,
    pairs: () =>
      FLOORS.map(([f_hz, expected]) => ({
        what: `${f_hz} Hz`,
        actual: maskFloor_db(f_hz),
        expected,
      })),
  },
  {
    computation: 'mask of a room’s response: breaches',
    source: `${ROOM_RESPONSE}; three bands moved, by hand`,
    unit: 'dB',
    tolerance: 0.004,
    because: 'the floor at the nominal or the exact middle of a band',
    count: 4,
    pairs: maskPairs,
  },
  {
    computation: 'mask of decay times, 100 m³',
    source:
      'ITU-R BS.1116-3 §8.2.3.1 (±0.05 s), EBU Tech 3276: to +0.3 s at 63 Hz, ±0.1 s above 4 kHz (from memory); by hand',
    unit: 's',
    tolerance: 1e-4,
    because: 'four decimals',
    count: 2 * DECAY_MASK.length,
    pairs: () =>
      DECAY_MASK.flatMap(([f_hz, least, most]) => {
        const mask = decayMask_s(0.25, f_hz, null);
        return [
          { what: `least at ${f_hz} Hz`, actual: mask?.least_s ?? Number.NaN, expected: least },
          { what: `most at ${f_hz} Hz`, actual: mask?.most_s ?? Number.NaN, expected: most },
        ];
      }),
  },
  {
    computation: 'octaves that the decay mask covers',
    source: 'EBU Tech 3276: 63 Hz to 8 kHz (from memory)',
    unit: '–',
    tolerance: 0,
    because: 'inside or outside',
    count: 11,
    pairs: () =>
      octaves(16, 16_000).map(({ nominal_hz }) => ({
        what: `${nominal_hz} Hz`,
        actual: decayMask_s(0.25, nominal_hz, null) === null ? 0 : 1,
        expected: 63 <= nominal_hz && nominal_hz <= 8000 ? 1 : 0,
      })),
  },
  {
    computation: 'decay times of a session',
    source: 'ISO 3382-2: arithmetic mean over positions, by hand',
    unit: 's, –',
    tolerance: 1e-12,
    because: 'exact',
    count: 2,
    pairs: meanDecayPairs,
  },
  {
    computation: 'distance from a target curve',
    source: 'one band 4.5 dB up on a slope, through the median, ±3 dB, by hand',
    unit: 'dB, –',
    tolerance: 1e-9,
    because: 'exact',
    count: 3,
    pairs: targetPairs,
  },
  {
    computation: 'averages of two takes',
    source: 'mean of powers, of decibels, of pressures with phase: one twice the other, by hand',
    unit: 'dB',
    tolerance: 1e-4,
    because: 'four decimals',
    count: AVERAGES.length,
    pairs: averagePairs,
  },
  {
    computation: 'third octaves of a take',
    source: 'mean power of eight points, one of them ten times the others, by hand',
    unit: 'dB',
    tolerance: 1e-9,
    because: 'exact',
    count: 3,
    pairs: bandPairs,
  },
];
