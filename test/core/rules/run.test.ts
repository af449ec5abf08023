// Running the rules: order, policy, acceptances; the rules of the record: record/acceptance-ended, acceptance-unused, recheck-due.

import { describe, expect, test } from 'vitest';
import { isDay, monthsLater } from '../../../core/rules/day.ts';
import { RULES, ruleFor } from '../../../core/rules/index.ts';
import { layoutHeight } from '../../../core/rules/layout/height.ts';
import { acceptanceEnded } from '../../../core/rules/record/acceptanceEnded.ts';
import { acceptanceUnused } from '../../../core/rules/record/acceptanceUnused.ts';
import { recheckDue } from '../../../core/rules/record/recheckDue.ts';
import { defineRule } from '../../../core/rules/rule.ts';
import { runRules } from '../../../core/rules/run.ts';
import { showFor } from '../../../core/show.ts';
import type { Acceptance, Room } from '../../../schema/model/room.ts';
import { findingsOf, geometrySetup, told } from '../../support/findingsOf.ts';
import {
  EMPTY_ROOM,
  point,
  policyWith,
  roomWith,
  speaker,
  stereoRoom,
  subwoofer,
} from '../../support/rooms.ts';

const TODAY = '2026-11-25';
const RECORD = [layoutHeight, acceptanceEnded, acceptanceUnused, recheckDue];

/** Both loudspeakers 0.2 m above the ears. */
function raised(parts: Partial<Room> = {}): Room {
  return stereoRoom({
    speakers: [
      speaker('left', 'L', point(1.3, 1.2, 1.4)),
      speaker('right', 'R', point(3.7, 1.2, 1.4)),
    ],
    ...parts,
  });
}

function acceptance(parts: Partial<Acceptance> = {}): Acceptance {
  return {
    id: 'shelf',
    finding: 'layout/height',
    about: 'speakers.right',
    because: 'shelf fixed, landlord',
    until: null,
    ...parts,
  };
}

const codesOf = (room: Room, today: string | null = TODAY) =>
  findingsOf(RECORD, room, { today }).map(({ code }) => code);

test('a sound room has no finding above a hint', () => {
  const room = stereoRoom({ subwoofers: [subwoofer('sub', point(1.9, 1, 0.3))] });
  const findings = runRules(geometrySetup(room), showFor(room.habits), { today: TODAY });
  const loud = findings.filter(({ severity }) => severity === 'error' || severity === 'warning');
  expect(told(loud)).toEqual([]);
  expect(findings.length).toBeLessThan(6);
});

test('an empty room has no finding', () => {
  const findings = runRules(geometrySetup(EMPTY_ROOM), showFor(EMPTY_ROOM.habits), {
    today: TODAY,
  });
  expect(findings).toEqual([]);
});

test('every rule: a code of its own, in the form family/words, with all it says', () => {
  expect(new Set(RULES.map(({ code }) => code)).size).toBe(RULES.length);
  for (const rule of RULES) {
    expect(rule.code).toMatch(/^[a-z]+\/[a-z0-9-]+$/);
    for (const text of [rule.title, rule.reason, rule.advice, rule.source]) {
      expect(text.length, rule.code).toBeGreaterThan(3);
    }
    expect(rule.title.endsWith('.'), rule.code).toBe(false);
    expect(rule.reason.endsWith('.') && rule.advice.endsWith('.'), rule.code).toBe(true);
    expect(ruleFor(rule.code)).toBe(rule);
  }
  expect(ruleFor('no/such')).toBeUndefined();
});

test('messages have no full stop and no unit twice', () => {
  const room = raised({ subwoofers: [subwoofer('sub', point(2.5, 3.3, 9))] });
  const findings = runRules(geometrySetup(room), showFor(room.habits), { today: TODAY });
  expect(findings.length).toBeGreaterThan(3);
  for (const { message } of findings) expect(message).not.toMatch(/\.$|NaN|undefined|Infinity/);
});

describe('policy', () => {
  test('sets the severity, also where the rule would say another', () => {
    const policy = policyWith({ severity: { 'layout/height': 'error' } });
    const severities = findingsOf(layoutHeight, raised({ policy })).map((one) => one.severity);
    expect(severities).toEqual(['error', 'error']);
  });

  test('off drops the finding', () => {
    const policy = policyWith({ severity: { 'layout/height': 'off' } });
    expect(findingsOf(layoutHeight, raised({ policy }))).toEqual([]);
  });
});

test('what is found twice in the same words is told once', () => {
  const sets = ['a', 'b'].map((id) => ({
    id,
    speakers: ['left', 'right'],
    subwoofers: [],
    layout: '0+2+0',
  }));
  expect(findingsOf(layoutHeight, raised({ sets })).length).toBe(2);
});

test('the same input gives the same findings in the same order', () => {
  const run = () => JSON.stringify(findingsOf(RULES, raised(), { today: TODAY }));
  expect(run()).toBe(run());
});

test('a rule without context asks for none', () => {
  const rule = defineRule<string>({
    code: 'test/words',
    severity: 'hint',
    title: 'Words',
    reason: 'r',
    advice: 'a',
    source: 's',
    *find(_setup, { today }) {
      yield { path: [], fact: String(today) };
    },
    message: (fact) => fact,
  });
  const setup = geometrySetup(EMPTY_ROOM);
  expect([...rule.find(setup, showFor(EMPTY_ROOM.habits))].map(({ fact }) => fact)).toEqual([
    'null',
  ]);
});

