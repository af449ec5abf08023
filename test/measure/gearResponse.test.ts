// Response files of gear: where they fall off, where phase comes from, and what a switch's position adds.

import { expect, test } from 'vitest';
import { sampledAt } from '../../core/acoustics/sampledResponse.ts';
import { gearResponse } from '../../core/measure/gearResponse.ts';
import { expectNear } from '../support/expectNear.ts';

const F_HZ = Float64Array.from({ length: 121 }, (_, i) => 10 * 2 ** (i / 12));

/** Butterworth high-pass of second order with its −3 dB point at `corner_hz`. @source closed form, any filter handbook */
function highPass(f_hz: number, corner_hz: number) {
  const x = f_hz / corner_hz;
  const level_db = 10 * Math.log10(x ** 4 / (1 + x ** 4));
  // −x² / (1 − x² + j√2 x): half a turn, less the denominator's angle
  const phase_rad = Math.PI - Math.atan2(Math.SQRT2 * x, 1 - x * x);
  return { level_db, phase_rad };
}

function file(offset_db: number, delay_s: number | null) {
  const at = Array.from(F_HZ, (f_hz) => highPass(f_hz, 50));
  return {
    frequencies_hz: F_HZ,
    levels_db: Float64Array.from(at, ({ level_db }) => level_db + offset_db),
    phase_rad:
      delay_s === null
        ? null
        : Float64Array.from(at, ({ phase_rad }, i) => {
            const late = phase_rad - 2 * Math.PI * (F_HZ[i] ?? 0) * delay_s;
            return Math.atan2(Math.sin(late), Math.cos(late));
          }),
  };
}

test.each([0, 87.5, -40])('levels are re the pass band, wherever it lies (%s dB)', (offset_db) => {
  const read = gearResponse(file(offset_db, null), 'natural');
  expect(read?.response.phaseFrom).toBe('minimum');
  // x⁴/(1 + x⁴) = 10^−0.6 at −6 dB.
  expectNear(
    [read?.response.low?.minus6db_hz ?? Number.NaN],
    [50 / (10 ** 0.6 - 1) ** 0.25],
    0.1,
    'Hz',
  );
  expect(read?.response.low?.slope_db_oct).toBe(12);
  expect(read?.response.high).toBeNull();
});

test('without phase the least phase is that of the filter, a high-pass of minimum phase', () => {
  const read = gearResponse(file(90, null), 'natural');
  for (const f_hz of [15, 25, 50, 80, 160]) {
    const { re, im } = sampledAt(read?.response ?? { level_db: [], phase_rad: [] }, f_hz);
    const told = (Math.atan2(im, re) * 180) / Math.PI;
    expectNear([told], [(highPass(f_hz, 50).phase_rad * 180) / Math.PI], 3, '°');
  }
});

test('what a phase falls by beyond the least is told as a delay', () => {
  expect(gearResponse(file(90, null), 'natural')?.excessDelay_s).toBeNull();
  const none = gearResponse(file(90, 0), 'natural')?.excessDelay_s ?? Number.NaN;
  const flight = gearResponse(file(90, 0.003), 'natural')?.excessDelay_s ?? Number.NaN;
  expectNear([none, flight], [0, 0.003], 5e-5, 's');
});

test('beyond the file it goes on falling as at its end', () => {
  const short = {
    frequencies_hz: F_HZ.filter((f_hz) => 30 <= f_hz),
    levels_db: F_HZ.filter((f_hz) => 30 <= f_hz).map((f_hz) => highPass(f_hz, 50).level_db),
    phase_rad: null,
  };
  const read = gearResponse(short, 'natural');
  const { re, im } = sampledAt(read?.response ?? { level_db: [], phase_rad: [] }, 15);
  // From 30 to 15 Hz a little less steep than 12 dB/octave, since it is not yet so at 30.
  expectNear([20 * Math.log10(Math.hypot(re, im))], [highPass(15, 50).level_db], 2.5, 'dB');
});

test("a switch's position changes the level by what its file says, flat beyond its ends", () => {
  const shelf = {
    frequencies_hz: Float64Array.of(20, 100, 1000, 20_000),
    levels_db: Float64Array.of(-4, -4, 0, 0),
    phase_rad: null,
  };
  const read = gearResponse(shelf, 'change');
  for (const [f_hz, level_db] of [
    [6, -4],
    [60, -4],
    [1000, 0],
  ] as const) {
    const { re, im } = sampledAt(read?.response ?? { level_db: [], phase_rad: [] }, f_hz);
    expectNear([20 * Math.log10(Math.hypot(re, im))], [level_db], 0.05, 'dB');
  }
  expect(read?.response.low).toBeNull();
});

test('less than an octave of the low end says nothing', () => {
  const narrow = {
    frequencies_hz: Float64Array.of(60, 70, 80),
    levels_db: Float64Array.of(0, 0, 0),
    phase_rad: null,
  };
  expect(gearResponse(narrow, 'natural')).toBeNull();
  const high = { ...narrow, frequencies_hz: Float64Array.of(2000, 6000, 20_000) };
  expect(gearResponse(high, 'natural')).toBeNull();
});
