// The cost of a crossover against figures by hand: air moved ∝ p/f² (physics), and what a data sheet leaves above the filter.

import { expect, test } from 'vitest';
import { butterworth } from '../../../core/acoustics/crossoverFilter.ts';
import { costOf, costReasons } from '../../../core/parts/crossoverCosts.ts';
import { outcomeOf } from '../../../core/parts/crossoverOutcome.ts';
import type { MaxLevel } from '../../../schema/model/gear.ts';
import { expectNear } from '../../support/expectNear.ts';
import { crossover, subRoom, subRoomWith } from '../../support/wiredRooms.ts';
import { worked } from '../../support/worked.ts';

/** A flat main behind a second-order Butterworth high-pass. */
function outcomeAt(frequency_hz: number) {
  return outcomeOf(
    {
      filter: { frequency_hz, slope_db_oct: 12, family: 'butterworth' },
      main: butterworth(2, 'high_pass', frequency_hz),
      sub: butterworth(2, 'low_pass', frequency_hz),
      isInverted: false,
      phase_rad: null,
      subDelay_s: 0,
    },
    [],
  );
}

const FLAT: MaxLevel = {
  distance_m: 1,
  space: 'full',
  peak_db: { frequency_hz: [20, 1000], value: [110, 110] },
};

// |H|/f² = 1/(fc² √(1 + (f/fc)⁴)): an octave lower is four times as far, 12.04 dB.
test('an octave lower moves four times as much air', () => {
  const [low, high] = [outcomeAt(40), outcomeAt(80)].map((one) => costOf(one, null, null));
  expectNear((low?.displacement_db ?? NaN) - (high?.displacement_db ?? NaN), 12.041, 0.01, 'dB');
});

// A main that makes 110 dB everywhere has 110 dB left where the filter takes nothing; an octave above, 0.26 dB for BW2.
test('what the data sheet leaves', () => {
  const cost = costOf(outcomeAt(80), FLAT, FLAT);
  expectNear(cost.mainMost_db ?? NaN, 110.26, 0.01, 'dB');
  // standards.md 6.1: BW2 low-pass an octave below its corner −0.26 dB, two octaves −0.02 dB.
  expectNear(cost.subMost_db ?? NaN, 110.1, 0.1, 'dB');
  expect(costOf(outcomeAt(80), null, null)).toMatchObject({ mainMost_db: null, subMost_db: null });
});

// Below the lowest figure displacement limits: 12 dB an octave, 40 lg(f/63) at 40 Hz = −7.9 dB.
test('below the data sheet it falls by 12 dB an octave', () => {
  const from63: MaxLevel = { ...FLAT, peak_db: { frequency_hz: [63], value: [110] } };
  const outcome = outcomeAt(160);
  const [at_hz] = outcome.curve.frequency_hz;
  expectNear(at_hz ?? NaN, 40, 0.1, 'Hz');
  // Second order takes 24.1 dB two octaves below, more than the 7.9 dB that the driver lacks: the top decides.
  expectNear(costOf(outcome, from63, null).mainMost_db ?? NaN, 110.26, 0.01, 'dB');
});

test('reasons are given only where they are worth a word', () => {
  const [low, high] = [costOf(outcomeAt(40), FLAT, FLAT), costOf(outcomeAt(80), FLAT, FLAT)];
  expect(costReasons(low, high, '80 Hz, 12 dB/oct')[0]).toBe(
    'the mains move 4.0 times the air that they move with 80 Hz, 12 dB/oct: for the same level it goes with 1/f²',
  );
  expect(costReasons(high, high, '80 Hz, 12 dB/oct')).toEqual([]);
});

test('every outcome of a room carries its cost; without data sheet levels only the movement', () => {
  const [figures] = worked(subRoomWith({ crossover: crossover(65) })).crossovers;
  for (const outcome of [figures?.current, figures?.practice, ...(figures?.ranked ?? [])]) {
    expect(outcome?.cost?.mainMost_db).toBeNull();
    expect(Number.isFinite(outcome?.cost?.displacement_db)).toBe(true);
  }
  expect(worked(subRoom({ settings: [] })).crossovers[0]?.current).toBeNull();
});
