// EQ fits: as good as the best known ones, inside the device's steps, and careful where care is due.
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { filterLevel_db } from '../../core/acoustics/analogueFilter.ts';
import { magnitude_db, plus, polar } from '../../core/acoustics/complex.ts';
import { equaliserBand } from '../../core/acoustics/equaliser.ts';
import { logGrid_hz } from '../../core/acoustics/frequencyGrid.ts';
import { bandsLevel_db, fitEqualiser } from '../../core/equaliser/fit.ts';
import type { FitLimits, FitTask } from '../../core/equaliser/fitTask.ts';
import { nullsOf } from '../../core/equaliser/nulls.ts';
import {
  equaliserComparisons,
  STORED_FITS,
  type StoredFit,
  storedTask,
} from '../accuracy/cases/equaliser.ts';
import { checkComparisons } from '../support/checkComparisons.ts';
import { expectNear } from '../support/expectNear.ts';

checkComparisons(equaliserComparisons);

const GRID_HZ = logGrid_hz(20, 200, 24);
const LIMITS: FitLimits = {
  from_hz: 20,
  to_hz: 200,
  broadTo_hz: null,
  boost: null,
  leaveNulls: true,
  leastGain_ratio: 0.02,
};
const stepped = (min: number, max: number, step: number) => ({ min, max, step, choices: null });
const DEVICE: FitTask['device'] = {
  bands: 5,
  frequency_hz: stepped(18, 250, 0.5),
  q: stepped(0.5, 12, 0.1),
  gain_db: stepped(-15, 3, 0.25),
};

/** A task on our own grid, flat target at 0 dB. */
function task(levels: readonly ArrayLike<number>[], part: Partial<FitTask> = {}): FitTask {
  return {
    frequency_hz: GRID_HZ,
    seats: levels.map((level_db, i) => ({ seat: `seat ${i}`, level_db, weight: 1 })),
    target_db: GRID_HZ.map(() => 0),
    device: DEVICE,
    limits: LIMITS,
    sampleRate_hz: null,
    ...part,
  };
}

const bell_db = (frequency_hz: number, gain_db: number, q: number) =>
  GRID_HZ.map((f) => filterLevel_db(equaliserBand({ kind: 'bell', frequency_hz, gain_db, q }), f));

describe('bands are valid settings of the device, and better than none', () => {
  const devices = {
    'even steps': DEVICE,
    'few choices': {
      ...DEVICE,
      frequency_hz: {
        min: null,
        max: null,
        step: null,
        // Third octaves. Source: IEC 61260 nominal frequencies.
        choices: [20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200],
      },
      q: { min: null, max: null, step: null, choices: [1, 2, 4, 8] },
      gain_db: stepped(-12, 0, 1),
    },
  };
  test.each(Object.entries(devices))('%s', (_, device) => {
    for (const stored of STORED_FITS) {
      const fit = fitEqualiser({ ...storedTask(stored), device });
      expect(fit.bands.length).toBeLessThanOrEqual(device.bands);
      expect(fit.after_db).toBeLessThan(fit.before_db);
      for (const band of fit.bands) {
        for (const kind of ['frequency_hz', 'q', 'gain_db'] as const) {
          const { choices, min, max, step } = device[kind];
          if (choices !== null) expect(choices).toContain(band[kind]);
          if (step === null || min === null || max === null) continue;
          const steps = (band[kind] - min) / step;
          expectNear(steps, Math.round(steps), 1e-6, 'steps');
          expect(min <= band[kind] && band[kind] <= max).toBe(true);
        }
      }
    }
  });

  test('rounding to half a hertz, a tenth of Q and a quarter of a decibel costs less than 1 %', () => {
    for (const stored of STORED_FITS) {
      const { bands } = storedTask(stored).device;
      const fit = fitEqualiser({ ...storedTask(stored), device: { ...DEVICE, bands } });
      expect(fit.after_db / fit.exact.after_db).toBeLessThan(1.01);
    }
  });
});

