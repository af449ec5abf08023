// Angles at the seats, and how loudspeakers stand against a layout of BS.775 and BS.2051.

import { expect, test } from 'vitest';
import { anglesPart } from '../../../core/parts/angles.ts';
import { beyondAzimuth_rad, layoutPart } from '../../../core/parts/layout.ts';
import type { Room } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import {
  EMPTY_ROOM,
  point,
  policyWith,
  roomWith,
  seat,
  speaker,
  stereoRoom,
  subwoofer,
} from '../../support/rooms.ts';

const RAD = Math.PI / 180;

function layoutsOf(room: Room) {
  return layoutPart(room, anglesPart(room)).layouts;
}

/**
 * Places round a seat at 0, 0; x to the right, y to the back; told to 0.1 mm, so angles to 5e-5 rad.
 *
 * @source BS.775 geometry: +30° and +110° at 2.4 m, base width 2.400 m; 30° up, 2 m away on the plan, is 1.1547 m above the ears
 */
const BEARINGS = [
  { at: point(-1.2, -2.0785, 1.2), azimuth: 30, elevation: 0 },
  { at: point(1.2, -2.0785, 1.2), azimuth: -30, elevation: 0 },
  { at: point(-2.2553, 0.8208, 1.2), azimuth: 110, elevation: 0 },
  { at: point(0, -2, 2.3547), azimuth: 0, elevation: 30 },
  { at: point(0, 2, 3.2), azimuth: 180, elevation: 45 },
  { at: point(0, 0, 3), azimuth: 0, elevation: 90 },
] as const;

test.each(BEARINGS)('$azimuth° across, $elevation° up', ({ at, azimuth, elevation }) => {
  const room = roomWith({
    seats: [seat('mix', point(0, 0, 1.2))],
    speakers: [speaker('one', null, at)],
  });
  const [angles] = anglesPart(room).seats;
  const [seen] = angles?.angles ?? [];
  expectNear(Math.abs(seen?.azimuth_rad ?? 0), Math.abs(azimuth) * RAD, 5e-5, 'rad');
  expect(Math.sign(Math.round((seen?.azimuth_rad ?? 0) * 1e4))).toBe(Math.sign(azimuth));
  expectNear(seen?.elevation_rad ?? Number.NaN, elevation * RAD, 5e-5, 'rad');
});

test('a seat or source without a place has no angles', () => {
  const room = roomWith({
    seats: [seat('mix', null), seat('side', point(1, 1, 1))],
    speakers: [speaker('one', null, null)],
  });
  expect(anglesPart(room).seats).toEqual([
    { seat: 'mix', angles: [] },
    { seat: 'side', angles: [] },
  ]);
});

test('the triangle of BS.775 fits 0+2+0; base width and distance follow', () => {
  const [layout] = layoutsOf(stereoRoom());
  expect(layout?.positions.map(({ speaker: id, fits }) => [id, fits])).toEqual([
    ['left', true],
    ['right', true],
  ]);
  expectNear(layout?.baseWidth_m ?? 0, 2.4, 1e-9, 'm'); // BS.775: base width 2.400 m at 2.4 m
  expectNear(layout?.listeningDistance_m ?? 0, 2.0785, 1e-4, 'm'); // height of that triangle
});

test('sets have a layout each; the room’s own stands in', () => {
  const room = stereoRoom({
    sets: [
      { id: 'near', speakers: ['left', 'right'], subwoofers: [], layout: null },
      { id: 'far', speakers: ['left', 'right'], subwoofers: [], layout: '0+5+0' },
    ],
  });
  const layouts = layoutsOf(room);
  expect(layouts.map(({ set, layout }) => [set, layout])).toEqual([
    ['near', '0+2+0'],
    ['far', '0+5+0'],
  ]);
  expect(
    layouts[1]?.positions.filter(({ speaker: id }) => id === null).map((p) => p.label),
  ).toEqual(['M+000', 'LFE1', 'M+110', 'M-110']);
});

test('the only layout of the policy stands in for a missing target', () => {
  const targets = EMPTY_ROOM.targets;
  const one = stereoRoom({ targets, policy: policyWith({ layouts: ['0+2+0'] }) });
  expect(layoutsOf(one).length).toBe(1);
  const two = stereoRoom({ targets, policy: policyWith({ layouts: ['0+2+0', '0+5+0'] }) });
  expect(layoutsOf(two)).toEqual([]);
});

test('a name that is no layout is told and compared with nothing', () => {
  const room = stereoRoom({ targets: { ...EMPTY_ROOM.targets, layout: '5.1' } });
  const { layouts, notes } = layoutPart(room, anglesPart(room));
  expect(layouts).toEqual([]);
  expect(notes).toEqual([
    {
      path: ['targets', 'layout'],
      message: '5.1 is no layout of ITU-R BS.2051: nothing is compared',
    },
  ]);
});

test('a subwoofer stands for the LFE loudspeaker, and its angle is not judged', () => {
  const room = stereoRoom({
    subwoofers: [subwoofer('sub', point(1, 0.5, 0.3))],
    targets: { ...EMPTY_ROOM.targets, layout: '0+5+0' },
  });
  const lfe = layoutsOf(room)[0]?.positions.find(({ label }) => label === 'LFE1');
  expect(lfe?.speaker).toBe('sub');
  expect(lfe?.fits).toBeNull();
});

test('an azimuth of −178° is 2° from 180°', () => {
  expectNear(beyondAzimuth_rad(-178 * RAD, [Math.PI, Math.PI]), 2 * RAD, 1e-12, 'rad');
});
