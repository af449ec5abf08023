// The rules on measurements, on figures made by hand: what fires, what lies at the edge and does not, and what is not known.
//
// Limits: mask of the operational room response and of decay times, EBU Tech 3276 and ITU-R BS.1116 (from memory); pairs: ITU-R BS.1116
// (from memory) and common practice, no source; spread: Welti & Devantier, J. Audio Eng. Soc. 54 (2006) 347.

import { expect, test } from 'vitest';
import type { Finding } from '../../core/finding.ts';
import type { MeasuredDecay, MeasuredTake } from '../../core/measured/measuredFigures.ts';
import { maskFloor_db } from '../../core/measured/responseMask.ts';
import type { SessionVerdict, VerificationFigures } from '../../core/measured/verification.ts';
import { runRules } from '../../core/rules/run.ts';
import type { Setup } from '../../core/setup.ts';
import { showFor } from '../../core/show.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { EMPTY_TAKE } from '../support/emptyTake.ts';
import { expectNear } from '../support/expectNear.ts';
import { type PlannedTake, sessionOf } from '../synthesis/takes.ts';

const HERON = demoRooms().find(({ name }) => name === 'heron')?.setup;
const GRID_HZ = Array.from({ length: 24 * 10 }, (_, i) => 20 * 2 ** (i / 24));

const TAKES: readonly PlannedTake[] = [
  { id: 'left', drive: 'L', sounding: ['left'], seat: 'mix' },
  { id: 'right', drive: 'R', sounding: ['right'], seat: 'mix' },
  { id: 'whole', drive: 'L', sounding: ['left', 'sub'], seat: 'mix' },
  { id: 'far', drive: 'L', sounding: ['left', 'sub'], seat: 'producer' },
];

interface Shown {
  readonly level_db?: (frequency_hz: number) => number;
  readonly mid_db?: number;
  readonly arrival_s?: number | null;
  readonly octaves?: readonly MeasuredDecay[];
}

function take(
  id: string,
  { level_db = () => 0, mid_db = 0, arrival_s = 0.008, octaves = [] }: Shown,
): MeasuredTake {
  const planned = TAKES.find((one) => one.id === id);
  return {
    take: id,
    path: ['sessions', 'seeded', 'takes', id],
    drive: planned?.drive ?? null,
    sounding: planned?.sounding ?? [],
    seat: planned?.seat ?? null,
    at: null,
    ...EMPTY_TAKE,
    kind: 'impulse',
    response: {
      frequency_hz: GRID_HZ,
      level_db: GRID_HZ.map(level_db),
      phase_rad: null,
      phaseFrom: null,
      smoothing: 6,
    },
    arrival_s,
    arrivalBy: 'peak',
    polarity: 'upright',
    level: { level_db: mid_db, from_hz: 500, to_hz: 2000, basis: 'relative' },
    octaves,
  };
}

function found(
  code: string,
  shown: Readonly<Record<string, Shown>>,
  verification: VerificationFigures | null = null,
): readonly Finding[] {
  if (HERON === undefined) throw new Error('no such room');
  const sessions = [sessionOf({ seats: {} }, TAKES, null)];
  const takes = Object.entries(shown).map(([id, one]) => take(id, one));
  const measured = {
    sessions: [
      { session: 'seeded', path: ['sessions', 'seeded'], date: null, takes, averages: [] },
    ],
    notes: [],
  };
  const setup: Setup = { ...HERON, room: { ...HERON.room, sessions }, measured, verification };
  return runRules(setup, showFor(setup.room.habits), { today: null }).filter(
    (finding) => finding.code === code,
  );
}

const bumpAt = (centre_hz: number, height_db: number) => (f_hz: number) =>
  Math.abs(Math.log2(f_hz / centre_hz)) < 0.25 ? height_db : 0;

test('measured/target: third octaves off the target by more than the tolerance', () => {
  const [bump] = found('measured/target', { whole: { level_db: bumpAt(80, 5) } });
  expect(bump?.message).toMatch(
    /^whole: .*80 Hz.* off the target by more than 3.0 dB; most at 80 Hz, \+5.0 dB$/,
  );
  expect(bump?.measured?.value).toBeCloseTo(5, 1);
  expect(found('measured/target', { whole: { level_db: bumpAt(80, 2.9) } })).toEqual([]);
  expect(found('measured/target', { left: { level_db: bumpAt(80, 5) } }), 'half a channel').toEqual(
    [],
  );
});

