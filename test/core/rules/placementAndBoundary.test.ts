// Rules on places: placement/sub-on-midline, sub-in-corner, sub-not-in-line, source-near-wall; boundary/notch, notch-in-crossover.

import { describe, expect, test } from 'vitest';
import { boundaryNotch } from '../../../core/rules/boundary/notch.ts';
import { boundaryNotchInCrossover } from '../../../core/rules/boundary/notchInCrossover.ts';
import { sourceNearWall } from '../../../core/rules/placement/sourceNearWall.ts';
import { subInCorner } from '../../../core/rules/placement/subInCorner.ts';
import { subNotInLine } from '../../../core/rules/placement/subNotInLine.ts';
import { subOnMidline } from '../../../core/rules/placement/subOnMidline.ts';
import type { CrossoverFigures } from '../../../core/setup.ts';
import { findingsOf, told } from '../../support/findingsOf.ts';
import {
  box,
  EMPTY_ROOM,
  gear,
  plan,
  point,
  roomWith,
  seat,
  spaceWith,
  speaker,
  stereoRoom,
  subwoofer,
} from '../../support/rooms.ts';

const PLACEMENT = [subOnMidline, subInCorner, subNotInLine];

/** Room of 5 × 6.6 × 2.9 m, mains at y = 1.2 m. */
function withSub(x_m: number, y_m: number) {
  return stereoRoom({ subwoofers: [subwoofer('sub', point(x_m, y_m, 0.3))] });
}

test('off the midlines, out of the corners, in line with the mains: no finding', () => {
  expect(findingsOf(PLACEMENT, withSub(1.9, 1))).toEqual([]);
});

test('several subwoofers, or none, or nothing known: these rules say nothing', () => {
  const two = stereoRoom({
    subwoofers: [
      subwoofer('a', point(2.5, 0.3, 0.3)),
      subwoofer('b', point(0.3, 0.3, 0.3)), // symmetric places suit several
    ],
  });
  for (const room of [two, stereoRoom(), EMPTY_ROOM]) {
    expect(findingsOf(PLACEMENT, room)).toEqual([]);
  }
});

describe('placement/sub-on-midline', () => {
  test('half-way across, and half-way back', () => {
    expect(told(findingsOf(subOnMidline, withSub(2.55, 1)))).toEqual([
      'subwoofers.sub.at.x: sub is 50 mm from the midline between the left and right walls',
    ]);
    expect(told(findingsOf(subOnMidline, withSub(1, 3.3)))).toEqual([
      'subwoofers.sub.at.y: sub is on the midline between the front and back walls',
    ]);
  });

  test('the edge: sin(π d/5 m) = 0.1 at 0.1594 m', () => {
    expect(findingsOf(subOnMidline, withSub(2.5 + 0.159, 1)).length).toBe(1);
    expect(findingsOf(subOnMidline, withSub(2.5 + 0.16, 1))).toEqual([]);
  });

  test('other shapes have no midline', () => {
    const shape = plan({ front: [0, 0], right: [5, 0], back: [4, 6], left: [1, 6] }, 2.5);
    const room = { ...withSub(2.5, 1), space: spaceWith({ shape }) };
    expect(findingsOf(subOnMidline, room)).toEqual([]);
  });
});

describe('placement/sub-in-corner', () => {
  test('0.5 m from it on the plan; 0.6 m is the edge', () => {
    expect(told(findingsOf(subInCorner, withSub(0.3, 0.4)))).toEqual([
      'subwoofers.sub.at: sub is 0.50 m from a corner of the room',
    ]);
    expect(findingsOf(subInCorner, withSub(0.36, 0.481))).toEqual([]); // 0.36 : 0.48 : 0.60
  });
});

describe('placement/sub-not-in-line', () => {
  test('0.9 m behind, with a fix; 0.5 m is the edge', () => {
    const [finding] = findingsOf(subNotInLine, withSub(1.9, 0.3));
    expect(finding?.message).toBe('sub stands 0.90 m behind the line of the mains');
    expect(finding?.fixes[0]?.edits).toEqual([
      { do: 'set', path: ['subwoofers', 'sub', 'at', 'y'], value: '1.20 m' },
    ]);
    expect(findingsOf(subNotInLine, withSub(1.9, 0.7))).toEqual([]);
    expect(told(findingsOf(subNotInLine, withSub(1.9, 2)))).toEqual([
      'subwoofers.sub.at.y: sub stands 0.80 m in front of the line of the mains',
    ]);
  });
});

describe('placement/source-near-wall', () => {
  const fronts = (y_m: number, flushIn: string | null = null) =>
    stereoRoom({
      speakers: [
        speaker('left', 'L', point(1.3, y_m, 1.2), { flushIn }),
        speaker('right', 'R', point(3.7, y_m, 1.2), { flushIn }),
      ],
    });

  test('one finding for the pair, nearest first', () => {
    const findings = findingsOf(sourceNearWall, fronts(0.8));
    expect(told(findings)).toEqual([
      'speakers.left.at: left 0.80 m from the front wall, right 0.80 m from the front wall: less than 1.00 m',
    ]);
    expect(findings[0]?.severity).toBe('hint');
    expect(findings[0]?.related.map(({ path }) => path[1])).toEqual(['right']);
  });

  test('a metre is the edge (ITU-R BS.1116), built in none is asked for; no room is quiet', () => {
    expect(findingsOf(sourceNearWall, fronts(1))).toEqual([]);
    expect(findingsOf(sourceNearWall, { ...fronts(0.8), space: spaceWith({}) })).toEqual([]);
    const walled = fronts(0, 'front').speakers.map((one) => ({ ...one, flushIn: 'front' }));
    expect(findingsOf(sourceNearWall, stereoRoom({ speakers: walled }))).toEqual([]);
  });

  test('surrounds are bound to their direction', () => {
    const rear = roomWith({
      space: spaceWith({ shape: box(5, 6, 3) }),
      seats: [seat('mix', point(2.5, 3, 1.2))],
      speakers: [speaker('rear', 'Ls', point(0.3, 3.5, 1.2))],
    });
    expect(findingsOf(sourceNearWall, rear)).toEqual([]);
  });
});

