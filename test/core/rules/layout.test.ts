// Rules on the layout: layout/azimuth, elevation, height, missing, unexpected, channel-twice, symmetry, distance, base-width,
// listening-distance. Angles by trigonometry from BS.775 and BS.2051; tolerances are common practice, no source.

import { describe, expect, test } from 'vitest';
import { placeAt } from '../../../core/acoustics/layoutAngles.ts';
import { layoutAzimuth } from '../../../core/rules/layout/azimuth.ts';
import { layoutBaseWidth } from '../../../core/rules/layout/baseWidth.ts';
import { layoutChannelTwice } from '../../../core/rules/layout/channelTwice.ts';
import { layoutDistance } from '../../../core/rules/layout/distance.ts';
import { layoutElevation } from '../../../core/rules/layout/elevation.ts';
import { layoutHeight } from '../../../core/rules/layout/height.ts';
import { layoutListeningDistance } from '../../../core/rules/layout/listeningDistance.ts';
import { layoutMissing } from '../../../core/rules/layout/missing.ts';
import { layoutSymmetry } from '../../../core/rules/layout/symmetry.ts';
import { layoutUnexpected } from '../../../core/rules/layout/unexpected.ts';
import type { Policy, Room, Speaker } from '../../../schema/model/room.ts';
import { findingsOf, told } from '../../support/findingsOf.ts';
import {
  EMPTY_ROOM,
  point,
  policyWith,
  roomWith,
  seat,
  speaker,
  stereoRoom,
  subwoofer,
  TRIANGLE,
} from '../../support/rooms.ts';

const RAD = Math.PI / 180;
const EAR = point(3, 4, 1.2);

/** A loudspeaker 2 m from the seat in a direction, degrees. */
function towards(id: string, channel: string, azimuth: number, elevation = 0): Speaker {
  const to = { azimuth_rad: azimuth * RAD, elevation_rad: elevation * RAD, distance_m: 2 };
  return speaker(id, channel, placeAt(EAR, to));
}

function roomOf(layout: string, speakers: readonly Speaker[], policy: Partial<Policy> = {}): Room {
  return roomWith({
    seats: [seat('mix', EAR)],
    speakers,
    subwoofers: [subwoofer('sub', point(2, 1, 0.3))],
    targets: { ...EMPTY_ROOM.targets, layout },
    policy: policyWith(policy),
  });
}

const LAYOUT_RULES = [
  layoutMissing,
  layoutUnexpected,
  layoutChannelTwice,
  layoutAzimuth,
  layoutElevation,
  layoutHeight,
  layoutSymmetry,
  layoutDistance,
  layoutBaseWidth,
  layoutListeningDistance,
];

test('the triangle of BS.775 has no finding', () => {
  expect(findingsOf(LAYOUT_RULES, stereoRoom())).toEqual([]);
});

test('nothing recorded, no layout named, no places: no finding', () => {
  const unplaced = roomOf('0+2+0', [speaker('left', 'L', null), speaker('right', null, null)]);
  const rules = LAYOUT_RULES.filter((rule) => rule !== layoutMissing); // a channel is missing there
  expect(findingsOf(rules, unplaced)).toEqual([]);
  expect(findingsOf(LAYOUT_RULES, EMPTY_ROOM)).toEqual([]);
  expect(findingsOf(LAYOUT_RULES, stereoRoom({ targets: EMPTY_ROOM.targets }))).toEqual([]);
  expect(findingsOf(LAYOUT_RULES, stereoRoom({ seats: [] }))).toEqual([]);
});

test('a loudspeaker outside the room is told once, by geometry/outside, not by the layout as well', () => {
  const lost = stereoRoom({ speakers: [TRIANGLE.left, speaker('right', 'R', point(9, 1.2, 2))] });
  expect(findingsOf(LAYOUT_RULES, lost)).toEqual([]);
});

