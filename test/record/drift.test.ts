// Drift between two sessions, and record/drift: what was moved by hand in invented takes must come out again.

import { describe, expect, test } from 'vitest';
import type { MeasuredResponse, MeasuredTake } from '../../core/measured/measuredFigures.ts';
import { drift } from '../../core/record/drift.ts';
import { keptDrift } from '../../core/record/keptDrift.ts';
import { bandLevel_db, responseDrift } from '../../core/record/responseDrift.ts';
import { recordDrift } from '../../core/rules/record/drift.ts';
import type { Room } from '../../schema/model/room.ts';
import type { MeasuringSession } from '../../schema/model/sessions.ts';
import { EMPTY_TAKE } from '../support/emptyTake.ts';
import { findingsOf, told } from '../support/findingsOf.ts';
import { point, policyWith, roomWith, seat, speaker } from '../support/rooms.ts';

const SAME = 's-0000-1111-2222-3333-4444';
const OTHER = 's-0000-9999-2222-3333-8888';

/** 24 points an octave from 20 Hz to 20 kHz. */
const GRID_HZ = Array.from({ length: 240 }, (_, index) => 20 * 2 ** (index / 24));

function response(level_db: (frequency_hz: number) => number | null): MeasuredResponse {
  return {
    frequency_hz: GRID_HZ,
    level_db: GRID_HZ.map(level_db),
    phase_rad: null,
    phaseFrom: null,
    smoothing: null,
  };
}

/** A room's ragged response, invented. */
const ragged = (frequency_hz: number): number =>
  4 * Math.sin(5 * Math.log2(frequency_hz)) + 2 * Math.sin(17 * Math.log2(frequency_hz));

function take(id: string, parts: Partial<MeasuredTake> = {}): MeasuredTake {
  return {
    take: id,
    path: ['sessions', 'x', 'takes', id],
    drive: 'L',
    sounding: [id],
    seat: 'mix',
    at: null,
    ...EMPTY_TAKE,
    kind: 'text',
    response: response(ragged),
    ...parts,
  };
}

interface Session {
  readonly id: string;
  readonly date: string | null;
  readonly setup?: string | null;
  readonly temperature_k?: number | null;
  readonly takes: readonly MeasuredTake[];
}

function told_(session: Session): MeasuringSession {
  return {
    id: session.id,
    path: ['sessions', session.id],
    date: session.date,
    by: null,
    setup: session.setup ?? SAME,
    temperature_k: session.temperature_k ?? null,
    microphone: null,
    interface: null,
    takes: session.takes.map(({ take: id, path, drive, sounding, seat: where, at }) => ({
      id,
      path,
      file: 'x.txt',
      drive,
      sounding,
      seat: where,
      at,
      bypassed: [],
      changed: [],
      timing: null,
    })),
    averages: [],
  };
}

/** 3.43 m from the seat. */
const ROOM = roomWith({
  seats: [seat('mix', point(2, 4.43, 1.2))],
  speakers: [speaker('left', 'L', point(2, 1, 1.2)), speaker('right', 'R', point(3, 1, 1.2))],
});

function driftOf(sessions: readonly Session[], parts: Partial<Room> = {}) {
  const room = roomWith({ ...ROOM, sessions: sessions.map(told_), ...parts });
  const measured = {
    sessions: sessions.map(({ id, date, takes }) => ({
      session: id,
      path: ['sessions', id],
      date,
      takes,
      averages: [],
    })),
    notes: [],
  };
  return { room, drift: drift(room, measured) };
}

const spring = { id: 'spring', date: '2026-04-01', takes: [take('left'), take('right')] };

