// Rules placement/rear-near-surface, overhead, heavy-lift and boundary/early-reflection: on both sides of their limits.

import { describe, expect, test } from 'vitest';
import { earlyReflection } from '../../../core/rules/boundary/earlyReflection.ts';
import { placementHeavyLift } from '../../../core/rules/placement/heavyLift.ts';
import { placementOverhead } from '../../../core/rules/placement/overhead.ts';
import { rearNearSurface } from '../../../core/rules/placement/rearNearSurface.ts';
import type { Room, Surface } from '../../../schema/model/room.ts';
import { findingsOf, told } from '../../support/findingsOf.ts';
import {
  box,
  gear,
  point,
  roomWith,
  seat,
  spaceWith,
  speaker,
  stereoRoom,
} from '../../support/rooms.ts';

const SIZE = { width_m: 0.22, depth_m: 0.3, height_m: 0.36 };
const VENTED = gear('heath', 'loudspeaker', {
  size: SIZE,
  lowEnd: {
    minus6db_hz: 48,
    slope_db_oct: 24,
    kind: 'vented',
    protection: null,
    responseFile: null,
  },
});

/** One loudspeaker on the centre line, its front so far from the front wall, looking straight at the seat. */
function centred(y_m: number, model = VENTED, more: Partial<Room> = {}): Room {
  return roomWith({
    space: spaceWith({ shape: box(5, 6, 2.8) }),
    seats: [seat('mix', point(2.5, 3, 1.2))],
    speakers: [speaker('centre', 'C', point(2.5, y_m, 1.2), { gear: model })],
    ...more,
  });
}

describe('placement/rear-near-surface', () => {
  test('5 cm behind a vented box of 30 cm', () => {
    expect(told(findingsOf(rearNearSurface, centred(0.35)))).toEqual([
      'speakers.centre.at: The rear of centre (vented) is 50 mm from the front wall; 100 mm or more leaves it free',
    ]);
  });

  test('10 cm are enough, and 5 cm behind a closed box', () => {
    expect(findingsOf(rearNearSurface, centred(0.4))).toEqual([]);
    expect(findingsOf(rearNearSurface, centred(0.35, { ...VENTED, lowEnd: null }))).toEqual([]);
  });

  test('a box that would reach into the wall', () => {
    const [finding] = findingsOf(rearNearSurface, centred(0.28));
    expect(finding?.severity).toBe('warning');
    expect(finding?.message).toBe('The rear of centre would reach 20 mm into the front wall');
  });

  test('no size, no room, or built in: nothing', () => {
    expect(findingsOf(rearNearSurface, centred(0.28, { ...VENTED, size: null }))).toEqual([]);
    expect(findingsOf(rearNearSurface, { ...centred(0.28), space: spaceWith({}) })).toEqual([]);
    const [one] = centred(0.1).speakers;
    const built = one ? [{ ...one, flushIn: 'front' }] : [];
    expect(findingsOf(rearNearSurface, { ...centred(0.1), speakers: built })).toEqual([]);
  });
});

describe('cautions on loads', () => {
  const room = (z_m: number, mass_kg: number | null) =>
    roomWith({
      seats: [seat('mix', point(2.5, 3, 1.2))],
      speakers: [speaker('top', 'U+045', point(1, 2, z_m), { gear: { ...VENTED, mass_kg } })],
    });

  test('placement/overhead: above head height, with its mass or without', () => {
    const [finding] = findingsOf(placementOverhead, room(2.4, 9));
    expect(finding?.message).toBe('Caution: top is overhead, 2.40 m up, 9 kg');
    expect(findingsOf(placementOverhead, room(2.4, null))[0]?.message).toMatch(/not recorded$/);
    expect(findingsOf(placementOverhead, room(1.9, 9))).toEqual([]);
  });

  // Reference mass of ISO 11228-1 (from memory): 25 kg.
  test('placement/heavy-lift: over 25 kg', () => {
    expect(findingsOf(placementHeavyLift, room(1.2, 26))[0]?.message).toBe(
      'Caution: top weighs 26 kg',
    );
    expect(findingsOf(placementHeavyLift, room(1.2, 25))).toEqual([]);
    expect(findingsOf(placementHeavyLift, room(1.2, null))).toEqual([]);
  });
});

describe('boundary/early-reflection', () => {
  const covered = (share: number): readonly Surface[] =>
    ['ceiling', 'front', 'back', 'left', 'right'].map((name) => ({
      name,
      covering: { kind: 'absorption', absorption: { frequency_hz: [1000], value: [share] } },
    }));
  const inRoom = (surfaces: readonly Surface[]) =>
    stereoRoom({ space: spaceWith({ shape: box(5, 6.6, 2.9), surfaces }) });

  test('hard walls are told with level and time', () => {
    const [finding] = findingsOf(earlyReflection, inRoom([]));
    expect(finding?.path).toEqual(['seats', 'mix']);
    expect(finding?.message).toMatch(/within 15.00 ms at mix above -10.0 dB: (left|right) off the/);
  });

  // 95 % absorbed leaves 10 lg 0.05 = −13 dB, and the longer way takes more.
  test('surfaces that absorb 95 % are quiet', () => {
    expect(findingsOf(earlyReflection, inRoom(covered(0.95)))).toEqual([]);
  });

  test('no seat, no finding', () => {
    expect(findingsOf(earlyReflection, { ...inRoom([]), seats: [] })).toEqual([]);
  });
});