describe('layout/azimuth', () => {
  test('24° for 30°, with a fix that turns it round the seat', () => {
    const [finding, ...others] = findingsOf(
      layoutAzimuth,
      roomOf('0+2+0', [towards('left', 'L', 24), towards('right', 'R', -30)]),
    );
    expect(others).toEqual([]);
    expect(finding?.path).toEqual(['speakers', 'left', 'at']);
    expect(finding?.message).toBe('left (L) is at 24.0° left from mix, 0+2+0 asks for 30.0° left');
    // 30° at 2 m from 3, 4: x = 3 − 2 sin 30°, y = 4 − 2 cos 30°
    expect(finding?.fixes[0]?.edits).toEqual([
      { do: 'set', path: ['speakers', 'left', 'at', 'x'], value: '2.00 m' },
      { do: 'set', path: ['speakers', 'left', 'at', 'y'], value: '2.268 m' },
    ]);
  });

  test.each([
    ['0+2+0', 'L', 32, 0],
    ['0+2+0', 'L', 32.1, 1],
    ['0+5+0', 'Ls', 95, 0],
    ['0+5+0', 'Ls', 94.9, 1],
    ['0+5+0', 'Rs', -125, 0],
    ['0+5+0', 'Rs', -125.1, 1],
    ['0+7+0', 'L', 45, 0], // 30 to 45° in 0+7+0
    ['9+10+3', 'BC', -178, 0],
    ['9+10+3', 'BC', 174, 1],
  ])('%s %s at %d°: %d', (layout, channel, azimuth, count) => {
    const room = roomOf(layout, [towards('one', channel, azimuth)]);
    expect(findingsOf(layoutAzimuth, room).length).toBe(count);
  });

  test('the policy’s tolerance holds', () => {
    const speakers = [towards('left', 'L', 29)];
    const strict = { tolerances: { azimuth: 0.5 * RAD } };
    expect(findingsOf(layoutAzimuth, roomOf('0+2+0', speakers, strict)).length).toBe(1);
    expect(findingsOf(layoutAzimuth, roomOf('0+2+0', speakers)).length).toBe(0);
  });

  test('straight above there is no direction', () => {
    const room = roomOf('9+10+3', [towards('top', 'TpC', 140, 88)]);
    expect(findingsOf(layoutAzimuth, room)).toEqual([]);
  });

  test('left and right exchanged are found', () => {
    const room = roomOf('0+2+0', [towards('left', 'L', -30), towards('right', 'R', 30)]);
    const [finding] = findingsOf(layoutAzimuth, room);
    expect(finding?.message).toBe('left (L) is at 30.0° right from mix, 0+2+0 asks for 30.0° left');
    expect(finding?.fixes[0]?.edits).toEqual([
      { do: 'set', path: ['speakers', 'left', 'channel'], value: 'R' },
      { do: 'set', path: ['speakers', 'right', 'channel'], value: 'L' },
    ]);
  });
});

describe('layout/elevation', () => {
  test('15° for 30 to 55°', () => {
    const [finding] = findingsOf(layoutElevation, roomOf('4+7+0', [towards('top', 'Ltf', 40, 15)]));
    expect(finding?.message).toBe(
      'top (Ltf) is 15.0° above the ears of mix, 4+7+0 asks for 30.0° to 55.0°',
    );
    // 30° over 2 cos 15° = 1.9319 m on the plan: 1.2 + 1.9319 tan 30° = 2.315 m
    expect(finding?.fixes[0]?.edits).toEqual([
      { do: 'set', path: ['speakers', 'top', 'at', 'z'], value: '2.315 m' },
    ]);
  });

  test.each([
    ['4+7+0', 'Ltf', 25, 0],
    ['4+7+0', 'Ltf', 24.9, 1],
    ['4+7+0', 'Ltf', 60.1, 1],
    ['0+5+0', 'Ls', 20, 0], // 0 to 15° in 0+5+0
    ['0+5+0', 'Ls', 20.1, 1],
    ['4+5+0', 'Ls', 20.1, 0], // at ear height there: layout/height says so
  ])('%s %s at %d° up: %d', (layout, channel, elevation, count) => {
    const azimuth = channel === 'Ls' ? 110 : 40;
    const room = roomOf(layout, [towards('one', channel, azimuth, elevation)]);
    expect(findingsOf(layoutElevation, room).length).toBe(count);
  });
});

describe('layout/height', () => {
  const left = (z_m: number) => [speaker('left', 'L', point(2, 2.268, z_m))];

  test('0.15 m above the ears, with a fix', () => {
    const [finding] = findingsOf(layoutHeight, roomOf('0+2+0', left(1.35)));
    expect(finding?.message).toBe(
      'left is 150 mm above the ears of mix, within 100 mm is asked for',
    );
    expect(finding?.severity).toBe('information');
    expect(finding?.fixes[0]?.edits).toEqual([
      { do: 'set', path: ['speakers', 'left', 'at', 'z'], value: '1.20 m' },
    ]);
  });

  test('more than 10° of tilt makes it a warning (ITU-R BS.1116)', () => {
    const up_m = 2 * Math.tan(10.2 * RAD); // 2 m away on the plan
    const [finding] = findingsOf(layoutHeight, roomOf('0+2+0', left(1.2 + up_m)));
    expect(finding?.severity).toBe('warning');
  });

  test('0.1 m is the edge; the policy’s 50 mm is stricter', () => {
    expect(findingsOf(layoutHeight, roomOf('0+2+0', left(1.3)))).toEqual([]);
    expect(findingsOf(layoutHeight, roomOf('0+2+0', left(1.1)))).toEqual([]);
    const strict = { tolerances: { height: 0.05 } };
    expect(findingsOf(layoutHeight, roomOf('0+2+0', left(1.26), strict)).length).toBe(1);
  });

  test('height layers and raised surrounds are not its affair', () => {
    const top = roomOf('4+7+0', [towards('top', 'Ltf', 40, 40)]);
    const surround = roomOf('0+5+0', [towards('rear', 'Ls', 110, 14)]);
    expect(findingsOf(layoutHeight, top)).toEqual([]);
    expect(findingsOf(layoutHeight, surround)).toEqual([]);
  });
});