describe('what is known exactly', () => {
  test('a bell is undone by the bell of the same Q and opposite gain (W3C Audio EQ Cookbook)', () => {
    const parameters = fc.record({
      frequency_hz: fc.double({ min: 26, max: 150, noNaN: true }),
      gain_db: fc.double({ min: 2, max: 12, noNaN: true }),
      q: fc.double({ min: 1, max: 9, noNaN: true }),
    });
    fc.assert(
      fc.property(parameters, ({ frequency_hz, gain_db, q }) => {
        const free = (min: number, max: number) => ({ min, max, step: null, choices: null });
        const device = {
          bands: 1,
          frequency_hz: free(20, 200),
          q: free(0.5, 12),
          gain_db: free(-15, 0),
        };
        const fit = fitEqualiser(task([bell_db(frequency_hz, gain_db, q)], { device }));
        const [band] = fit.bands;
        expectNear(band?.frequency_hz ?? 0, frequency_hz, 0.02, 'Hz');
        expectNear(band?.gain_db ?? 0, -gain_db, 0.02, 'dB');
        expectNear(band?.q ?? 0, q, 0.05, '');
        expectNear(fit.after_db, 0, 0.01, 'dB');
      }),
      { numRuns: 40 },
    );
  });

  test('the correction is what its bands do', () => {
    const fit = fitEqualiser(task([bell_db(42, 9, 4), bell_db(44, 7, 4)]));
    expectNear(fit.correction_db, bandsLevel_db(GRID_HZ, fit.bands, null), 1e-9, 'dB');
  });

  test('level and target raised together change nothing', () => {
    const level_db = bell_db(40, 8, 3);
    const one = fitEqualiser(task([level_db]));
    const other = fitEqualiser(
      task([level_db.map((level) => level + 80)], { target_db: GRID_HZ.map(() => 80) }),
    );
    expect(other.bands).toEqual(one.bands);
  });

  test('a flat response needs nothing', () => {
    const fit = fitEqualiser(task([GRID_HZ.map(() => 0)]));
    expect(fit.bands).toEqual([]);
    expect(fit.warnings).toContainEqual({ kind: 'nothing to cut' });
  });
});

describe('nulls', () => {
  // Direct sound and one reflection of the same strength but a tenth, τ later: nulls at (2n + 1)/(2τ). By hand.
  const delay_s = 1 / 90;
  const comb_db = GRID_HZ.map((f) =>
    magnitude_db(plus({ re: 1, im: 0 }, polar(0.9, -2 * Math.PI * f * delay_s))),
  );

  test('a reflection 11 ms late makes nulls at 45 Hz and 135 Hz', () => {
    expectNear(
      nullsOf(GRID_HZ, comb_db).map(({ frequency_hz }) => frequency_hz),
      [45, 135],
      1.5,
      'Hz',
    );
  });

  test('are left alone and said so', () => {
    const boost = { most_db: 3, from_hz: 25 };
    const limits = { ...LIMITS, boost };
    const fit = fitEqualiser(task([comb_db], { limits }));
    const left = fit.warnings.flatMap((warning) =>
      warning.kind === 'null left' ? [warning.null.frequency_hz] : [],
    );
    expectNear(left, [45, 135], 1.5, 'Hz');
    expect(fit.warnings.some(({ kind }) => kind === 'boost in a null')).toBe(false);
  });

  test('a roll-off is none', () => {
    expect(
      nullsOf(
        GRID_HZ,
        GRID_HZ.map((f) => -10 * Math.log10(1 + (40 / f) ** 8)),
      ),
    ).toEqual([]);
  });
});

describe('boosts', () => {
  const dip_db = bell_db(90, -6, 1.5);
  const boost = { most_db: 3, from_hz: 35 };

  test('none unless allowed', () => {
    expect(fitEqualiser(task([dip_db])).headroom.boost_db).toBe(0);
  });

  test('bounded in sum, and told as headroom', () => {
    const fit = fitEqualiser(task([dip_db], { limits: { ...LIMITS, boost } }));
    expect(fit.headroom.boost_db).toBeGreaterThan(2);
    expect(fit.headroom.boost_db).toBeLessThan(3.1);
    expectNear(fit.headroom.boostAt_hz ?? 0, 90, 25, 'Hz'); // two bands make a plateau
    expectNear(Math.max(...fit.correction_db), fit.headroom.boost_db, 1e-12, 'dB');
  });

  test('none below the −6 dB point of a driver, though the response falls there', () => {
    const falling_db = GRID_HZ.map((f) => -10 * Math.log10(1 + (45 / f) ** 8));
    const limits = { ...LIMITS, boost: { most_db: 6, from_hz: 45 } };
    const { correction_db } = fitEqualiser(task([falling_db], { limits }));
    correction_db.forEach((level_db, i) => {
      if ((GRID_HZ[i] ?? 0) < 45) expect(level_db).toBeLessThan(0.3);
    });
  });
});