describe('third-octave levels', () => {
  test('of a straight slope: the level at the middle, within the bend of powers', () => {
    // 6 dB an octave over a third octave: the mean power lies 10 lg(sinh(x)/x) above the middle, x = 0.23 (by hand: 0.04 dB).
    const sloped = response((frequency_hz) => 6 * Math.log2(frequency_hz / 1000));
    expect(Math.abs((bandLevel_db(sloped, 0) ?? 99) - 0.038)).toBeLessThan(0.01);
  });

  test('null at the ends and where a part is not known', () => {
    expect(bandLevel_db(response(ragged), -18)).toBeNull();
    expect(
      bandLevel_db(
        response((f) => (900 < f && f < 1000 ? null : 0)),
        0,
      ),
    ).toBeNull();
  });

  test('of octaves in a text they are read between the lines, of less than that not at all', () => {
    const text = (frequency_hz: readonly number[]) => ({
      ...response(ragged),
      frequency_hz,
      level_db: frequency_hz.map(() => 80),
    });
    expect(bandLevel_db(text([500, 1000, 2000]), 0)).toBeCloseTo(80, 9);
    expect(bandLevel_db(text([100, 10000]), 0)).toBeNull();
  });
});

describe('a response', () => {
  test('that did not move has not moved; a common offset is none either', () => {
    const same = responseDrift(
      response(ragged),
      response((f) => ragged(f) + 7),
    );
    expect(same?.mean_db).toBeCloseTo(7, 9);
    expect(same?.response.rms_db).toBeLessThan(1e-9);
  });

  test('with one third octave raised by 6 dB among 27: rms 6 √(1/27 − 1/27²), by hand 1.13 dB', () => {
    // 63 Hz to 25 kHz would be 27; the band's edges at 1 kHz are 891 and 1122 Hz (IEC 61260-1).
    const known = (f: number) => (55 < f ? ragged(f) : null);
    const raised = (f: number) => {
      const level_db = known(f);
      return level_db === null ? null : level_db + (880 < f && f < 1130 ? 6 : 0);
    };
    const found = responseDrift(response(known), response(raised));
    const count = found?.response.frequency_hz.length ?? 0;
    const byHand_db = 6 * Math.sqrt(1 / count - 1 / count ** 2);
    expect(count).toBeGreaterThan(22);
    expect(Math.abs((found?.response.rms_db ?? 0) - byHand_db)).toBeLessThan(0.05);
    expect(found?.response.worst.frequency_hz).toBe(1000);
    expect(Math.abs((found?.response.worst.moved_db ?? 0) - (6 - 6 / count))).toBeLessThan(0.2); // the grid's steps at the edges
  });
});

describe('levels', () => {
  const quieter = (takes: readonly MeasuredTake[]) => [
    spring,
    { id: 'autumn', date: '2026-10-01', takes },
  ];
  const plus = (level_db: number) => response((f) => ragged(f) + level_db);

  test('what all takes have in common is the microphone’s gain', () => {
    const sessions = quieter([
      take('left', { response: plus(-12) }),
      take('right', { response: plus(-12) }),
    ]);
    const [pair] = driftOf(sessions).drift?.pairs ?? [];
    expect(pair?.commonOffset_db).toBeCloseTo(-12, 9);
    expect(pair?.takes.map(({ level_db }) => Math.abs(level_db ?? 9) < 1e-9)).toEqual([true, true]);
    expect(pair?.takes.flatMap(({ moved }) => moved)).toEqual([]);
  });

  test('one channel turned down by 3 dB shows as ∓1.5 dB about the middle of two', () => {
    const sessions = quieter([take('left', { response: plus(-3) }), take('right')]);
    const takes = driftOf(sessions).drift?.pairs[0]?.takes ?? [];
    expect(takes.map(({ level_db }) => level_db?.toFixed(6))).toEqual(['-1.500000', '1.500000']);
    expect(takes.map(({ moved }) => moved)).toEqual([['level'], ['level']]);
  });

  test('of one take alone nothing is said, unless it tells sound pressure', () => {
    const one = (level: MeasuredTake['level']) =>
      driftOf([
        { ...spring, takes: [take('left', { level })] },
        { id: 'autumn', date: '2026-10-01', takes: [take('left', { response: plus(-3), level })] },
      ]).drift?.pairs[0]?.takes[0]?.level_db;
    expect(one(null)).toBeNull();
    expect(one({ level_db: 80, from_hz: 500, to_hz: 2000, basis: 'spl' })).toBeCloseTo(-3, 9);
  });
});

