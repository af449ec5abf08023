// The demo's files read as the server reads them: the analysis recovers the truth that they were made from.
//
// Arrivals, levels and decay times are rows of the accuracy report too; the truth is test/synthesis, its image sources and geometry.

import { expect, test } from 'vitest';
import { demoTakeCases, demoVerification } from '../accuracy/cases/demoTakes.ts';
import { checkComparisons } from '../support/checkComparisons.ts';
import { demoTake, demoTakes } from '../support/demoTakes.ts';
import { HERON } from '../synthesis/heronTruth.ts';
import { MAGPIE } from '../synthesis/magpieTruth.ts';
import type { RoomTruth } from '../synthesis/roomTruth.ts';

checkComparisons(demoTakeCases);

test.each([
  ['heron', 'left_mix'],
  ['heron', 'right_beside'],
  ['magpie', 'right_mix'],
])('%s %s: upright, as it was made', (room, id) => {
  expect(demoTake(room, id).polarity).toBe('upright');
});

test('the subwoofer’s recorded sweep: inverted as dialled in, by phase against the plan; the room agrees with its file', () => {
  const verification = demoVerification('heron');
  const sub = verification?.takes.find(({ take }) => take === 'sub_mix');
  expect(sub?.polarity).toMatchObject({ measured: 'inverted', agrees: true });
  expect(verification?.sessions).toMatchObject([{ verdict: 'agrees', causes: [] }]);
  expect(verification?.takes.map(({ take, summary }) => `${take} ${summary}`)).toEqual(
    demoTakes('heron').measured.sessions[0]?.takes.map(({ take }) => `${take} agrees`),
  );
});

test('the badly set-up room: the delay that was taken out and the polarity that was turned are named together', () => {
  const [verdict] = demoVerification('magpie')?.sessions ?? [];
  expect(verdict?.verdict).toBe('explained');
  const named = verdict?.causes.filter(({ explanation }) => explanation === 1);
  expect(named).toMatchObject([
    {
      kind: 'delay',
      path: ['settings', 'sub', 'ports', 'out_left', 'delay'],
      message: 'The delay of 3 ms for right seems not to be dialled in',
      togetherWith: ['the polarity of sub turned over'],
    },
    {
      kind: 'polarity',
      path: ['settings', 'sub', 'polarity'],
      fix: { title: 'Write that the polarity is inverted (one of 2 causes)' },
    },
  ]);
});

/** Our own limits on how far a truth may be from what a surveyor would have written. */
const MOST_OFF_M = 0.01;

test.each<[string, RoomTruth]>([
  ['heron', HERON],
  ['magpie', MAGPIE],
])('%s: the truth is not its file, but within what the file states', (name, truth) => {
  const { room } = demoTakes(name).setup;
  const { shape } = room.space;
  if (shape?.kind !== 'box') throw new RangeError('no box');
  const { plusMinus } = room;
  const sides = (['width', 'depth', 'height'] as const).map((side, i) => ({
    off_m: Math.abs(shape[`${side}_m`] - (truth.size_m[i] ?? 0)),
    most_m: plusMinus[`space.size.${side}`] ?? MOST_OFF_M,
  }));
  for (const { off_m, most_m } of sides) {
    expect(off_m).toBeLessThanOrEqual(most_m);
    expect(off_m).toBeGreaterThan(0);
  }
  const places = [...room.speakers, ...room.subwoofers].map(({ id, at }) => {
    const [x, y, z] = truth.at[id as keyof typeof truth.at];
    return at === null ? 1 : Math.hypot(at.x_m - x, at.y_m - y, at.z_m - z);
  });
  expect(Math.max(...places)).toBeLessThan(MOST_OFF_M);
  expect(Math.min(...places)).toBeGreaterThan(0);
});
