// Rule space/noise, and the figures that it reads: noise told as NR, NC, dBA and in bands.

import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nrCurve } from '../../../core/acoustics/noiseCurves.ts';
import {
  level_dba,
  ratingsOfCriterion,
  ratingsOfLevel,
} from '../../../core/acoustics/noiseOfOneFigure.ts';
import { noisePart } from '../../../core/parts/backgroundNoise.ts';
import { spaceNoise } from '../../../core/rules/space/noise.ts';
import type { BackgroundNoise } from '../../../schema/model/room.ts';
import { resolveText } from '../../resolve/small.ts';
import { expectNear } from '../../support/expectNear.ts';
import { findingsOf, told } from '../../support/findingsOf.ts';
import { EMPTY_ROOM, roomWith, spaceWith } from '../../support/rooms.ts';

/** 31.5 Hz to 8 kHz. */
const OCTAVES_HZ = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000];
/** @source ISO/R 1996:1971, AS 1469 Table 1, rounded as printed */
const NR_10_DB = [62.2, 43.4, 30.7, 21.3, 14.5, 10, 6.6, 4.2, 2.3];
const NR_15_DB = [65.6, 47.4, 35, 26, 19.4, 15, 11.7, 9.3, 7.5];

type Bands = NonNullable<BackgroundNoise['bands']>;

function noisy(given: Partial<BackgroundNoise>) {
  return roomWith({ space: spaceWith({ backgroundNoise: { nr: null, ...given } }) });
}

function bandsOf(levels: readonly (readonly [frequency_hz: number, level_db: number])[]): Bands {
  return levels.map(([frequency_hz, level_db]) => ({
    key: `${frequency_hz} Hz`,
    frequency_hz,
    level_db,
    weighting: 'Z' as const,
  }));
}

function octaves(levels_db: readonly number[]): Bands {
  return bandsOf(OCTAVES_HZ.map((frequency_hz, i) => [frequency_hz, levels_db[i] ?? 0]));
}

function dba(level_db: number): Partial<BackgroundNoise> {
  return { level: { level_db, weighting: 'A' } };
}

function severities(given: Partial<BackgroundNoise>): readonly string[] {
  return findingsOf(spaceNoise, noisy(given)).map(({ severity }) => severity);
}

describe('a noise rating', () => {
  test('above NR 15 (EBU Tech 3276, ITU-R BS.1116)', () => {
    expect(told(findingsOf(spaceNoise, noisy({ nr: 20 })))).toEqual([
      'space.background_noise.nr: Background noise of NR 20, at most NR 15 is asked for',
    ]);
  });

  test('NR 15, and no figure, quiet', () => {
    for (const room of [noisy({ nr: 15 }), noisy({}), EMPTY_ROOM]) {
      expect(findingsOf(spaceNoise, room)).toEqual([]);
    }
  });
});