describe('acceptances', () => {
  test('cover the finding at their place and below, and nothing else', () => {
    const found = findingsOf(layoutHeight, raised({ accepted: [acceptance()] }), { today: TODAY });
    expect(found.map(({ path, accepted }) => [path[1], accepted?.id ?? null])).toEqual([
      ['left', null],
      ['right', 'shelf'],
    ]);
  });

  test('without a place they cover all of that code', () => {
    const accepted = [acceptance({ about: null })];
    const found = findingsOf(layoutHeight, raised({ accepted }), { today: TODAY });
    expect(found.every((one) => one.accepted?.id === 'shelf')).toBe(true);
  });

  test('a place is matched whole: `speakers.r` is not `speakers.right`', () => {
    const accepted = [acceptance({ about: 'speakers.r' })];
    const found = findingsOf(layoutHeight, raised({ accepted }), { today: TODAY });
    expect(found.every((one) => one.accepted === null)).toBe(true);
  });

  test('record/acceptance-ended: the day after the last, not on it', () => {
    const until = (day: string) => raised({ accepted: [acceptance({ until: day })] });
    expect(codesOf(until(TODAY))).toEqual(['layout/height', 'layout/height']);
    const ended = findingsOf(RECORD, until('2026-11-24'), { today: TODAY });
    expect(ended.map(({ code }) => code)).toContain('record/acceptance-ended');
    expect(ended.every(({ accepted }) => accepted === null)).toBe(true);
    expect(told(ended).at(-1)).toBe(
      'accepted.shelf.until: shelf accepted layout/height until 2026-11-24',
    );
    expect(codesOf(until('2026-11-24'), null)).not.toContain('record/acceptance-ended');
  });

  test('record/acceptance-unused: the finding is gone; a fix removes the line', () => {
    const room = stereoRoom({ accepted: [acceptance()] });
    const [finding] = findingsOf(RECORD, room, { today: TODAY });
    expect(finding?.message).toBe(
      'shelf accepts layout/height about speakers.right, which is not found',
    );
    expect(finding?.fixes[0]?.edits).toEqual([{ do: 'remove', path: ['accepted', 'shelf'] }]);
  });

  test('an unused one that has ended is told once; an unknown code is told elsewhere', () => {
    const old = stereoRoom({ accepted: [acceptance({ until: '2026-01-01' })] });
    expect(codesOf(old)).toEqual(['record/acceptance-unused']);
    const wrong = stereoRoom({ accepted: [acceptance({ finding: 'layout/hieght' })] });
    expect(codesOf(wrong)).toEqual([]);
  });
});

describe('record/recheck-due', () => {
  const signed = (date: string | null, recheck_months: number | null, policyMonths?: number) =>
    roomWith({
      signedOff: { date, by: 'R. Ames', setup: null, recheck_months },
      policy: policyWith({ recheck_months: policyMonths ?? null }),
    });

  test('the day after, not on the day', () => {
    expect(told(findingsOf(recheckDue, signed('2025-11-24', 12), { today: TODAY }))).toEqual([
      'signed_off.date: Signed off on 2025-11-24, to be checked again by 2026-11-24',
    ]);
    expect(findingsOf(recheckDue, signed('2025-11-25', 12), { today: TODAY })).toEqual([]);
  });

  test('the policy’s time stands in', () => {
    expect(findingsOf(recheckDue, signed('2026-01-01', null, 6), { today: TODAY }).length).toBe(1);
  });

  test('quiet without date, time, day of today, or sense', () => {
    expect(findingsOf(recheckDue, signed(null, 12), { today: TODAY })).toEqual([]);
    expect(findingsOf(recheckDue, signed('2020-01-01', null), { today: TODAY })).toEqual([]);
    expect(findingsOf(recheckDue, signed('2020-01-01', 12), { today: null })).toEqual([]);
    expect(findingsOf(recheckDue, signed('2020-13-01', 12), { today: TODAY })).toEqual([]);
    expect(findingsOf(recheckDue, EMPTY_ROOM, { today: TODAY })).toEqual([]);
  });
});

describe('days of the Gregorian calendar', () => {
  test.each([
    ['2026-11-04', 12, '2027-11-04'],
    ['2026-11-30', 3, '2027-02-28'],
    ['2027-11-30', 3, '2028-02-29'], // a leap year
    ['2000-01-31', 1, '2000-02-29'], // divisible by 400
    ['2100-01-31', 1, '2100-02-28'], // by 100 only
    ['2026-12-31', 6, '2027-06-30'],
    ['2026-12-01', 1, '2027-01-01'],
  ])('%s and %d months is %s', (day, months, want) => {
    expect(monthsLater(day, months)).toBe(want);
  });

  test.each(['2026-02-29', '2026-00-10', '2026-13-01', '2026-1-1', 'soon', ''])(
    '%s is no day',
    (text) => {
      expect(isDay(text)).toBe(false);
      expect(monthsLater(text, 1)).toBeNull();
    },
  );
});
