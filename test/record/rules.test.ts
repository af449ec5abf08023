// What the record's rules say: record/session-out-of-date, record/sign-off-out-of-date, record/not-tied,
// record/sign-off-unmeasured, record/listening-not-good, record/listening-open. Days and parts are counted by hand.

import { describe, expect, test } from 'vitest';
import { createRecordPart } from '../../core/parts/record.ts';
import { roomFingerprint } from '../../core/record/fingerprint.ts';
import type { RoomOfPart } from '../../core/record/setupParts.ts';
import { ruleFor } from '../../core/rules/index.ts';
import type { Rule } from '../../core/rules/rule.ts';
import type { Room } from '../../schema/model/room.ts';
import type {
  ListeningCheck,
  MeasuringSession,
  MeasuringTake,
} from '../../schema/model/sessions.ts';
import { findingsOf, told } from '../support/findingsOf.ts';
import { box, point, policyWith, roomWith, seat, spaceWith } from '../support/rooms.ts';

const TODAY = '2026-11-25';

/** A room and its fingerprint; `other` is the same one with a seat that was moved. */
const PARTS = {
  space: spaceWith({ shape: box(4, 5, 3) }),
  seats: [seat('mix', point(2, 2, 1.2))],
} satisfies Partial<Room>;
const NOW = written(roomWith(PARTS));
const OTHER = written(roomWith({ ...PARTS, seats: [seat('mix', point(2, 2.1, 1.2))] }));
const SHORT_OTHER = 's-00000000';

function written(room: RoomOfPart): string {
  return roomFingerprint(room).text ?? '';
}

const TAKE: MeasuringTake = {
  id: 'left_mix',
  path: ['sessions', 'autumn', 'takes', 'left_mix'],
  file: 'left.txt',
  drive: 'L',
  sounding: ['left'],
  seat: 'mix',
  at: null,
  bypassed: [],
  changed: [],
  timing: null,
};

function session(
  id: string,
  date: string | null,
  setup: string | null,
  takeCount = 1,
): MeasuringSession {
  return {
    id,
    path: ['sessions', id],
    date,
    by: null,
    setup,
    temperature_k: null,
    microphone: null,
    interface: null,
    takes: takeCount === 0 ? [] : [TAKE],
    averages: [],
  };
}

function check(id: string, parts: Partial<ListeningCheck>): ListeningCheck {
  return {
    id,
    path: ['listening', id],
    play: 'own loop',
    listenFor: 'even notes',
    level: null,
    result: null,
    date: null,
    by: null,
    ...parts,
  };
}

function signed(setup: string | null, date = '2026-11-04') {
  return { date, by: 'R. Ames', setup, recheck_months: 12 };
}

function ruleOf(code: string): Rule {
  const rule = ruleFor(code);
  if (rule === undefined) throw new RangeError(code);
  return rule;
}

function find(code: string, parts: Partial<Room>, today: string | null = TODAY) {
  return findingsOf(ruleOf(code), roomWith({ ...PARTS, ...parts }), { today });
}

describe('record/session-out-of-date', () => {
  const code = 'record/session-out-of-date';
  test('says which part changed, and offers to write the fingerprint anew', () => {
    const [found, ...others] = find(code, { sessions: [session('autumn', '2026-11-03', OTHER)] });
    expect(others).toEqual([]);
    expect(found).toMatchObject({
      path: ['sessions', 'autumn', 'setup'],
      severity: 'information',
      message: 'autumn was measured in another set-up: places have changed since 2026-11-03',
    });
    expect(found?.fixes.map(({ edits, safe }) => ({ edits, safe }))).toEqual([
      { edits: [{ do: 'set', path: ['sessions', 'autumn', 'setup'], value: NOW }], safe: false },
    ]);
  });

  test('a short fingerprint cannot say which', () => {
    expect(told(find(code, { sessions: [session('autumn', null, SHORT_OTHER)] }))).toEqual([
      'sessions.autumn.setup: autumn was measured in another set-up: the set-up has changed since',
    ]);
  });

  test('not of this set-up, not of one without fingerprint or takes, not where a later session took its place', () => {
    expect(find(code, { sessions: [session('autumn', '2026-11-03', NOW)] })).toEqual([]);
    expect(find(code, { sessions: [session('autumn', '2026-11-03', null)] })).toEqual([]);
    expect(find(code, { sessions: [session('autumn', '2026-11-03', OTHER, 0)] })).toEqual([]);
    const spring = session('spring', '2026-04-03', OTHER);
    expect(find(code, { sessions: [session('autumn', '2026-11-03', NOW), spring] })).toEqual([]);
    const found = find(code, { sessions: [session('autumn', '2026-11-03', OTHER), spring] });
    expect(found.map(({ path }) => path[1])).toEqual(['autumn']);
  });
});

describe('record/sign-off-out-of-date', () => {
  const code = 'record/sign-off-out-of-date';
  test('is a warning with two ways out', () => {
    const [found] = find(code, { signedOff: signed(OTHER) });
    expect(found).toMatchObject({
      severity: 'warning',
      message: 'Signed off in another set-up: places have changed since 2026-11-04',
    });
    expect(found?.fixes.map(({ edits }) => edits)).toEqual([
      [
        { do: 'set', path: ['signed_off', 'date'], value: TODAY },
        { do: 'set', path: ['signed_off', 'setup'], value: NOW },
      ],
      [{ do: 'set', path: ['signed_off', 'setup'], value: NOW }],
    ]);
  });

  test('not of this set-up, not without a fingerprint, not in a room that nobody signed', () => {
    expect(find(code, { signedOff: signed(NOW) })).toEqual([]);
    expect(find(code, { signedOff: signed(null) })).toEqual([]);
    expect(find(code, {})).toEqual([]);
  });
});

