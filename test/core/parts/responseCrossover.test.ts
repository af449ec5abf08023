// Crossovers of gear with response files: the same sum as the closed form that the files were written from, and no mere start.

import { expect, test } from 'vitest';
import { gearResponse } from '../../../core/measure/gearResponse.ts';
import type { Gear } from '../../../schema/model/gear.ts';
import { choice, crossover, MAIN, SUB, subRoomWith } from '../../support/wiredRooms.ts';
import { worked } from '../../support/worked.ts';

const F_HZ = Float64Array.from({ length: 97 }, (_, i) => 10 * 2 ** (i / 16));

/** Butterworth of fourth order: 1/|H|² = 1 + (f_c/f)⁸, two sections of Q 0.5412 and 1.3066. @source any filter handbook */
function highPass(f_hz: number, corner_hz: number) {
  const x = f_hz / corner_hz;
  const phase_rad = [0.541196, 1.306563].reduce(
    (sum, q) => sum + Math.PI - Math.atan2(x / q, 1 - x * x),
    0,
  );
  return { level_db: -10 * Math.log10(1 + x ** -8), phase_rad };
}

function withResponse(gear: Gear, minus6_hz: number, hasPhase: boolean): Gear {
  const corner_hz = minus6_hz * (10 ** 0.6 - 1) ** 0.125;
  const at = Array.from(F_HZ, (f_hz) => highPass(f_hz, corner_hz));
  const read = gearResponse(
    {
      frequencies_hz: F_HZ,
      levels_db: Float64Array.from(at, ({ level_db }) => level_db + 90),
      phase_rad: hasPhase ? Float64Array.from(at, ({ phase_rad }) => phase_rad) : null,
    },
    'natural',
  );
  if (read === null) throw new Error('no response');
  const lowEnd = {
    minus6db_hz: read.response.low?.minus6db_hz ?? Number.NaN,
    slope_db_oct: read.response.low?.slope_db_oct ?? Number.NaN,
    kind: null,
    protection: null,
    responseFile: 'told.txt',
    response: read.response,
  };
  return { ...gear, lowEnd, highEnd: null };
}

function roomOf(main: Gear, sub: Gear) {
  const room = subRoomWith({ crossover: crossover(80), polarity: choice('normal') });
  return worked({
    ...room,
    speakers: room.speakers.map((one) => ({ ...one, gear: main })),
    subwoofers: room.subwoofers.map((one) => ({ ...one, gear: sub })),
  });
}

const MODEL = roomOf({ ...MAIN, highEnd: null }, { ...SUB, highEnd: null });

test.each([
  ['with phase', true, 0.2],
  ['without phase, by the least phase', false, 0.5],
] as const)(
  '%s: the sum is that of the filter it was written from',
  (_, hasPhase, tolerance_db) => {
    const told = roomOf(withResponse(MAIN, 65, hasPhase), withResponse(SUB, 20, hasPhase));
    const [as, model] = [told.crossovers[0], MODEL.crossovers[0]];
    expect(as?.mainsMinus6db_hz).toBeCloseTo(65, 0);
    const curve = (outcome: typeof as) => outcome?.current?.curve.sum_db ?? [];
    expect(curve(as).length).toBe(curve(model).length);
    expect(curve(as).length).toBeGreaterThan(20);
    curve(as).forEach((level_db, i) => {
      const model_db = curve(model)[i] ?? Number.NaN;
      // In the depth of a hole, a hair of phase is decibels.
      if (-12 < model_db) expect(Math.abs(level_db - model_db)).toBeLessThan(tolerance_db);
    });
    expect(as?.ranked[0]?.filter).toEqual(model?.ranked[0]?.filter);
  },
);

test('only phase of every main and subwoofer makes more of it than a start', () => {
  const both = roomOf(withResponse(MAIN, 65, true), withResponse(SUB, 20, true));
  const one = roomOf(withResponse(MAIN, 65, true), SUB);
  const least = roomOf(withResponse(MAIN, 65, false), withResponse(SUB, 20, false));
  const standings = (setup: typeof both) =>
    new Set(
      setup.advice
        .filter(({ path }) => path.includes('crossover') || path.includes('polarity'))
        .map(({ standing }) => standing),
    );
  expect(standings(both)).toEqual(new Set(['computed']));
  expect(standings(one)).toEqual(new Set(['start']));
  expect(standings(least)).toEqual(new Set(['start']));
  expect(both.crossovers[0]?.hasPhase).toBe(true);
  expect(both.crossovers[0]?.caveat).toContain('the room is not in it');
  expect(least.crossovers[0]?.caveat).toContain('the least that goes with it');
  expect(one.crossovers[0]?.hasPhase).toBeUndefined();
});