describe('layout/missing', () => {
  test('stereo loudspeakers under 0+5+0', () => {
    const room = roomOf('0+5+0', [towards('left', 'L', 30), towards('right', 'R', -30)]);
    expect(told(findingsOf(layoutMissing, room))).toEqual([
      'targets.layout: C, Ls, Rs of 0+5+0 have no loudspeaker',
    ]);
  });

  test('only the LFE missing is information', () => {
    const five = ['L', 'R', 'C', 'Ls', 'Rs'].map((channel) => towards(channel, channel, 0));
    const room = { ...roomOf('0+5+0', five), subwoofers: [] };
    const [finding] = findingsOf(layoutMissing, room);
    expect(finding?.message).toBe('LFE of 0+5+0 has no loudspeaker');
    expect(finding?.severity).toBe('information');
  });

  test('it is said at the set’s own layout', () => {
    const sets = [{ id: 'near', speakers: ['left'], subwoofers: [], layout: '0+2+0' }];
    const room = { ...stereoRoom(), sets };
    expect(told(findingsOf(layoutMissing, room))).toEqual([
      'sets.near.layout: R of 0+2+0 has no loudspeaker',
    ]);
  });

  test('all there, or a room without any loudspeaker yet: quiet', () => {
    expect(findingsOf(layoutMissing, stereoRoom())).toEqual([]);
    expect(findingsOf(layoutMissing, roomOf('0+5+0', []))).toEqual([]);
  });
});

describe('layout/unexpected', () => {
  test('a centre under 0+2+0', () => {
    const room = stereoRoom({
      speakers: [TRIANGLE.left, TRIANGLE.right, speaker('mid', 'C', null)],
    });
    expect(told(findingsOf(layoutUnexpected, room))).toEqual([
      'speakers.mid.channel: 0+2+0 has no channel C (mid)',
    ]);
  });

  test('another set’s loudspeakers and other spellings are no fault', () => {
    const speakers = [TRIANGLE.left, TRIANGLE.right, speaker('mid', 'C', null)];
    const sets = [{ id: 'near', speakers: ['left', 'right'], subwoofers: [], layout: '0+2+0' }];
    expect(findingsOf(layoutUnexpected, stereoRoom({ speakers, sets }))).toEqual([]);
    const labels = [speaker('a', 'M+030', null), speaker('b', 'right', null)];
    expect(findingsOf(layoutUnexpected, stereoRoom({ speakers: labels }))).toEqual([]);
  });
});

describe('layout/channel-twice', () => {
  test('two left ones, also under another spelling', () => {
    const room = stereoRoom({
      speakers: [TRIANGLE.left, TRIANGLE.right, speaker('near', 'M+030', null)],
    });
    expect(told(findingsOf(layoutChannelTwice, room))).toEqual([
      'speakers.near.channel: near has channel M+030, as left has',
    ]);
  });

  test('in two sets each may have its own', () => {
    const speakers = [TRIANGLE.left, TRIANGLE.right, speaker('near', 'L', null)];
    const sets = [
      { id: 'far', speakers: ['left', 'right'], subwoofers: [], layout: null },
      { id: 'close', speakers: ['near', 'right'], subwoofers: [], layout: null },
    ];
    expect(findingsOf(layoutChannelTwice, stereoRoom({ speakers, sets }))).toEqual([]);
  });
});

