// Levels, exposure and noise curves held against definitions and printed tables.
import { coherentSum_db, uncorrelatedSum_db } from '../../../core/acoustics/decibel.ts';
import {
  allowedTime_s,
  dailyExposure_dbspl,
  dose_ratio,
  EU_LIMITS,
  euTime_s,
  NIOSH,
  OSHA,
  timeWeightedAverage_dbspl,
} from '../../../core/acoustics/exposure.ts';
import {
  bassSum_db,
  dbfsTo_dbu,
  dbuToVoltage_v,
  dbvTo_dbu,
  dbvToVoltage_v,
  pressureTo_dbspl,
  sinePeak_v,
  voltageTo_dbu,
} from '../../../core/acoustics/levels.ts';
import {
  ncCurve,
  noiseCriterion,
  noiseRating,
  nrCurve,
} from '../../../core/acoustics/noiseCurves.ts';
import { level_dba, ratingsOfCriterion } from '../../../core/acoustics/noiseOfOneFigure.ts';
import {
  channelReference_dbspl,
  volumeReference_dbspl,
} from '../../../core/acoustics/referenceLevel.ts';
import { thirdOctaves } from '../../../core/acoustics/thirdOctave.ts';
import { whiteNoiseLeft_db } from '../../../core/acoustics/whiteNoise.ts';
import { type Comparison, pairsOf } from '../comparison.ts';

const HOUR_S = 3600;
const HOURS_8_S = 8 * HOUR_S;

/** ISO/R 1996:1971, AS 1469 Table 1: NR 10 to 30, 31.5 Hz to 8 kHz. */
const NR_TABLE = [
  [10, 62.2, 43.4, 30.7, 21.3, 14.5, 10, 6.6, 4.2, 2.3],
  [15, 65.6, 47.4, 35, 26, 19.4, 15, 11.7, 9.3, 7.5],
  [20, 69, 51.3, 39.4, 30.6, 24.3, 20, 16.8, 14.4, 12.6],
  [25, 72.4, 55.2, 43.8, 35.2, 29.1, 25, 21.9, 19.5, 17.8],
  [30, 75.8, 59.2, 48.1, 39.9, 34, 30, 26.9, 24.6, 22.9],
] as const;

/** ANSI/ASA S12.2 tangency curves, 63 Hz to 8 kHz. */
const NC_TABLE = [
  [15, 47, 36, 29, 22, 17, 14, 12, 11],
  [20, 51, 40, 33, 26, 22, 19, 17, 16],
  [25, 54, 44, 37, 31, 27, 24, 22, 21],
  [30, 57, 48, 41, 35, 31, 29, 28, 27],
  [35, 60, 52, 45, 40, 36, 34, 33, 32],
  [40, 64, 56, 50, 45, 41, 39, 38, 37],
  [45, 67, 60, 54, 49, 46, 44, 43, 42],
  [50, 71, 64, 58, 54, 51, 49, 48, 47],
  [55, 74, 67, 62, 58, 56, 54, 53, 52],
] as const;

/** IEC 61672-1:2013 Table 3, A at 31.5 Hz to 8 kHz. */
const A_TABLE_DB = [-39.4, -26.2, -16.1, -8.6, -3.2, 0, 1.2, 1, -1.1] as const;

/** IEC 61672-1:2013 Table 3, A by third octaves, 20 Hz to 20 kHz (from memory). */
const A_THIRDS_DB = [
  -50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8,
  -3.2, -1.9, -0.8, 0, 0.6, 1, 1.2, 1.3, 1.2, 1, 0.5, -0.1, -1.1, -2.5, -4.3, -6.6, -9.3,
] as const;

/** A-weighted white noise of the first bands, by the table, re all of them. */
function hissBelow_db(bandCount: number): number {
  const powers = A_THIRDS_DB.map((a_db, index) => 10 ** ((13 + index + a_db) / 10));
  const sum = (all: readonly number[]) => all.reduce((total, power) => total + power, 0);
  return 10 * Math.log10(sum(powers.slice(0, bandCount)) / sum(powers));
}