describe('arrivals', () => {
  const arrived = (arrival_s: number, arrivalBy: 'peak' | 'slope' = 'peak') =>
    take('left', { arrival_s, arrivalBy });
  const pairOf = (before: Session, after: Session) =>
    driftOf([before, after]).drift?.pairs[0]?.takes[0];

  test('5 K of warmth explain 0.085 ms over 3.43 m', () => {
    // Speed of sound 343.2 m/s at 20 °C and 346.1 m/s at 25 °C (usual tables, dry air): 9.994 ms and 9.910 ms; humidity adds a little.
    const found = pairOf(
      { ...spring, temperature_k: 293.15, takes: [arrived(0.01)] },
      { id: 'autumn', date: '2026-10-01', temperature_k: 298.15, takes: [arrived(0.00985)] },
    );
    expect(found?.arrival?.moved_s).toBeCloseTo(-0.00015, 9);
    expect(Math.abs((found?.arrival?.byAir_s ?? 0) + 0.000084)).toBeLessThan(0.00001);
    expect(found?.moved).toEqual([]); // 0.066 ms are left
  });

  test('the same with no temperature known has moved by more than 0.1 ms', () => {
    const found = pairOf(
      { ...spring, takes: [arrived(0.01)] },
      { id: 'autumn', date: '2026-10-01', takes: [arrived(0.00985)] },
    );
    expect(found?.arrival?.byAir_s).toBeNull();
    expect(found?.moved).toEqual(['arrival']);
  });

  test('a slope is good to half a millisecond, and is held against no peak', () => {
    const slope = (arrival_s: number) => arrived(arrival_s, 'slope');
    const of = (before: MeasuredTake, after: MeasuredTake) =>
      pairOf({ ...spring, takes: [before] }, { id: 'autumn', date: '2026-10-01', takes: [after] });
    expect(of(slope(0.01), slope(0.0104))?.moved).toEqual([]);
    expect(of(slope(0.01), slope(0.0106))?.moved).toEqual(['arrival']);
    expect(of(slope(0.01), arrived(0.02))?.arrival).toBeNull();
  });
});

test('polarity and decay', () => {
  const before = take('left', {
    polarity: 'upright',
    octaves: [decay(125, 0.3), decay(1000, 0.3), decay(2000, null)],
  });
  const after = take('left', {
    polarity: 'inverted',
    octaves: [decay(125, 0.36), decay(1000, 0.36), decay(2000, 0.3)],
  });
  const { drift: found } = driftOf([
    { ...spring, takes: [before] },
    { id: 'autumn', date: '2026-10-01', takes: [after] },
  ]);
  const moved = found?.pairs[0]?.takes[0];
  expect(moved?.isPolarityTurned).toBe(true);
  // ISO 3382-2, Eq. (2): σ = 0.88 T √(1.19/(B T)); at 125 Hz B = 88.7 Hz: 0.0558 and 0.0611 s, two of both together 0.166 s; at
  // 1 kHz B = 704.6 Hz: 0.0198 and 0.0217 s, together 0.0587 s. By hand.
  expect(moved?.decay.map(({ limit_s }) => limit_s.toFixed(3))).toEqual(['0.166', '0.059']);
  expect(moved?.moved).toEqual(['polarity', 'decay']);
});

function decay(frequency_hz: number, t20_s: number | null) {
  return { frequency_hz, earlyDecay_s: null, t20_s, t30_s: null, modalDecay_s: null };
}