describe('bands', () => {
  test('each band above the table of NR 15 is told at its line (ISO/R 1996 Table)', () => {
    // 40 dB at 125 Hz: (40 − 22.0)/0.87 = NR 20.7; 20 dB at 1 kHz: NR 20 by definition
    const levels = NR_10_DB.map((level_db, i) => (i === 2 ? 40 : i === 5 ? 20 : level_db));
    const findings = findingsOf(spaceNoise, noisy({ bands: octaves(levels) }));
    expect(findings.map(({ path }) => path.join('.'))).toEqual([
      'space.background_noise.bands.125 Hz',
      'space.background_noise.bands.1000 Hz',
    ]);
    expect(findings[1]?.message).toBe(
      'Background noise of 20.0 dB at 1 kHz: NR 20.0, at most 15.0 dB (NR 15) is asked for',
    );
    expect(findings[0]?.message).toContain('NR 20.7');
    expectNear(findings[0]?.limit?.value ?? 0, 35, 0.051, 'dB');
  });

  test('the printed curves themselves keep to the limits', () => {
    expect(severities({ bands: octaves(NR_10_DB) })).toEqual([]);
    // Not beyond NR 15, but what is preferred is NR 10.
    expect(severities({ bands: octaves(NR_15_DB) })).toEqual(['hint']);
    expect(severities({ bands: octaves(NR_15_DB.map((level_db) => level_db + 0.11)) })).toEqual(
      Array(9).fill('warning'),
    );
  });

  test('between the curves the band that decides has a hint', () => {
    const levels = NR_10_DB.map((level_db, i) => (i === 1 ? 45 : level_db - 1));
    // (45 − 35.5)/0.79 = NR 12.03 (ISO/R 1996)
    expect(told(findingsOf(spaceNoise, noisy({ bands: octaves(levels) })))).toEqual([
      'space.background_noise.bands.63 Hz: Background noise of NR 12.1, decided at 63 Hz: 45.0 dB, at most 43.4 dB (NR 10) is preferred',
    ]);
  });

  test('a spectrum equal to a curve rates as that curve, whichever bands of it are given', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -10, max: 80, noNaN: true }),
        fc.subarray([...OCTAVES_HZ], { minLength: 1 }),
        (nr, given_hz) => {
          const curve = nrCurve(nr).filter(({ nominal_hz }) => given_hz.includes(nominal_hz));
          const bands = bandsOf(curve.map(({ nominal_hz, level_db }) => [nominal_hz, level_db]));
          const { background } = noisePart(noisy({ bands }));
          expect(background?.bands.length).toBe(given_hz.length);
          expectNear(background?.nr ?? Number.NaN, nr, 1e-9, 'NR');
          for (const band of background?.bands ?? []) expectNear(band.nr, nr, 1e-9, 'NR');
        },
      ),
    );
  });

  test('any spectrum lies on or below the curve that rates it, and touches it where that is decided', () => {
    const level = fc.double({ min: -10, max: 90, noNaN: true });
    fc.assert(
      fc.property(fc.array(level, { minLength: 9, maxLength: 9 }), (levels_db) => {
        const { background } = noisePart(noisy({ bands: octaves(levels_db) }));
        const curve = nrCurve(background?.nr ?? Number.NaN);
        for (const [i, { nominal_hz, level_db }] of curve.entries()) {
          const given_db = levels_db[i] ?? Number.NaN;
          expect(given_db).toBeLessThanOrEqual(level_db + 1e-9);
          if (nominal_hz === background?.governing_hz) expectNear(given_db, level_db, 1e-9, 'dB');
        }
      }),
    );
  });

  test('third octaves are summed by power: three of 30 dB are 34.77 dB (10 lg 3)', () => {
    const thirds = bandsOf([
      [100, 30],
      [125, 30],
      [160, 30],
      [800, 10],
      [1000, 12],
    ]);
    const { background, notes } = noisePart(noisy({ bands: thirds }));
    expect(background?.bands.map(({ frequency_hz }) => frequency_hz)).toEqual([125]);
    expectNear(background?.bands[0]?.level_db ?? 0, 34.7712, 1e-4, 'dB');
    expect(notes.map(({ message }) => message)).toEqual([
      'Left out of the noise rating, as no whole octave of the NR curves: 800 Hz, 1000 Hz',
      'The noise rating is of the bands given; none at 63 Hz, 250 Hz, 500 Hz, 1 kHz, 2 kHz, 4 kHz, 8 kHz',
    ]);
  });

  test('of third octaves the loudest bears the finding', () => {
    const bands = bandsOf([
      [100, 30],
      [125, 45],
      [160, 30],
    ]);
    const [finding] = findingsOf(spaceNoise, noisy({ bands }));
    expect(finding?.path.at(-1)).toBe('125 Hz');
  });

  test('A-weighted bands are taken back to plain ones: −26.2 dB at 63 Hz (IEC 61672-1 Table 3)', () => {
    const bands: Bands = [{ key: '63 Hz', frequency_hz: 63, level_db: 20, weighting: 'A' }];
    const { background } = noisePart(noisy({ bands }));
    expectNear(background?.bands[0]?.level_db ?? 0, 46.2, 0.051, 'dB');
  });

  test('bands that no curve has leave no rating', () => {
    const { background, notes } = noisePart(noisy({ bands: bandsOf([[16, 60]]) }));
    expect(background?.nr).toBeNull();
    expect(notes.map(({ message }) => message)).toContain(
      'No noise rating: no octave from 31.5 Hz to 8 kHz is whole',
    );
    expect(severities({ bands: bandsOf([[16, 60]]) })).toEqual([]);
  });
});