describe('layout/symmetry', () => {
  const right = (x_m: number, y_m: number, z_m: number) =>
    stereoRoom({ speakers: [TRIANGLE.left, speaker('right', 'R', point(x_m, y_m, z_m))] });

  test('3 cm off the mirror image, with a fix for either', () => {
    const [finding] = findingsOf(layoutSymmetry, right(3.7, 1.23, 1.2));
    expect(finding?.message).toBe(
      'right is 30 mm from the mirror image of left about mix, within 20 mm is asked for',
    );
    expect(finding?.fixes.map(({ edits }) => edits)).toEqual([
      [{ do: 'set', path: ['speakers', 'right', 'at', 'y'], value: '1.20 m' }],
      [{ do: 'set', path: ['speakers', 'left', 'at', 'y'], value: '1.23 m' }],
    ]);
  });

  test('2 cm is the edge, the policy may be stricter', () => {
    expect(findingsOf(layoutSymmetry, right(3.7, 1.2, 1.22))).toEqual([]);
    const policy = policyWith({ tolerances: { symmetry: 0.01 } });
    const strict = { ...right(3.7, 1.2, 1.22), policy };
    expect(findingsOf(layoutSymmetry, strict).length).toBe(1);
  });

  test('in a file in feet the fix is in feet', () => {
    const habits = { length: 'feet', temperature: 'celsius', mass: 'pound' } as const;
    const [finding] = findingsOf(layoutSymmetry, { ...right(3.7, 1.3, 1.2), habits });
    expect(finding?.fixes[0]?.edits).toEqual([
      { do: 'set', path: ['speakers', 'right', 'at', 'y'], value: '3 ft 11 1/4 in' }, // 1.20 m
    ]);
  });
});

describe('layout/distance', () => {
  const surround = (distance_m: number) => {
    const to = { azimuth_rad: 110 * RAD, elevation_rad: 0, distance_m };
    return roomOf('0+5+0', [towards('left', 'L', 30), speaker('rear', 'Ls', placeAt(EAR, to))]);
  };

  test('more than a tenth nearer than the farthest', () => {
    expect(told(findingsOf(layoutDistance, surround(1.5)))).toEqual([
      'speakers.rear.at: rear is 1.50 m away, left 2.00 m, and no delay makes up for it',
    ]);
  });

  test('a tenth is the edge, the policy may be stricter', () => {
    expect(findingsOf(layoutDistance, surround(1.8))).toEqual([]);
    const strict = { ...surround(1.9), policy: policyWith({ tolerances: { distance: 0.05 } }) };
    expect(findingsOf(layoutDistance, strict).length).toBe(1);
  });

  test('delayed to within a millisecond, or with a delay that is being advised, it is quiet', () => {
    const room = surround(1.5);
    const arrivalOf = (early_s: number | null, adviceIndex: number | null) => ({
      source: 'rear',
      distance_m: 1.5,
      flight_s: 1.5 / 343,
      pathLatency_s: 0,
      pathDelay_s: 0,
      arrival_s: null,
      early_s,
      neededDelay_s: null,
      adviceIndex,
    });
    const seen = (early_s: number | null, adviceIndex: number | null) =>
      findingsOf(layoutDistance, room, {
        parts: {
          seats: [{ id: 'mix', angles: [], arrivals: [arrivalOf(early_s, adviceIndex)] }],
        },
      });
    expect(seen(0.001, null)).toEqual([]);
    expect(seen(null, 0)).toEqual([]);
    expect(seen(0.0015, null).length).toBe(1);
  });
});

describe('layout/base-width', () => {
  const base = (width_m: number) =>
    stereoRoom({
      speakers: [
        speaker('left', 'L', point(2.5 - width_m / 2, 1.2, 1.2)),
        speaker('right', 'R', point(2.5 + width_m / 2, 1.2, 1.2)),
      ],
    });

  test.each([1.9, 4.1])('%d m apart is a hint (EBU Tech 3276: 2 to 4 m)', (width_m) => {
    const [finding] = findingsOf(layoutBaseWidth, base(width_m));
    expect(finding?.message).toContain(`Left and right are ${width_m.toFixed(2)} m apart`);
    expect(finding?.severity).toBe('hint');
  });

  test.each([2, 4])('%d m is the edge', (width_m) => {
    expect(findingsOf(layoutBaseWidth, base(width_m))).toEqual([]);
  });
});

describe('layout/listening-distance', () => {
  test('1.7 times the base is the edge (ITU-R BS.1116)', () => {
    const far = (y_m: number) => stereoRoom({ seats: [seat('mix', point(2.5, y_m, 1.2))] });
    expect(findingsOf(layoutListeningDistance, far(1.2 + 1.7 * 2.4 - 0.001))).toEqual([]);
    expect(told(findingsOf(layoutListeningDistance, far(5.4)))).toEqual([
      'seats.mix.at: mix is 4.20 m from the front pair, at most 4.08 m suits its base',
    ]);
  });
});
