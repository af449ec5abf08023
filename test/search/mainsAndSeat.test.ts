// Moving the main pair and the seat: symmetric, on the middle line, by one measure either way.
import { expect, test } from 'vitest';
import { searchMains, searchSeat } from '../../core/search/mainsAndSeat.ts';
import { expectNear } from '../support/expectNear.ts';
import { geometrySetup } from '../support/findingsOf.ts';
import { box, point, seat, spaceWith, speaker, stereoRoom, subwoofer } from '../support/rooms.ts';

const WIDTH_M = 4.6;
const setup = geometrySetup(
  stereoRoom({
    space: spaceWith({ shape: box(WIDTH_M, 6.2, 2.9) }),
    seats: [
      seat('mix', point(2.3, 2.44, 1.22), { isReference: true }),
      seat('sofa', point(2.3, 4.2, 1.1)),
    ],
    speakers: [
      speaker('left', 'L', point(1.25, 0.62, 1.22)),
      speaker('right', 'R', point(3.35, 0.62, 1.22)),
    ],
    subwoofers: [subwoofer('sub', point(1.75, 0.6, 0.25))],
  }),
);

test('the seat stays on the middle line, behind the pair, under about 60° (ITU-R BS.775: ±30°)', () => {
  const found = searchSeat(setup);
  expect(found?.candidates.length).toBeGreaterThan(0);
  for (const { places } of found?.candidates ?? []) {
    const { x_m = 0, y_m = 0 } = places.mix ?? {};
    expectNear(x_m, WIDTH_M / 2, 1e-9, 'm');
    const angle = (2 * Math.atan2(3.35 - WIDTH_M / 2, y_m - 0.62) * 180) / Math.PI;
    expect(50 <= angle && angle <= 70).toBe(true);
  }
});

test('the pair stays symmetric about the middle', () => {
  const found = searchMains(setup);
  expect(found?.candidates.length).toBeGreaterThan(0);
  for (const { places } of found?.candidates ?? []) {
    expectNear((places.left?.x_m ?? 0) + (places.right?.x_m ?? 0), WIDTH_M, 1e-9, 'm');
    expect(places.left?.y_m).toBe(places.right?.y_m);
  }
});

test('both searches judge the room as it stands alike, whichever side listens (reciprocity)', () => {
  const [seatNow, mainsNow] = [searchSeat(setup)?.current, searchMains(setup)?.current];
  expectNear(seatNow?.cost_db ?? 0, mainsNow?.cost_db ?? 1, 0.02, 'dB');
});

test('best first; nothing to move without a pair, a seat or a size', () => {
  for (const found of [searchSeat(setup), searchMains(setup)]) {
    const costs = found?.candidates.map(({ cost_db }) => cost_db) ?? [];
    expect(costs).toEqual(costs.toSorted((a, b) => a - b));
  }
  const { room } = setup;
  const without = (part: Partial<typeof room>) => ({ ...setup, room: { ...room, ...part } });
  expect(searchMains(without({ speakers: [] }))).toBeNull();
  expect(searchSeat(without({ seats: [] }))).toBeNull();
  expect(searchSeat(without({ space: spaceWith({ shape: null }) }))).toBeNull();
});