test('measured/room-response: the mask of the listening-room standards', () => {
  expectNear(
    [maskFloor_db(50), maskFloor_db(2000), maskFloor_db(4000), maskFloor_db(16_000)],
    [-3, -3, -4, -6],
    1e-9,
    'dB',
  );
  const [dip] = found('measured/room-response', { whole: { level_db: bumpAt(125, -4) } });
  expect(dip?.message).toMatch(/most at 125 Hz, -4.0 dB where -3.0 dB is allowed/);
  expect(
    found('measured/room-response', { whole: { level_db: bumpAt(8000, -4) } }),
    'allowed at 8 kHz',
  ).toEqual([]);
  expect(
    found('measured/room-response', { whole: { level_db: bumpAt(31.5, -9) } }),
    'below the mask',
  ).toEqual([]);
});

test('measured/pair: arrival, level and response of left against right', () => {
  const arrival = found('measured/pair', { left: {}, right: { arrival_s: 0.00812 } });
  expect(arrival.map(({ message }) => message)).toEqual([
    'right arrives 0.12 ms after left at mix in seeded, at most 0.10 ms is allowed',
  ]);
  const level = found('measured/pair', { left: {}, right: { mid_db: -0.6 } });
  expect(level.map(({ message }) => message)).toEqual([
    'right is 0.6 dB quieter than left at mix in seeded, at most 0.5 dB is allowed',
  ]);
  const response = found('measured/pair', { left: {}, right: { level_db: bumpAt(500, 3) } });
  expect(response[0]?.message).toMatch(/^right and left differ by 2.\d dB at 500 Hz/);
  expect(found('measured/pair', { left: {}, right: { arrival_s: 0.00809, mid_db: 0.49 } })).toEqual(
    [],
  );
  expect(found('measured/pair', { left: {}, right: { arrival_s: null } }), 'no timing').toEqual([]);
});

test('measured/seat-spread: the deviation of two seats that differ by 13 dB is 6.5 dB', () => {
  const [spread] = found('measured/seat-spread', { whole: {}, far: { level_db: () => 13 } });
  expect(spread?.measured?.value).toBeCloseTo(6.5, 2);
  expect(found('measured/seat-spread', { whole: {}, far: { level_db: () => 11 } })).toEqual([]);
  expect(found('measured/seat-spread', { whole: {} }), 'one seat').toEqual([]);
});

const decay = (frequency_hz: number, t20_s: number | null): MeasuredDecay => ({
  frequency_hz,
  earlyDecay_s: null,
  t20_s,
  t30_s: null,
  modalDecay_s: null,
});

test('measured/decay-time: the mask about 0.24 s for 84 m³; the mean of the takes counts', () => {
  // 0.25 (83.9/100)^(1/3) = 0.236 s, ± 0.05 s at 1 kHz.
  const [long] = found('measured/decay-time', {
    left: { octaves: [decay(1000, 0.28)] },
    right: { octaves: [decay(1000, 0.34)] },
  });
  expect(long?.measured?.value).toBeCloseTo(0.31, 6);
  expect(long?.limit?.value).toBeCloseTo(0.286, 3);
  expect(found('measured/decay-time', { left: { octaves: [decay(1000, 0.28)] } })).toEqual([]);
  expect(found('measured/decay-time', { left: { octaves: [decay(1000, null)] } })).toEqual([]);
});

test('measured/decay-differs: more than a fifth off the file, with the edit that writes what was measured', () => {
  const [off] = found('measured/decay-differs', {
    left: { octaves: [decay(1000, 0.31), decay(2000, 0.25)] },
  });
  expect(off?.message).toBe(
    'seeded has a decay time of 0.31 s at 1 kHz, where the plan has 0.25 s',
  );
  expect(off?.fixes[0]?.edits).toEqual([
    { do: 'set', path: ['space', 'decay_time'], value: '{ 1 kHz: 0.31 s, 2 kHz: 0.25 s }' },
  ]);
  expect(found('measured/decay-differs', { left: { octaves: [decay(1000, 0.29)] } })).toEqual([]);
});

const COMPARED = {
  session: 'seeded',
  take: 'left',
  path: ['sessions', 'seeded', 'takes', 'left'],
  arrival: { planned_s: 0.008, measured_s: 0.0085, off_s: 0.0005 },
  polarity: null,
  level: null,
  response: null,
  decay: [],
} as const;

