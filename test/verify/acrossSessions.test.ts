// Sessions of one set-up on different days: what one alone cannot tell, what the other tells, and where they contradict each other.
//
// Source of the truth: test/synthesis (Allen & Berkley's images with plane-wave coefficients). That evidence of independent takes adds up:
// MacKay, Information Theory, Inference, and Learning Algorithms (2003), chapter 28.

import { expect, test } from 'vitest';
import { HERON } from '../synthesis/heronTruth.ts';
import type { RoomTruth } from '../synthesis/roomTruth.ts';
import {
  type Day,
  MIDDLE_ONLY,
  otherwise,
  plannedRoom,
  SIDES_ONLY,
  TAKES,
  verdictsOn,
} from '../synthesis/seededRoom.ts';
import type { PlannedTake } from '../synthesis/takes.ts';

/** Winter is colder than autumn, and its microphone gain another. */
const AUTUMN = { id: 'autumn', date: '2026-11-03', temperature_k: 295.15 };
const WINTER = { id: 'winter', date: '2027-01-12', temperature_k: 292.15 };

function onTwoDays(
  [first, second]: readonly [readonly PlannedTake[], readonly PlannedTake[]],
  [then, later]: readonly [RoomTruth, RoomTruth],
  seed: number,
) {
  const days: readonly [Day, Day] = [
    { ...AUTUMN, takes: first },
    { ...WINTER, takes: second },
  ];
  const [autumn, winter] = verdictsOn(plannedRoom(days), [
    { ...days[0], truth: { ...then, temperature_k: AUTUMN.temperature_k }, seed },
    { ...days[1], truth: { ...later, temperature_k: WINTER.temperature_k }, seed: seed + 1 },
  ]);
  if (autumn === undefined || winter === undefined) throw new Error('no verdict');
  return { autumn, winter };
}

const MIDDLE_THEN_SIDES = [MIDDLE_ONLY, SIDES_ONLY] as const;
const twice = (truth: RoomTruth) => [truth, truth] as const;

test('a loudspeaker farther left is undecided from the middle or from the sides alone, and clear with both', () => {
  const [x, y, z] = HERON.at.left;
  const wide = otherwise.moved(HERON, 'left', [x - 0.3, y, z]);
  const { autumn, winter } = onTwoDays(MIDDLE_THEN_SIDES, twice(wide), 820);
  for (const [one, other] of [
    [autumn, 'winter'],
    [winter, 'autumn'],
  ] as const) {
    expect(one.verdict).toBe('explained');
    expect(one.pooledWith).toEqual([other]);
    expect(one.causes[0]).toMatchObject({
      kind: 'distance',
      path: ['speakers', 'left', 'at', 'x'],
    });
    expect(one.contradicted).toBeUndefined();
  }
  // By hand: 0.30 m, within four of the errors that are told for a single take's place.
  expect(autumn.causes[0]?.message).toMatch(
    /left seems to stand (2[4-9]|3[0-6])\d mm farther to the left/,
  );
});

test('what was put right before the later session is told as that', () => {
  const late = otherwise.late(HERON, 'left', 0.0018);
  const { autumn, winter } = onTwoDays([TAKES, TAKES], [late, HERON], 830);
  expect(autumn).toMatchObject({
    verdict: 'explained',
    contradicted: [{ by: 'winter', isPutRight: true }],
  });
  expect(autumn.contradicted?.[0]?.message).toMatch(/put right before winter$/);
  expect(winter).toMatchObject({ verdict: 'agrees', differs: false });
  expect(winter.contradicted).toBeUndefined();
});

test('what came about after the earlier session is told as that', () => {
  const turned = otherwise.turned(HERON, 'right');
  const { autumn, winter } = onTwoDays([TAKES, TAKES], [HERON, turned], 840);
  expect(autumn.verdict).toBe('agrees');
  expect(winter).toMatchObject({
    verdict: 'explained',
    contradicted: [{ by: 'autumn', isPutRight: false }],
  });
  expect(winter.contradicted?.[0]?.message).toMatch(/come about after autumn$/);
});

test('takes from the middle agree once those of another day rule a swap out', () => {
  const { autumn, winter } = onTwoDays(MIDDLE_THEN_SIDES, twice(HERON), 850);
  expect(autumn).toMatchObject({ verdict: 'agrees', pooledWith: ['winter'], cannotTell: [] });
  expect(autumn.elsewhere?.join()).toMatch(/left and right swapped would look the same in these/);
  expect(winter.verdict).toBe('agrees');
});

test('takes from the middle stay undecided where those of another day show a swap', () => {
  const { autumn, winter } = onTwoDays(MIDDLE_THEN_SIDES, twice(otherwise.swapped(HERON)), 860);
  expect(winter).toMatchObject({ verdict: 'explained', causes: [{ kind: 'swapped' }] });
  expect(autumn.verdict).toBe('undecided');
  expect(autumn.elsewhere).toEqual(['The takes of winter show left and right swapped']);
});
