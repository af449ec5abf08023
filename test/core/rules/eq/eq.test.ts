// Rules of equalisers: boosts below a driver's roll-off, and into nulls that a made-up response has.

import { describe, expect, test } from 'vitest';
import { eqBoostIntoNull } from '../../../../core/rules/eq/boostIntoNull.ts';
import type { Setup } from '../../../../core/setup.ts';
import { showFor } from '../../../../core/show.ts';
import type { Gear } from '../../../../schema/model/gear.ts';
import { told } from '../../../support/findingsOf.ts';
import { drawn, SUB, settings, subRoom } from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

const ANY = { min: null, max: null, step: null, choices: null };
const WITH_EQ: Gear = {
  ...SUB,
  paths: [...SUB.paths.slice(0, -1), drawn('bass -> eq -> delay -> polarity -> level -> driver')],
  controls: [
    ...SUB.controls,
    {
      name: 'eq',
      stages: ['eq'],
      eachPort: false,
      kind: 'eq',
      bands: 2,
      frequency_hz: ANY,
      gain_db: ANY,
      q: ANY,
    },
  ],
};

function roomWithBand(frequency_hz: number, gain_db: number) {
  const bands = [{ name: 'band_1', frequency_hz, gain_db, q: 4 }];
  return subRoom({
    subwoofers: subRoom().subwoofers.map((sub) => ({ ...sub, gear: WITH_EQ })),
    settings: [settings('sub', { eq: { kind: 'eq', bands, told: '{ band_1: … }' } })],
  });
}

describe('eq/boost-below-tuning', () => {
  // The subwoofer is −6 dB at 20 Hz.
  test('4 dB at 18 Hz', () => {
    const found = findingsWith(worked(roomWithBand(18, 4)), 'eq/boost-below-tuning');
    expect(told(found)).toEqual([
      'settings.sub.eq.band_1: 4.0 dB of boost at 18 Hz, below the -6 dB point of sub (20 Hz, vented)',
    ]);
    expect(found[0]?.fixes[0]?.edits[0]).toMatchObject({ do: 'remove' });
  });

  test('at the -6 dB point, a cut, and half a decibel are no boost below it', () => {
    for (const [frequency_hz, gain_db] of [
      [20, 4],
      [18, -4],
      [18, 0.5],
    ] as const)
      expect(findingsWith(worked(roomWithBand(frequency_hz, gain_db)), 'eq/')).toEqual([]);
  });

  test('a driver of unknown roll-off', () => {
    const room = roomWithBand(18, 4);
    const subwoofers = room.subwoofers.map((sub) => ({
      ...sub,
      gear: { ...WITH_EQ, lowEnd: null },
    }));
    expect(findingsWith(worked({ ...room, subwoofers }), 'eq/')).toEqual([]);
  });
});

describe('eq/boost-into-null', () => {
  const GRID_HZ = Array.from({ length: 120 }, (_, i) => 20 * 2 ** (i / 40));
  /** Flat, but for a dip of that depth a tenth of an octave wide at 50 Hz. */
  const withNull = (setup: Setup, depth_db: number): Setup => {
    const level_db = GRID_HZ.map(
      (f) => 80 - depth_db * Math.exp(-((Math.log2(f / 50) / 0.1) ** 2)),
    );
    const source = {
      source: 'sub',
      set: null,
      channel: 'L',
      level_db,
      phase_rad: level_db.map(() => 0),
      lower_db: null,
      upper_db: null,
      extremes: null,
    };
    return {
      ...setup,
      field: {
        frequency_hz: GRID_HZ,
        method: 'box',
        schroeder_hz: 150,
        damping: { from: 'measured', assumed: [] },
        level: { kind: 'absolute', input_dbfs: -20, level_dbspl: null },
        seats: [{ seat: 'mix', sources: [source], channels: [] }],
        polarity: [],
        spread: [],
        modes: null,
        boundaries: [],
        uncertainty: null,
        notes: [],
      },
    };
  };
  const messages = (setup: Setup) =>
    [...eqBoostIntoNull.find(setup, showFor(setup.room.habits))].map(({ fact }) => fact);

  test('a boost where the room cancels', () => {
    const [message] = messages(withNull(worked(roomWithBand(51, 2)), 20));
    expect(message).toMatch(/^2.0 dB of boost at 51 Hz goes into a null of sub at mix \(50/);
  });

  test('a boost half an octave away, a shallow dip, no field', () => {
    expect(messages(withNull(worked(roomWithBand(71, 2)), 20))).toEqual([]);
    expect(messages(withNull(worked(roomWithBand(51, 2)), 5))).toEqual([]);
    expect(messages(worked(roomWithBand(51, 2)))).toEqual([]);
  });
});
