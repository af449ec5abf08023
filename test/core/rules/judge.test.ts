// A judge gives what all rules give, and keeps the findings of rules whose inputs stayed the same.

import { expect, test } from 'vitest';
import { createJudge } from '../../../core/rules/judge.ts';
import { runRules } from '../../../core/rules/run.ts';
import type { Setup } from '../../../core/setup.ts';
import { showFor } from '../../../core/show.ts';
import { withField } from '../../../core/withField.ts';
import { demoRooms } from '../../support/demoRooms.ts';

const TODAY = { today: '2026-11-20' };

function heron(): Setup {
  const room = demoRooms().find(({ name }) => name === 'heron');
  if (room === undefined) throw new RangeError('no demo room heron');
  return room.setup;
}

test('a field that comes brings its findings, one that goes takes them away', () => {
  const bare = heron();
  const whole = withField(bare, { ...TODAY, envelope: false });
  const judge = createJudge();
  for (const setup of [bare, whole, bare, whole]) {
    const judged = judge({ ...setup, findings: [] }, TODAY);
    expect(judged.findings).toEqual(runRules(setup, showFor(setup.room.habits), TODAY));
  }
  expect(whole.findings.some(({ code }) => code.startsWith('field/'))).toBe(true);
});

test('what does not read the field is not judged again', () => {
  const bare = heron();
  const { field = null } = withField(bare, { ...TODAY, envelope: false });
  const judge = createJudge();
  const one = judge({ ...bare, field }, TODAY).findings;
  const other = judge({ ...bare, field: field && { ...field, notes: [] } }, TODAY).findings;
  const ofRoom = one.filter(({ code }) => code.startsWith('layout/') || code.startsWith('space/'));
  expect(ofRoom.length).toBeGreaterThan(0);
  for (const finding of ofRoom) expect(other).toContain(finding);
});