describe('which sessions', () => {
  const at = (id: string, date: string | null, setup?: string | null): Session => ({
    id,
    date,
    takes: [take('left')],
    ...(setup === undefined ? {} : { setup }),
  });
  const pairs = (...sessions: Session[]) =>
    driftOf(sessions).drift?.pairs.map(({ earlier, later }) => `${earlier} ${later}`) ?? [];

  test('each against the one before, the newest against the oldest too', () => {
    expect(pairs(at('b', '2026-05-01'), at('a', '2026-01-01'), at('c', '2026-09-01'))).toEqual([
      'a b',
      'b c',
      'a c',
    ]);
    expect(pairs(at('a', '2026-01-01'))).toEqual([]);
    expect(pairs(at('a', '2026-01-01'), at('undated', null))).toEqual([]);
  });

  test('not where the set-up is known to have changed: then it is shown and not judged', () => {
    const after = {
      ...at('b', '2026-05-01', OTHER),
      takes: [take('left', { polarity: 'inverted' })],
    };
    const before = { ...at('a', '2026-01-01'), takes: [take('left', { polarity: 'upright' })] };
    const [pair] = driftOf([before, after]).drift?.pairs ?? [];
    expect(pair?.changed).toEqual(['places', 'settings']);
    expect(pair?.takes[0]).toMatchObject({ isPolarityTurned: true, moved: [] });
  });

  test('takes of other seats, sources or drives are not the same', () => {
    const other = (parts: Partial<MeasuredTake>) =>
      pairs(at('a', '2026-01-01'), { ...at('b', '2026-05-01'), takes: [take('left', parts)] });
    expect(other({})).toEqual(['a b']);
    expect(other({ take: 'renamed' })).toEqual(['a b']);
    expect(other({ seat: 'producer' })).toEqual([]);
    expect(other({ drive: 'R' })).toEqual([]);
    expect(other({ sounding: ['left', 'sub'] })).toEqual([]);
    expect(other({ kind: null, response: null })).toEqual([]);
  });
});

describe('record/drift', () => {
  const tilted = {
    id: 'autumn',
    date: '2026-10-01',
    takes: [take('left', { response: response((f) => ragged(f) + Math.log2(f / 632)) })],
  };
  const say = (parts: Partial<Room> = {}, setup: string | null = SAME) => {
    const { room, drift: figures } = driftOf(
      [
        { ...spring, setup },
        { ...tilted, setup },
      ],
      parts,
    );
    return findingsOf(recordDrift, room, { parts: { drift: figures } });
  };

  test('a tilt of 1 dB an octave over 29 third octaves: rms of ±14 thirds of a decibel, by hand 2.79 dB', () => {
    const [found, ...others] = say();
    expect(others).toEqual([]);
    expect(found?.severity).toBe('warning');
    expect(found?.message).toMatch(
      /^response moved 2\.[78] dB rms, most at (25 Hz|16 kHz) \(-?4\.\d dB\), since spring of 2026-04-01 \(allowed: 1\.0 dB\)$/,
    );
  });

  test('the policy says how much; below it nothing is found', () => {
    const policy = policyWith({ tolerances: { drift: 3 } });
    expect(say({ policy })).toEqual([]);
    expect(
      say({ policy: policyWith({ tolerances: { drift: 2.5 } }) }).map(({ limit }) => limit?.value),
    ).toEqual([2.5]);
  });

  test('without fingerprints it is a remark, on a condition', () => {
    const { room, drift: figures } = driftOf([spring, tilted], {
      sessions: [spring, tilted].map((one) => ({ ...told_(one), setup: null })),
    });
    const found = findingsOf(recordDrift, room, { parts: { drift: figures } });
    expect(found.map(({ severity }) => severity)).toEqual(['information']);
    expect(told(found)[0]).toContain('if the set-up was the same');
  });

  test('nothing measured, nothing found', () => {
    expect(findingsOf(recordDrift, ROOM, { parts: { drift: null } })).toEqual([]);
    expect(findingsOf(recordDrift, ROOM)).toEqual([]);
  });
});

test('drift is kept while its takes and what it rests on are the same', () => {
  const { room } = driftOf([spring, { id: 'autumn', date: '2026-10-01', takes: [take('left')] }]);
  const sessions = [spring, { id: 'autumn', date: '2026-10-01', takes: [take('left')] }];
  const measured = {
    sessions: sessions.map(({ id, date, takes }) => ({
      session: id,
      path: ['sessions', id],
      date,
      takes,
      averages: [],
    })),
    notes: [],
  };
  const first = keptDrift(room, measured);
  expect(first).toEqual(drift(room, measured));
  expect(first).not.toBeNull();
  expect(keptDrift({ ...room }, measured)).toBe(first);
  const policy = policyWith({ tolerances: { drift: 3 } });
  expect(keptDrift({ ...room, policy }, measured)?.limit_db).toBe(3);
});