test('record/not-tied: sessions with takes and the sign-off', () => {
  const parts = {
    sessions: [
      session('autumn', '2026-11-03', null),
      session('empty', '2026-11-03', null, 0),
      session('tied', null, NOW),
    ],
    signedOff: signed(null),
  };
  expect(told(find('record/not-tied', parts))).toEqual([
    'sessions.autumn: Nothing says of which set-up autumn is',
    'signed_off: Nothing says of which set-up the sign-off is',
  ]);
  expect(find('record/not-tied', { signedOff: signed(NOW) })).toEqual([]);
});

describe('record/sign-off-unmeasured', () => {
  const find_ = (sessions: readonly MeasuringSession[]) =>
    told(find('record/sign-off-unmeasured', { signedOff: signed(NOW), sessions }));
  test('without takes, or with later ones, or with those of another set-up', () => {
    expect(find_([])).toEqual(['signed_off: Signed off, and no session has a take']);
    expect(find_([session('empty', '2026-11-03', NOW, 0)]).length).toBe(1);
    expect(find_([session('late', '2026-11-05', NOW)])).toEqual([
      'signed_off: Signed off, and every session with takes is later or of another set-up',
    ]);
    expect(find_([session('other', '2026-11-03', OTHER)]).length).toBe(1);
  });

  test('not on the same day, not where the session does not say', () => {
    expect(find_([session('same', '2026-11-04', NOW)])).toEqual([]);
    expect(find_([session('untied', null, null)])).toEqual([]);
    expect(find('record/sign-off-unmeasured', {})).toEqual([]);
  });
});

describe('record/listening-not-good', () => {
  const found = (result: ListeningCheck['result']) =>
    find('record/listening-not-good', { listening: [check('kick', { result })] });
  test('bad is a warning, doubtful a remark, good nothing', () => {
    expect(found('bad').map(({ severity }) => severity)).toEqual(['warning']);
    expect(told(found('doubtful'))).toEqual([
      'listening.kick.result: kick came out doubtful; listened for: even notes',
    ]);
    expect(found('doubtful').map(({ severity }) => severity)).toEqual(['information']);
    expect([...found('good'), ...found(null)]).toEqual([]);
  });
});

describe('record/listening-open', () => {
  const code = 'record/listening-open';
  const asked = [
    check('kick', { path: ['listening', 'kick'] }),
    check('voice', { path: ['listening', 'voice'] }),
  ];

  test('a signed room without a result of what the facility asks for', () => {
    const parts = {
      signedOff: signed(NOW),
      listening: [check('kick', { result: 'good' })],
      askedListening: asked,
    };
    expect(told(find(code, parts))).toEqual(['signed_off: Signed off without a result of voice']);
    expect(find(code, { ...parts, signedOff: null })).toEqual([]);
  });

  test('a check of another set-up, by its fingerprint or by its day', () => {
    const earlier = (parts: Partial<ListeningCheck>) =>
      told(
        find(code, {
          sessions: [session('autumn', '2026-11-03', OTHER)],
          listening: [check('kick', { result: 'good', ...parts })],
        }),
      );
    const said = ['listening.kick: kick was listened to before the set-up changed'];
    expect(earlier({ setup: OTHER, date: '2026-11-20' })).toEqual(said);
    expect(earlier({ date: '2026-11-03' })).toEqual(said);
    expect(earlier({ date: '2026-11-04' })).toEqual([]);
    expect(earlier({ date: '2026-11-01', setup: NOW })).toEqual([]);
  });
});

describe('the state of the room', () => {
  const state = (parts: Partial<Room>, today: string | null = TODAY) => {
    const room = roomWith({ ...PARTS, ...parts });
    return createRecordPart()(room, room, today).state;
  };
  const sessions = [session('autumn', '2026-11-03', NOW)];

  test.each([
    ['predicted', {}],
    ['predicted', { sessions: [session('empty', '2026-11-03', NOW, 0)] }],
    ['measured', { sessions }],
    ['out_of_date', { sessions: [session('autumn', '2026-11-03', OTHER)] }],
    ['signed', { sessions, signedOff: signed(NOW) }],
    ['signed', { sessions, signedOff: signed(null) }],
    ['out_of_date', { sessions, signedOff: signed(OTHER) }],
    ['recheck_due', { sessions, signedOff: signed(NOW, '2025-11-24') }],
    ['signed', { sessions, signedOff: signed(NOW, '2025-11-25') }],
  ] as const)('%s', (want, parts) => {
    expect(state(parts)).toBe(want);
  });

  test('the policy’s interval holds where the room names none', () => {
    const parts = {
      policy: policyWith({ recheck_months: 6 }),
      signedOff: { ...signed(NOW, '2026-05-24'), recheck_months: null },
    };
    expect(state(parts)).toBe('recheck_due');
    expect(state(parts, null)).toBe('signed');
    expect(told(find('record/recheck-due', parts))).toEqual([
      'signed_off.date: Signed off on 2026-05-24, to be checked again by 2026-11-24, as the policy asks',
    ]);
  });
});
