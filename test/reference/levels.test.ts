// Levels and noise: round trips, sums, and what has no answer.
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  amplitude_db,
  amplitude_ratio,
  coherentSum_db,
  power_db,
  power_ratio,
  uncorrelatedSum_db,
} from '../../core/acoustics/decibel.ts';
import {
  allowedTime_s,
  dose_ratio,
  NIOSH,
  timeWeightedAverage_dbspl,
} from '../../core/acoustics/exposure.ts';
import {
  bassSum_db,
  dbfsTo_dbu,
  dbuTo_dbfs,
  dbuTo_dbv,
  dbuToVoltage_v,
  dbvTo_dbu,
  dbvToVoltage_v,
  overload_db,
  voltageTo_dbu,
  voltageTo_dbv,
} from '../../core/acoustics/levels.ts';
import { ncCurve, noiseCriterion, noiseRating, nrCurve } from '../../core/acoustics/noiseCurves.ts';
import {
  channelReference_dbspl,
  VOLUME_REFERENCES,
  volumeReference_dbspl,
} from '../../core/acoustics/referenceLevel.ts';
import { expectNear } from '../support/expectNear.ts';

const level = fc.double({ min: -80, max: 30, noNaN: true });

test('every conversion comes back', () => {
  fc.assert(
    fc.property(level, (l) => {
      const back = [
        voltageTo_dbu(dbuToVoltage_v(l)),
        voltageTo_dbv(dbvToVoltage_v(l)),
        dbuTo_dbv(dbvTo_dbu(l)),
        dbuTo_dbfs(dbfsTo_dbu(l, 18), 18),
        amplitude_db(amplitude_ratio(l)),
        power_db(power_ratio(l)),
      ];
      expectNear(
        back,
        back.map(() => l),
        1e-9,
        'dB',
      );
    }),
  );
});

test('uncorrelated sums lie between the greatest and the coherent sum', () => {
  fc.assert(
    fc.property(fc.array(level, { minLength: 2, maxLength: 12 }), (levels_db) => {
      const sum_db = uncorrelatedSum_db(levels_db);
      expect(sum_db).toBeGreaterThanOrEqual(Math.max(...levels_db));
      expect(sum_db).toBeLessThanOrEqual(coherentSum_db(levels_db) + 1e-9);
    }),
  );
});

test('a sum of nothing is minus infinity', () => {
  expect([uncorrelatedSum_db([]), coherentSum_db([]), bassSum_db(0, false)]).toEqual(
    Array(3).fill(-Infinity),
  );
});

test('a +24 dBu output into a +18 dBu input needs a pad of 6 dB (by hand)', () => {
  expect(overload_db(24, 18)).toBe(6);
});

test('no voltage has no level', () => {
  expect(() => voltageTo_dbu(0)).toThrow('voltage_v must be > 0, got 0');
});

test('n loudspeakers at their reference make 85 dBA together, for any n', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 24 }), (count) => {
      const each = Array.from({ length: count }, () => channelReference_dbspl(count));
      expectNear(uncorrelatedSum_db(each), 85, 1e-9, 'dB');
    }),
  );
});

test('the table by volume takes the row of the room, ends included', () => {
  for (const { atLeast_m3, level_dbspl } of VOLUME_REFERENCES.slice(0, -1)) {
    expect(volumeReference_dbspl(atLeast_m3)).toBe(level_dbspl);
    expect(volumeReference_dbspl(atLeast_m3 * 0.999)).toBe(level_dbspl - 2);
  }
});

describe('exposure', () => {
  test('the dose of the allowed time is one, at any level', () => {
    fc.assert(
      fc.property(fc.double({ min: 70, max: 120, noNaN: true }), (level_dbspl) => {
        const day = [{ level_dbspl, time_s: allowedTime_s(level_dbspl, NIOSH) }];
        expectNear(dose_ratio(day, NIOSH), 1, 1e-9, '');
      }),
    );
  });
  test('a dose of one is the level of the rule; no dose has no average', () => {
    expect(timeWeightedAverage_dbspl(1, NIOSH)).toBe(85);
    expect(() => timeWeightedAverage_dbspl(0, NIOSH)).toThrow('dose');
  });
});

describe('noise curves', () => {
  test('the rating names the band that decides', () => {
    const levels = nrCurve(15).map(({ nominal_hz, level_db }) => ({
      nominal_hz,
      level_db: nominal_hz === 63 ? level_db + 4 : level_db - 1,
    }));
    expect(noiseRating(levels)?.governing_hz).toBe(63);
    expectNear(noiseRating(levels)?.rating ?? 0, 15 + 4 / 0.79, 1e-9, 'NR');
  });

  test('every curve of the table rates as itself', () => {
    for (const rating of [15, 20, 25, 30, 35, 40, 45, 50, 55]) {
      expectNear(noiseCriterion(ncCurve(rating) ?? [])?.rating ?? 0, rating, 1e-9, 'NC');
    }
  });

  test('beyond the table it goes on straight, below and above', () => {
    expectNear(noiseCriterion([{ nominal_hz: 1000, level_db: 12 }])?.rating ?? 0, 10, 1e-9, 'NC');
    expectNear(noiseCriterion([{ nominal_hz: 1000, level_db: 61 }])?.rating ?? 0, 60, 1e-9, 'NC');
  });

  test('bands that no curve has give no rating', () => {
    expect(noiseRating([{ nominal_hz: 100, level_db: 30 }])).toBeNull();
    expect(noiseCriterion([])).toBeNull();
    expect(ncCurve(17)).toBeNull();
  });
});