describe('one figure', () => {
  test('NR 15 along the whole curve is 28.97 dBA', () => {
    // The printed row of NR 15 with IEC 61672-1 Table 3: 26.2 21.2 18.9 17.4 16.2 15 12.9 10.3 6.4 dB, added by hand
    expectNear(level_dba(nrCurve(15)), 28.97, 0.05, 'dBA');
  });

  test('a level above that of the curve is beyond it somewhere; one below is a matter of likelihood', () => {
    expect(severities(dba(30))).toEqual(['warning']);
    expect(findingsOf(spaceNoise, noisy(dba(30)))[0]?.path.at(-1)).toBe('level');
    // NR ≈ dBA − 5 … 8: common practice, no source. 25 dBA: NR 17 to 20; 23 dBA: NR 15 to 18
    expect(findingsOf(spaceNoise, noisy(dba(25)))[0]?.message).toBe(
      'Background noise of 25 dBA is usually about NR 17 to 20, at most NR 15 is asked for; a single figure hides tones, octave bands would tell',
    );
    expect(severities(dba(25))).toEqual(['information']);
    expect(severities(dba(23))).toEqual([]);
    expect(noisePart(noisy(dba(23))).notes[0]?.message).toContain('hides tones');
  });

  test('a level in dBC or unweighted is not judged, and says so', () => {
    for (const weighting of ['C', 'Z'] as const) {
      const given = { level: { level_db: 60, weighting } };
      expect(severities(given)).toEqual([]);
      expect(noisePart(noisy(given)).notes[0]?.message).toContain('cannot be held against');
    }
  });

  test('no noise of a level in dBA has a rating outside the range that is told', () => {
    const level = fc.double({ min: -30, max: 70, noNaN: true });
    fc.assert(
      fc.property(fc.array(level, { minLength: 9, maxLength: 9 }), (levels_db) => {
        const { background } = noisePart(noisy({ bands: octaves(levels_db) }));
        const { lower, upper } = ratingsOfLevel(background?.level_dba ?? Number.NaN);
        expect(background?.nr ?? Number.NaN).toBeGreaterThanOrEqual(lower - 1e-9);
        expect(background?.nr ?? Number.NaN).toBeLessThanOrEqual(upper + 1e-9);
      }),
    );
  });

  test('NC 20 is certainly above NR 15, NC 15 perhaps, NC 10 not', () => {
    // NC-20 (ANSI/ASA S12.2): 51 dB at 63 Hz is the lowest of its bands, (51 − 35.5)/0.79 = NR 19.62;
    // NC-15: 47 dB there, NR 14.56; 11 dB at 8 kHz the highest, (11 + 8)/1.03 = NR 18.45
    expectNear(ratingsOfCriterion(20).lower, 19.62, 0.005, 'NR');
    expectNear(ratingsOfCriterion(15).lower, 14.56, 0.005, 'NR');
    expectNear(ratingsOfCriterion(15).upper, 18.45, 0.005, 'NR');
    expect(told(findingsOf(spaceNoise, noisy({ nc: 20 })))).toEqual([
      'space.background_noise.nc: Background noise of NC 20 is NR 19.7 or more, at most NR 15 is asked for',
    ]);
    expect(severities({ nc: 15 })).toEqual(['information']);
    expect(severities({ nc: 10 })).toEqual([]);
  });
});

test('all four ways reach the room as numbers', () => {
  const noiseOf = (text: string) =>
    resolveText(`\nspace:\n  background_noise: ${text}\n`).room.space.backgroundNoise;
  expect(noiseOf('{ nr: 15 }')?.nr).toBe(15);
  expect(noiseOf('{ nc: 20 }')?.nc).toBe(20);
  expect(noiseOf('{ level: 22 dBA }')?.level).toEqual({ level_db: 22, weighting: 'A' });
  expect(noiseOf('{ bands: { 1 kHz: 12 dB, 63 Hz: 18 dBA } }')?.bands).toEqual([
    { key: '1 kHz', frequency_hz: 1000, level_db: 12, weighting: 'Z' },
    { key: '63 Hz', frequency_hz: 63, level_db: 18, weighting: 'A' },
  ]);
});