describe('boundary/notch', () => {
  /** One loudspeaker straight ahead, `wall_m` before the front wall, 4 m from the seat; far side walls. */
  const ahead = (wall_m: number, minus6db_hz?: number) =>
    roomWith({
      space: spaceWith({ shape: box(12, 14, 8) }),
      air: { ...EMPTY_ROOM.air, speedOfSound_m_s: 343 },
      seats: [seat('mix', point(6, wall_m + 4, 4))],
      speakers: [
        speaker('mid', 'C', point(6, wall_m, 4), {
          gear:
            minus6db_hz === undefined
              ? null
              : gear('heath', 'loudspeaker', {
                  lowEnd: {
                    minus6db_hz,
                    slope_db_oct: 24,
                    kind: 'vented',
                    protection: null,
                    responseFile: null,
                  },
                }),
        }),
      ],
    });

  test('a hard wall a metre behind: c/(4 d) = 85.75 Hz, 20 lg(1 − 4/6) = −9.5 dB', () => {
    const [finding] = findingsOf(boundaryNotch, ahead(1));
    // the quarter wave of 250 Hz is 0.343 m
    expect(finding?.message).toBe(
      'At mix the reflection off the front wall takes 9.5 dB out of mid at 85.8 Hz; within 0.34 m of it the notch lies above 250 Hz',
    );
    expect(finding?.severity).toBe('information');
  });

  test('quiet: above 250 Hz, below the loudspeaker’s range, or shallower than 6 dB', () => {
    expect(findingsOf(boundaryNotch, ahead(0.34))).toEqual([]); // 252 Hz
    expect(findingsOf(boundaryNotch, ahead(1, 90))).toEqual([]); // −6 dB at 90 Hz
    expect(findingsOf(boundaryNotch, ahead(1, 80)).length).toBe(1);
    const absorption = { frequency_hz: [80], value: [0.5] }; // g = 4/6 × 0.707 = 0.47: −5.5 dB
    const surfaces = [{ name: 'front', covering: { kind: 'absorption', absorption } as const }];
    const soft = { ...ahead(1), space: spaceWith({ shape: box(12, 14, 8), surfaces }) };
    expect(findingsOf(boundaryNotch, soft)).toEqual([]);
  });

  test('quiet without room or seat, and where it is built in', () => {
    expect(findingsOf(boundaryNotch, { ...ahead(1), space: spaceWith({}) })).toEqual([]);
    expect(findingsOf(boundaryNotch, { ...ahead(1), seats: [] })).toEqual([]);
    const [mid] = ahead(1).speakers;
    const flush = mid ? [{ ...mid, flushIn: 'front' }] : [];
    expect(findingsOf(boundaryNotch, { ...ahead(1), speakers: flush })).toEqual([]);
  });

  test('boundary/notch-in-crossover: within half an octave of the crossover, and then not told twice', () => {
    const crossedAt = (
      frequency_hz: number,
    ): { readonly crossovers: readonly CrossoverFigures[] } => ({
      crossovers: [
        {
          device: 'sub',
          set: null,
          path: ['settings', 'sub', 'crossover'],
          mains: ['mid'],
          subs: ['sub'],
          mainsMinus6db_hz: null,
          current: {
            filter: { frequency_hz, slope_db_oct: 24, family: 'linkwitz_riley' },
            polarity: 'normal',
            subDelay_s: 0,
            ripple_db: 0,
            dip: { frequency_hz, level_db: 0 },
            bump: { frequency_hz, level_db: 0 },
            phaseAtCrossover_rad: 0,
            worstPhase_rad: 0,
            overlap_hz: [frequency_hz, frequency_hz],
            curve: { frequency_hz: [], main_db: [], sub_db: [], sum_db: [] },
            reasons: [],
          },
          bypassed: false,
          practice: null,
          ranked: [],
          caveat: null,
        },
      ],
    });
    const both = [boundaryNotch, boundaryNotchInCrossover];
    const codes = (frequency_hz: number) =>
      findingsOf(both, ahead(1), { parts: crossedAt(frequency_hz) }).map(({ code }) => code);
    expect(codes(80)).toEqual(['boundary/notch-in-crossover']);
    expect(codes(60)).toEqual(['boundary/notch']); // 85.75/60 = 1.43, half an octave is 1.41
    expect(codes(122)).toEqual([]); // below the mains’ band
    const [finding] = findingsOf(boundaryNotchInCrossover, ahead(1), { parts: crossedAt(80) });
    expect(finding?.message).toBe(
      'At mix the reflection off the front wall takes 9.5 dB out of mid at 85.8 Hz, beside the crossover at 80 Hz',
    );
    expect(findingsOf(boundaryNotchInCrossover, ahead(1))).toEqual([]);
  });
});