describe('several seats', () => {
  test('what one has too much and the other too little is left', () => {
    const fit = fitEqualiser(task([bell_db(60, 6, 3), bell_db(60, -6, 3)]));
    expect(fit.bands).toEqual([]);
  });

  test('what both have too much is cut, and no seat is harmed by more than half a decibel', () => {
    const fit = fitEqualiser(task([bell_db(40, 9, 3), bell_db(41, 7, 3), bell_db(40, 1, 3)]));
    expect(fit.after_db).toBeLessThan(fit.before_db);
    for (const { before_db, after_db } of fit.seats) {
      expect(after_db).toBeLessThan(before_db + 0.5);
    }
  });

  test('a seat that ends worse is named', () => {
    const device = { ...DEVICE, bands: 1 };
    const seats = [
      { seat: 'mix', level_db: bell_db(40, 12, 2), weight: 30 },
      { seat: 'sofa', level_db: GRID_HZ.map(() => 0), weight: 1 },
    ];
    const fit = fitEqualiser(task([], { device, seats }));
    expect(fit.warnings).toContainEqual(
      expect.objectContaining({ kind: 'worse at a seat', seat: 'sofa' }),
    );
  });

  test('the weight of a seat decides', () => {
    const seats = (first: number, second: number) => [
      { seat: 'one', level_db: bell_db(35, 8, 4), weight: first },
      { seat: 'two', level_db: bell_db(120, 8, 4), weight: second },
    ];
    const device = { ...DEVICE, bands: 1 };
    const at = (first: number, second: number) =>
      fitEqualiser(task([], { device, seats: seats(first, second) })).bands[0]?.frequency_hz ?? 0;
    expectNear([at(5, 1), at(1, 5)], [35, 120], 2, 'Hz');
  });
});

describe('the fitted range', () => {
  test('nothing above it is touched', () => {
    const grid_hz = logGrid_hz(20, 500, 24);
    const level_db = grid_hz.map((f) =>
      filterLevel_db(equaliserBand({ kind: 'bell', frequency_hz: 400, gain_db: 8, q: 3 }), f),
    );
    const device = { ...DEVICE, frequency_hz: stepped(20, 20_000, 1) };
    const base = { frequency_hz: grid_hz, target_db: grid_hz.map(() => 0), device };
    const closed = fitEqualiser(task([level_db], base));
    expect(closed.bands.every(({ frequency_hz }) => frequency_hz <= 200)).toBe(true);
    const open = fitEqualiser(
      task([level_db], { ...base, limits: { ...LIMITS, broadTo_hz: 500 } }),
    );
    const above = open.bands.filter(({ frequency_hz }) => 200 < frequency_hz);
    expect(above.length).toBeGreaterThan(0);
    expect(above.every(({ q, gain_db }) => q <= 1.5 && gain_db < 0)).toBe(true);
  });
});

test('dialling in what is suggested and fitting again changes little: what is left is not for bells', () => {
  const again = (stored: StoredFit) => {
    const first = { ...storedTask(stored), device: { ...DEVICE, bands: 8 } };
    const { correction_db, after_db } = fitEqualiser(first);
    const level_db = correction_db.map((level, i) => level + (stored.response_db[i] ?? 0));
    const seats = [{ seat: 'mix', level_db, weight: 1 }];
    const limits = { ...first.limits, leastGain_ratio: 0.1 };
    return fitEqualiser({ ...first, seats, limits }).after_db / after_db;
  };
  for (const stored of STORED_FITS) expect(again(stored)).toBeGreaterThan(0.75);
});

test('a task without a seat or a grid is a fault of the caller', () => {
  expect(() => fitEqualiser(task([]))).toThrow(RangeError);
  expect(() => fitEqualiser(task([[]], { frequency_hz: [], target_db: [] }))).toThrow(RangeError);
});
