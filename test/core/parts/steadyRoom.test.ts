// The steady room: what reads the same stays the same object, item by item; what does not is another one.

import { expect, test } from 'vitest';
import { createSteadyRoom } from '../../../core/parts/steadyRoom.ts';
import { point, speaker, stereoRoom } from '../../support/rooms.ts';

const left = () => speaker('left', 'L', point(1.2, 0.6, 1.2));
const right = () => speaker('right', 'R', point(3.4, 0.6, 1.2));

test('a room that reads the same is the very same room', () => {
  const steady = createSteadyRoom();
  const first = steady(stereoRoom({ speakers: [left(), right()] }));
  expect(steady(stereoRoom({ speakers: [left(), right()] }))).toBe(first);
});

test('one loudspeaker moves: the other one, and the wiring, stay what they were', () => {
  const steady = createSteadyRoom();
  const before = steady(stereoRoom({ speakers: [left(), right()] }));
  const moved = speaker('left', 'L', point(1.3, 0.6, 1.2));
  const after = steady(stereoRoom({ speakers: [moved, right()] }));
  expect(after.room.speakers).not.toBe(before.room.speakers);
  expect(after.room.speakers[0]?.at?.x_m).toBe(1.3);
  expect(after.room.speakers[1]).toBe(before.room.speakers[1]);
  expect(after.room.seats).toBe(before.room.seats);
  expect(after.wired.speakers).toBe(before.wired.speakers);
});

test('one more loudspeaker before the others', () => {
  const steady = createSteadyRoom();
  const before = steady(stereoRoom({ speakers: [left(), right()] }));
  const centre = speaker('centre', 'C', point(2.3, 0.5, 1.2));
  const after = steady(stereoRoom({ speakers: [centre, left(), right()] }));
  expect(after.room.speakers.map(({ id }) => id)).toEqual(['centre', 'left', 'right']);
  expect(after.room.speakers[1]).toBe(before.room.speakers[0]);
  const fewer = steady(stereoRoom({ speakers: [left()] }));
  expect(fewer.room.speakers.map(({ id }) => id)).toEqual(['left']);
});
