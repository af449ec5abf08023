// Bands, weightings and complex numbers: edges, names, and what must hold at any frequency.
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  magnitude_db,
  over,
  phase_rad,
  polar,
  productOf,
  responseOf,
  sumOf,
  times,
  valueAt,
  wrapped_rad,
} from '../../core/acoustics/complex.ts';
import { logGrid_hz, nearestIndex } from '../../core/acoustics/frequencyGrid.ts';
import {
  bandAt,
  bandHolding,
  bands,
  exactFrequency_hz,
  octaves,
  thirdOctaves,
} from '../../core/acoustics/thirdOctave.ts';
import { pinkNoiseWeighting_db, weighting_db } from '../../core/acoustics/weighting.ts';
import { expectNear } from '../support/expectNear.ts';

test('octaves carry the names of ISO 266', () => {
  const names = octaves(16, 16_000).map(({ nominal_hz }) => nominal_hz);
  expect(names).toEqual([16, 31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000]);
});

test('from 20 to 200 Hz are eleven third octaves, both ends counted', () => {
  const found = thirdOctaves(20, 200);
  expect(found.length).toBe(11);
  expectNear([found[0]?.exact_hz ?? 0, found[10]?.exact_hz ?? 0], [19.953, 199.526], 0.001, 'Hz');
});

test('a range without a mid frequency has no bands', () => {
  expect(thirdOctaves(21, 24)).toEqual([]);
});

test('exact partners of nominal figures (ISO 266, IEC 61260-1)', () => {
  expectNear(
    [31.5, 63, 125, 4000].map(exactFrequency_hz),
    [31.623, 63.096, 125.893, 3981.072],
    0.001,
    'Hz',
  );
});

describe('any fraction', () => {
  const fraction = fc.constantFrom(1, 2, 3, 6, 12, 24);

  test('bands join without gap or overlap', () => {
    fc.assert(
      fc.property(fraction, fc.integer({ min: -60, max: 40 }), (b, index) => {
        const [band, next] = [bandAt(index, b), bandAt(index + 1, b)];
        expectNear(band.upper_hz / next.lower_hz, 1, 1e-12, '');
        expectNear(band.exact_hz ** 2 / (band.lower_hz * band.upper_hz), 1, 1e-12, '');
      }),
    );
  });

  test('every frequency lies in just the band that is said to hold it', () => {
    fc.assert(
      fc.property(fraction, fc.double({ min: 15, max: 20_000, noNaN: true }), (b, frequency_hz) => {
        const { lower_hz, upper_hz } = bandHolding(frequency_hz, b);
        expect(lower_hz <= frequency_hz && frequency_hz < upper_hz).toBe(true);
      }),
    );
  });

  test('ten octaves of bands in three decades, as many as b says', () => {
    fc.assert(
      fc.property(fraction, (b) => {
        expect(bands(b, 20, 20_000).length).toBe(b % 2 === 0 || b === 1 ? 10 * b : 10 * b + 1);
      }),
    );
  });
});

test('weightings are 0 dB at 1 kHz, Z everywhere', () => {
  expectNear(
    [weighting_db('A', 1000), weighting_db('C', 1000), weighting_db('Z', 33)],
    [0, 0, 0],
    1e-12,
    'dB',
  );
  expectNear(pinkNoiseWeighting_db('Z', 20, 20_000), 0, 1e-12, 'dB');
});

test('pink noise between edges out of order is refused', () => {
  expect(() => pinkNoiseWeighting_db('C', 80, 40)).toThrow(RangeError);
});

describe('complex numbers', () => {
  const real = fc.double({ min: -5, max: 5, noNaN: true });
  const complex = fc.record({ re: real, im: real });

  test('division undoes multiplication', () => {
    fc.assert(
      fc.property(complex, complex, (a, b) => {
        fc.pre(0.01 < Math.hypot(b.re, b.im));
        const back = over(times(a, b), b);
        expectNear([back.re, back.im], [a.re, a.im], 1e-9, '');
      }),
    );
  });

  test('amplitude and phase come back', () => {
    const z = polar(0.5, -2);
    expectNear([magnitude_db(z), phase_rad(z)], [-6.0206, -2], 1e-4, 'dB, rad');
  });

  test('angles are brought into one turn, π stays π', () => {
    expectNear(
      [wrapped_rad(Math.PI), wrapped_rad(-Math.PI), wrapped_rad(7)],
      [Math.PI, Math.PI, 7 - 2 * Math.PI],
      1e-12,
      'rad',
    );
  });

  test('responses add and multiply frequency by frequency; different grids are refused', () => {
    const a = responseOf([1, 2], (f) => ({ re: f, im: 1 }));
    const b = responseOf([1, 2], () => ({ re: 0, im: 1 }));
    expect(valueAt(sumOf(a, b), 1)).toEqual({ re: 2, im: 2 });
    expect(valueAt(productOf(a, b), 1)).toEqual({ re: -1, im: 2 });
    expect(() =>
      sumOf(
        a,
        responseOf([1], () => ({ re: 1, im: 0 })),
      ),
    ).toThrow(RangeError);
    expect(() => valueAt(a, 2)).toThrow(RangeError);
  });
});

test('a grid is even in octaves, has both ends, and finds its nearest point', () => {
  const grid_hz = logGrid_hz(20, 160, 3);
  expectNear(
    grid_hz,
    [20, 25.198, 31.748, 40, 50.397, 63.496, 80, 100.794, 126.992, 160],
    0.001,
    'Hz',
  );
  expect(nearestIndex(grid_hz, 81)).toBe(6);
  expect(() => logGrid_hz(160, 20, 3)).toThrow(RangeError);
});
