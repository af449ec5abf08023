// Rules on measurement files: each fault of a take's file becomes one finding at the key that is to blame.

import { describe, expect, test } from 'vitest';
import type { MeasuredFigures, TakeFault } from '../../core/measured/measuredFigures.ts';
import { NOTHING_READ } from '../../core/measured/takeReading.ts';
import { RULES } from '../../core/rules/index.ts';
import { findingsOf, told } from '../support/findingsOf.ts';
import { EMPTY_ROOM } from '../support/rooms.ts';

const OURS = RULES.filter(({ code }) => code.startsWith('measurement/'));

function measuredWith(...faults: readonly TakeFault[]): MeasuredFigures {
  const path = ['sessions', 'autumn'];
  const take = (id: string) => ({
    ...NOTHING_READ,
    take: id,
    path: [...path, 'takes', id],
    drive: null,
    sounding: [],
    seat: 'mix',
    at: null,
    faults,
  });
  const session = { session: 'autumn', path, date: null, averages: [] };
  return { sessions: [{ ...session, takes: [take('one'), take('two')] }], notes: [] };
}

const found = (...faults: readonly TakeFault[]) =>
  findingsOf(OURS, EMPTY_ROOM, { parts: { measured: measuredWith(...faults) } });

/** Severity: what keeps a take from being read is an error, what spoils it a warning, what only doubts it is for information. */
const CODES = [
  { code: 'measurement/unreadable', key: 'file', severity: 'error' },
  { code: 'measurement/sweep', key: 'sweep', severity: 'error' },
  { code: 'measurement/no-channel', key: 'file', severity: 'error' },
  { code: 'measurement/sample-rate', key: 'file', severity: 'error' },
  { code: 'measurement/no-number', key: 'file', severity: 'error' },
  { code: 'measurement/silent', key: 'file', severity: 'error' },
  { code: 'measurement/cut-short', key: 'file', severity: 'warning' },
  { code: 'measurement/clipped', key: 'file', severity: 'warning' },
  { code: 'measurement/lines', key: 'file', severity: 'warning' },
  { code: 'measurement/no-timing', key: 'timing', severity: 'warning' },
  { code: 'measurement/calibrator', key: 'file', severity: 'warning' },
  { code: 'measurement/low-signal', key: 'file', severity: 'information' },
  { code: 'measurement/doubtful-arrival', key: 'file', severity: 'information' },
  { code: 'measurement/no-level', key: 'file', severity: 'information' },
] as const;

test.each(CODES)('$code at `$key` of each take that has it', ({ code, key, severity }) => {
  const findings = found({ code, severity, message: 'why' });
  expect(told(findings)).toEqual([
    `sessions.autumn.takes.one.${key}: one: why`,
    `sessions.autumn.takes.two.${key}: two: why`,
  ]);
  expect(findings.map((finding) => finding.severity)).toEqual([severity, severity]);
  expect(OURS.find((rule) => rule.code === code)?.severity).toBe(severity);
});

test('the same fault is as bad as this file makes it', () => {
  const [first] = found({ code: 'measurement/cut-short', severity: 'error', message: 'why' });
  expect(first?.severity).toBe('error');
});

describe('measurement/correction', () => {
  const fault: TakeFault = {
    code: 'measurement/correction',
    severity: 'warning',
    message: '`m.txt` is no response in text',
  };

  test('once for a session, though all its takes share it', () => {
    expect(told(found(fault))).toEqual([
      'sessions.autumn.interface.correction: `m.txt` is no response in text',
    ]);
  });

  test('at the microphone where it is the microphone’s', () => {
    const session = {
      id: 'autumn',
      path: ['sessions', 'autumn'],
      date: null,
      by: null,
      setup: null,
      temperature_k: null,
      microphone: 'm.txt',
      interface: null,
      takes: [],
      averages: [],
    };
    const room = { ...EMPTY_ROOM, sessions: [session] };
    const findings = findingsOf(OURS, room, { parts: { measured: measuredWith(fault) } });
    expect(findings.map(({ path }) => path.join('.'))).toEqual([
      'sessions.autumn.microphone.correction',
    ]);
  });
});

test('sound takes, takes not read yet, and what has been told elsewhere are quiet', () => {
  expect(found()).toEqual([]);
  expect(findingsOf(OURS, EMPTY_ROOM)).toEqual([]);
  expect(found({ code: 'reference/file', severity: 'error', message: 'gone' })).toEqual([]);
});

test('every rule on measurement files is told here', () => {
  const named = [...CODES.map(({ code }) => code), 'measurement/correction'];
  expect(OURS.map(({ code }) => code).toSorted()).toEqual(named.toSorted());
});