export const levelCases: readonly Comparison[] = [
  {
    computation: 'A-weighted white noise below a band edge',
    source: 'IEC 61672-1:2013 Table 3 by third octaves (from memory)',
    unit: 'dB',
    tolerance: 0.1,
    because: 'the table has one decimal',
    count: 3,
    pairs: () =>
      [7, 10, 18].map((bandCount) => ({
        what: `${bandCount} third octaves from 20 Hz`,
        actual: whiteNoiseLeft_db(
          thirdOctaves(20, 20_000)
            .slice(0, bandCount)
            .map(({ exact_hz }) => ({ exact_hz, level_db: 0 })),
        ),
        expected: hissBelow_db(bandCount),
      })),
  },
  {
    computation: 'dBu, dBV and volts',
    source: 'definition (1 mW in 600 Ω); EBU R 68, SMPTE RP 155 voltages as printed',
    unit: 'V, dB',
    tolerance: 0.0051,
    because: 'two to four decimals printed',
    count: 10,
    pairs: () => [
      { what: '0 dBu', actual: dbuToVoltage_v(0), expected: 0.7746 },
      { what: '+4 dBu', actual: dbuToVoltage_v(4), expected: 1.228 },
      { what: '+24 dBu', actual: dbuToVoltage_v(24), expected: 12.277 },
      { what: '+18 dBu', actual: dbuToVoltage_v(18), expected: 6.153 },
      { what: '+18 dBu peak', actual: sinePeak_v(dbuToVoltage_v(18)), expected: 8.7 },
      { what: '+24 dBu peak', actual: sinePeak_v(dbuToVoltage_v(24)), expected: 17.36 },
      { what: '−10 dBV in dBu', actual: dbvTo_dbu(-10), expected: -7.78 },
      { what: '−10 dBV in V', actual: dbvToVoltage_v(-10), expected: 0.3162 },
      { what: '1 V in dBu', actual: voltageTo_dbu(1), expected: 2.218 },
      { what: '−20 dBFS at +24 dBu', actual: dbfsTo_dbu(-20, 24), expected: 4 },
    ],
  },
  {
    computation: 'sums of levels',
    source: 'worked by hand: two equal, four equal, five mains and LFE, five at 78 dB',
    unit: 'dB',
    tolerance: 0.0501,
    because: 'one and two decimals',
    count: 6,
    pairs: () => [
      { what: 'two uncorrelated', actual: uncorrelatedSum_db([0, 0]), expected: 3.01 },
      { what: 'two coherent', actual: coherentSum_db([0, 0]), expected: 6.02 },
      { what: 'four coherent', actual: coherentSum_db([0, 0, 0, 0]), expected: 12.04 },
      { what: 'five mains and LFE', actual: bassSum_db(5, true), expected: 18.2 },
      { what: 'five at 78.01', actual: uncorrelatedSum_db(Array(5).fill(78.01)), expected: 85 },
      { what: '1 Pa', actual: pressureTo_dbspl(1), expected: 93.98 },
    ],
  },
  {
    computation: 'reference level by channels',
    source: 'EBU Tech 3276 §2.5: 85 − 10 lg n (formula from memory), worked by hand',
    unit: 'dB',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 8,
    pairs: () =>
      pairsOf(
        [1, 2, 3, 5, 7, 9, 11, 12].map(channelReference_dbspl),
        [85, 81.99, 80.23, 78.01, 76.55, 75.46, 74.59, 74.21],
        (i) => `row ${i}`,
      ),
  },
  {
    computation: 'reference level by volume',
    source: 'ATSC A/85 (from memory, unverified); 60 m³ 76 dB: a magazine example, May 2014',
    unit: 'dB',
    tolerance: 0,
    because: 'whole numbers',
    count: 5,
    pairs: () =>
      pairsOf(
        [600, 300, 200, 60, 40].map(volumeReference_dbspl),
        [82, 80, 78, 76, 74],
        (i) => `row ${i}`,
      ),
  },
  {
    computation: 'allowed exposure time',
    source: 'NIOSH 98-126 printed times; OSHA 29 CFR 1910.95 Table G-16',
    unit: 's',
    tolerance: 1e-9,
    because: 'exact halvings',
    count: 9,
    pairs: () => [
      ...pairsOf(
        [85, 88, 91, 94, 97, 100].map((level) => allowedTime_s(level, NIOSH)),
        [8, 4, 2, 1, 0.5, 0.25].map((hours) => hours * HOUR_S),
        (i) => `NIOSH ${85 + 3 * i} dBA`,
      ),
      ...pairsOf(
        [95, 100, 105].map((level) => allowedTime_s(level, OSHA)),
        [4, 2, 1].map((hours) => hours * HOUR_S),
        (i) => `OSHA ${95 + 5 * i} dBA`,
      ),
    ],
  },
  {
    computation: 'dose and daily exposure',
    source: 'NIOSH, OSHA, ISO 1999 formulas, days worked by hand; EU table: 98 dBA for 7.6 min',
    unit: 'ratio, dBA, min',
    tolerance: 0.04,
    because: 'two decimals; the minutes one',
    count: 6,
    pairs: () => {
      const day = [
        { level_dbspl: 91, time_s: 2 * HOUR_S },
        { level_dbspl: 85, time_s: 4 * HOUR_S },
      ];
      const loud = [{ level_dbspl: 95, time_s: HOURS_8_S }];
      const long = [{ level_dbspl: 82, time_s: 10 * HOUR_S }];
      const [lower] = EU_LIMITS;
      return [
        { what: 'NIOSH dose', actual: dose_ratio(day, NIOSH), expected: 1.5 },
        { what: 'NIOSH average', actual: timeWeightedAverage_dbspl(1.5, NIOSH), expected: 86.76 },
        { what: 'OSHA dose', actual: dose_ratio(loud, OSHA), expected: 2 },
        { what: 'OSHA average', actual: timeWeightedAverage_dbspl(2, OSHA), expected: 95 },
        { what: '82 dBA for 10 h', actual: dailyExposure_dbspl(long), expected: 82.97 },
        {
          what: '98 dBA, EU',
          actual: lower ? euTime_s(98, lower) / 60 : Number.NaN,
          expected: 7.6,
        },
      ];
    },
  },
  {
    computation: 'EU peak limits',
    source: 'Directive 2003/10/EC Article 3: 112, 140, 200 Pa are 135, 137, 140 dBC',
    unit: 'dB',
    tolerance: 0.11,
    because: 'the directive rounds to whole decibels',
    count: 3,
    pairs: () =>
      EU_LIMITS.map(({ name, peak_pa, peak_dbspl }) => ({
        what: name,
        actual: pressureTo_dbspl(peak_pa),
        expected: peak_dbspl,
      })),
  },
  {
    computation: 'NR curves',
    source: 'ISO/R 1996:1971, AS 1469 Table 1 constants; rows worked by another program',
    unit: 'dB',
    tolerance: 0.0501,
    because: 'one decimal',
    count: 45,
    pairs: () =>
      NR_TABLE.flatMap(([rating, ...levels]) =>
        pairsOf(
          nrCurve(rating).map(({ level_db }) => level_db),
          levels,
          (i) => `NR ${rating}, band ${i}`,
        ),
      ),
  },
  {
    computation: 'NR of a measurement',
    source: 'ISO/R 1996:1971: the curve itself rates as itself, one band 5 dB up by 5/b',
    unit: 'NR',
    tolerance: 1e-9,
    because: 'exact',
    count: 2,
    pairs: () => {
      const curve = nrCurve(20);
      const raised = curve.map(({ nominal_hz, level_db }) => ({
        nominal_hz,
        level_db: level_db + (nominal_hz === 125 ? 5 : 0),
      }));
      return [
        { what: 'NR 20', actual: noiseRating(curve)?.rating ?? Number.NaN, expected: 20 },
        {
          what: '125 Hz up 5 dB',
          actual: noiseRating(raised)?.rating ?? Number.NaN,
          expected: 20 + 5 / 0.87,
        },
      ];
    },
  },
  {
    computation: 'A-weighted level of NR curves',
    source:
      'ISO/R 1996:1971 levels and IEC 61672-1:2013 Table 3 A weighting as printed, added by power',
    unit: 'dBA',
    tolerance: 0.1,
    because: 'two figures of one decimal a band',
    count: 5,
    pairs: () =>
      NR_TABLE.map(([rating, ...levels]) => ({
        what: `NR ${rating}`,
        actual: level_dba(nrCurve(rating)),
        expected:
          10 *
          Math.log10(
            levels.reduce<number>(
              (sum, level_db, i) => sum + 10 ** ((level_db + (A_TABLE_DB[i] ?? 0)) / 10),
              0,
            ),
          ),
      })),
  },
  {
    computation: 'NR that an NC curve can be',
    source:
      'ANSI/ASA S12.2 curves as printed, (L − a)/b of ISO/R 1996 by hand: NC-15 63 Hz and 8 kHz, NC-20 63 Hz',
    unit: 'NR',
    tolerance: 0.005,
    because: 'two decimals worked',
    count: 3,
    pairs: () => [
      { what: 'NC-15 least', actual: ratingsOfCriterion(15).lower, expected: 14.557 },
      { what: 'NC-15 most', actual: ratingsOfCriterion(15).upper, expected: 18.447 },
      { what: 'NC-20 least', actual: ratingsOfCriterion(20).lower, expected: 19.62 },
    ],
  },
  {
    computation: 'NC curves',
    source: 'ANSI/ASA S12.2 tangency curves: NC-15 to NC-55 as printed',
    unit: 'dB',
    tolerance: 0,
    because: 'whole numbers',
    count: 72,
    pairs: () =>
      NC_TABLE.flatMap(([rating, ...levels]) =>
        pairsOf(levelsOf(rating), levels, (i) => `NC-${rating}, band ${i}`),
      ),
  },
  {
    computation: 'NC of a measurement',
    source:
      'ANSI/ASA S12.2 tangency: a curve rates as itself; 19 dB at 1 kHz by hand between 17 and 22',
    unit: 'NC',
    tolerance: 1e-9,
    because: 'exact',
    count: 2,
    pairs: () => [
      {
        what: 'NC-25',
        actual: noiseCriterion(ncCurve(25) ?? [])?.rating ?? Number.NaN,
        expected: 25,
      },
      {
        what: '19 dB at 1 kHz',
        actual: noiseCriterion([{ nominal_hz: 1000, level_db: 19 }])?.rating ?? Number.NaN,
        expected: 17,
      },
    ],
  },
];

function levelsOf(rating: number): readonly number[] {
  return (ncCurve(rating) ?? []).map(({ level_db }) => level_db);
}