test('measured/differs, measured/cause and measured/undecided say what verification says, once', () => {
  const take = { ...COMPARED, summary: '0.50 ms late' };
  const cause = {
    kind: 'delay',
    path: ['speakers', 'left'],
    message: 'left seems to be delayed by 0.50 ms more than the file says',
    before: 200,
    after: 10,
    evidence: ['left: arrival off by +0.50 ms as stated, +0.00 ms with it'],
    fix: null,
  };
  const session = { session: 'seeded', causes: [cause], cannotTell: [] };
  const told = { takes: [take], sessions: [{ ...session, verdict: 'explained' as const }] };
  expect(found('measured/differs', { left: {} }, told)).toMatchObject([
    { severity: 'information', message: 'left: 0.50 ms late; 8.50 ms, where 8.00 ms is planned' },
  ]);
  const [named] = found('measured/cause', { left: {} }, told);
  expect(named).toMatchObject({ path: ['speakers', 'left'], severity: 'warning' });
  expect(named?.message).toMatch(/misfit 200, with it 10\); left: arrival off/);
  const open = {
    takes: [{ ...take, summary: 'agrees' }],
    sessions: [
      { ...session, verdict: 'undecided' as const, cannotTell: ['Undecided between a and b'] },
    ],
  };
  expect(found('measured/differs', { left: {} }, open)).toEqual([]);
  expect(found('measured/cause', { left: {} }, open)).toEqual([]);
  expect(found('measured/undecided', { left: {} }, open)).toMatchObject([
    { severity: 'information', message: 'Undecided between a and b' },
  ]);
});

test('measured/cause: causes that hold together, each with its own part; of those that nobody can tell apart only what is certain', () => {
  const write = (title: string) => ({ title, edits: [], safe: false });
  const cause = (kind: string, path: readonly string[], explanation: number, other: string) => ({
    kind,
    path,
    message: `${kind} is otherwise`,
    before: 90,
    after: 12,
    evidence: [],
    explanation,
    togetherWith: [other],
    fix: write(`Write the ${kind}`),
    allFix: write('Write both'),
  });
  const polarity = cause('polarity', ['subwoofers', 'sub'], 1, 'another delay of left');
  const delay = cause('delay', ['speakers', 'left'], 1, 'the polarity of sub turned over');
  const other = cause('distance', ['speakers', 'left', 'at', 'y'], 2, 'something else');
  const session = { session: 'seeded', causes: [polarity, delay, other], cannotTell: [] };
  const named = found(
    'measured/cause',
    { left: {} },
    verdictOf({ ...session, verdict: 'explained' }),
  );
  expect(named.map(({ path }) => path)).toEqual([polarity.path, delay.path]);
  expect(named[0]?.message).toBe(
    'polarity is otherwise (seeded: misfit 90 without it, with it 12); together with another delay of left',
  );
  expect(named[0]?.fixes.map(({ title }) => title)).toEqual(['Write the polarity', 'Write both']);
  const causes = [{ ...polarity, isCertain: true }, delay, other];
  const open = verdictOf({ ...session, causes, verdict: 'undecided' });
  expect(found('measured/cause', { left: {} }, open).map(({ path }) => path)).toEqual([
    polarity.path,
  ]);
});

test('measured/contradicted: said once a session; what was put right since is no warning any more', () => {
  const cause = {
    kind: 'delay',
    path: ['speakers', 'left'],
    message: 'left seems to be delayed',
    before: 200,
    after: 10,
    evidence: [],
    fix: null,
  };
  const contradicted = [{ by: 'later', isPutRight: true, message: 'it does not fit later' }];
  const session = { session: 'seeded', causes: [cause], cannotTell: [] };
  const told = verdictOf({ ...session, verdict: 'explained', contradicted });
  expect(found('measured/contradicted', { left: {} }, told)).toMatchObject([
    { severity: 'information', path: ['sessions', 'seeded'], message: 'it does not fit later' },
  ]);
  expect(found('measured/cause', { left: {} }, told)).toMatchObject([{ severity: 'information' }]);
  const alone = verdictOf({ ...session, verdict: 'explained' });
  expect(found('measured/contradicted', { left: {} }, alone)).toEqual([]);
  expect(found('measured/cause', { left: {} }, alone)).toMatchObject([{ severity: 'warning' }]);
});

test('measured/undecided: also where nothing differs, and these takes would not show it', () => {
  const session = { session: 'seeded', causes: [], differs: false };
  const cannotTell = ['Undecided: left and right swapped would look the same'];
  const told = verdictOf({ ...session, verdict: 'undecided', cannotTell });
  expect(found('measured/undecided', { left: {} }, told)).toMatchObject([
    { severity: 'information', message: cannotTell[0] },
  ]);
  const agreeing = verdictOf({ ...session, verdict: 'agrees', cannotTell: [] });
  expect(found('measured/undecided', { left: {} }, agreeing)).toEqual([]);
});

function verdictOf(verdict: SessionVerdict): VerificationFigures {
  return { takes: [], sessions: [verdict] };
}
