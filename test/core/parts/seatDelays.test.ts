// One delay for several seats, by hand: two seats 1.25 m of path apart, phase 2π f t, and what each compromise leaves.

import { describe, expect, test } from 'vitest';
import { expectNear } from '../../support/expectNear.ts';
import { point, seat } from '../../support/rooms.ts';
import { C_M_S, crossover, subRoom, subRoomWith } from '../../support/wiredRooms.ts';
import { worked } from '../../support/worked.ts';

const SEATS = [
  seat('mix', point(2.5, 4, 1.2)),
  // On the centre line, further back: to the mains √(1.075² + (1.8619 + 2)²) m, to the subwoofer 5.4 m.
  seat('back', point(2.5, 6, 1.2), { isReference: false }),
];

const FRONT_M = Math.sqrt(2.15 ** 2 - 1.075 ** 2);
const MIX_S = (3.4 - 2.15) / C_M_S;
const BACK_S = (5.4 - Math.hypot(1.075, FRONT_M + 2)) / C_M_S;
/** Latencies: 0.8 ms to the driver, 0.8 + 1.1 ms to the mains. */
const LATENCY_S = 0.0008 - 0.0019;

const setup = worked(subRoomWith({ crossover: crossover(75) }, { seats: SEATS }));
const [figures] = setup.seatDelays ?? [];
const choice = (kind: string) => figures?.choices.find((one) => one.for === kind);

test('differences at both seats: distances over the speed of sound, and latencies', () => {
  expectNear(
    figures?.seats.map(({ difference_s }) => difference_s) ?? [],
    [MIX_S + LATENCY_S, BACK_S + LATENCY_S],
    1e-9,
    's',
  );
  expectNear(figures?.spread_s ?? NaN, Math.abs(BACK_S - MIX_S), 1e-9, 's');
});

describe('compromises', () => {
  const spread_rad = 2 * Math.PI * 75 * Math.abs(BACK_S - MIX_S);

  test('right at the reference seat, the other has the whole spread', () => {
    expectNear(choice('reference')?.worstPhase_rad ?? NaN, spread_rad, 1e-9, 'rad');
  });

  test('for two seats both compromises are the middle: half the spread each', () => {
    for (const kind of ['worst', 'mean_square']) {
      expectNear(choice(kind)?.worstPhase_rad ?? NaN, spread_rad / 2, 1e-9, 'rad');
      expectNear(choice(kind)?.rmsPhase_rad ?? NaN, spread_rad / 2, 1e-9, 'rad');
    }
  });

  // standards.md 6.2 (20 lg cos(π f τ)): 1 ms off at 80 Hz costs 0.28 dB.
  test('the loss is 20 lg cos(φ/2)', () => {
    const phase_rad = choice('worst')?.worstPhase_rad ?? NaN;
    const want_db = 20 * Math.log10(Math.cos(phase_rad / 2));
    expectNear(choice('worst')?.worstLoss_db ?? NaN, want_db, 1e-9, 'dB');
  });

  test('no compromise has a worse worst seat than the minimax, nor a worse mean than the mean square', () => {
    const all = figures?.choices ?? [];
    expect(all).toHaveLength(3);
    for (const one of all) {
      expect(choice('worst')?.worstPhase_rad).toBeLessThanOrEqual(one.worstPhase_rad + 1e-12);
      expect(choice('mean_square')?.rmsPhase_rad).toBeLessThanOrEqual(one.rmsPhase_rad + 1e-12);
    }
  });
});

test('one seat, or no wiring: nothing to compromise', () => {
  expect(worked(subRoom()).seatDelays).toEqual([]);
  expect(worked(subRoom({ seats: SEATS, wiring: [] })).seatDelays).toEqual([]);
});

// ITU-R BS.775: left at +30°. From a seat 0.5 m to the right of the middle the angles follow from atan2.
test('other seats: how far each loudspeaker lies outside its angle', () => {
  const aside = seat('aside', point(3, 4, 1.2), { isReference: false });
  const room = subRoom({
    seats: [seat('mix', point(2.5, 4, 1.2)), aside],
    targets: { ...subRoom().targets, layout: '0+2+0' },
  });
  const [other] = worked(room).layouts[0]?.otherSeats ?? [];
  expect(other?.seat).toBe('aside');
  const degrees = (angle_rad: number) => (angle_rad * 180) / Math.PI;
  const left = other?.positions.find(({ label }) => label === 'M+030');
  const want = degrees(Math.atan2(1.075 + 0.5, FRONT_M));
  expectNear(degrees(left?.azimuth_rad ?? NaN), want, 1e-6, '°');
  expectNear(degrees(left?.beyondAzimuth_rad ?? NaN), want - 30, 1e-6, '°');
});
