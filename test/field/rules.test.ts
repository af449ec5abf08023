// Each rule of the field fires, stops at its edge, and is quiet while the field has not been worked out.
import { describe, expect, test } from 'vitest';
import type {
  ChannelField,
  FieldFigures,
  PolarityFigures,
  SpreadFigures,
} from '../../core/fieldFigures.ts';
import { fieldDipAtSeat } from '../../core/rules/field/dipAtSeat.ts';
import { fieldDipInCrossover } from '../../core/rules/field/dipInCrossover.ts';
import { fieldNone } from '../../core/rules/field/noField.ts';
import { fieldPolarity } from '../../core/rules/field/polarity.ts';
import { fieldSeatOnMode } from '../../core/rules/field/seatOnMode.ts';
import { fieldSeatSpread } from '../../core/rules/field/seatSpread.ts';
import { fieldSubOnNode } from '../../core/rules/field/subOnNode.ts';
import type { Rule } from '../../core/rules/rule.ts';
import type { Room } from '../../schema/model/room.ts';
import { findingsOf, told } from '../support/findingsOf.ts';
import { box, point, seat, spaceWith, stereoRoom, subwoofer, TRIANGLE } from '../support/rooms.ts';
import { stereoSetup } from '../support/setups.ts';

const FREQUENCY_HZ = [20, 40, 60, 68.8, 80, 160];

function channel(dip_hz: number, dip_db: number, upper_db: number | null = null): ChannelField {
  const extremes = {
    from_hz: 20,
    to_hz: 200,
    median_db: 80,
    dip: { frequency_hz: dip_hz, level_db: dip_db },
    peak: { frequency_hz: 40, level_db: 9 },
    plusMinus_db: 6,
  };
  return {
    channel: 'L',
    set: null,
    sources: ['left', 'sub'],
    level_db: FREQUENCY_HZ.map(() => 80),
    phase_rad: FREQUENCY_HZ.map(() => 0),
    lower_db: null,
    upper_db: upper_db === null ? null : FREQUENCY_HZ.map(() => upper_db),
    extremes,
  };
}

function fieldWith(
  parts: Partial<FieldFigures>,
  channels: readonly ChannelField[] = [],
): FieldFigures {
  return {
    frequency_hz: FREQUENCY_HZ,
    method: 'box',
    schroeder_hz: 150,
    damping: { from: 'measured', assumed: [] },
    level: { kind: 'absolute', input_dbfs: -20, level_dbspl: null },
    seats: [{ seat: 'mix', sources: [], channels }],
    polarity: [],
    spread: [],
    modes: null,
    boundaries: [],
    uncertainty: null,
    notes: [],
    ...parts,
  };
}

const withSub = (x_m: number): Room =>
  stereoRoom({ subwoofers: [subwoofer('sub', point(x_m, 0.6, 0.3))] });

function found(
  rule: Rule,
  field: FieldFigures | null | undefined,
  room = withSub(1.2),
  crossovers = false,
) {
  const parts = {
    ...(field === undefined ? {} : { field }),
    ...(crossovers ? { crossovers: stereoSetup().crossovers } : {}),
  };
  return findingsOf(rule, room, { parts });
}

describe('field/dip-at-seat', () => {
  test('fires at 15 dB, names channel, seat and frequency', () => {
    expect(told(found(fieldDipAtSeat, fieldWith({}, [channel(68.8, -15.9)])))).toEqual([
      'seats.mix.at: Dip of 15.9 dB at 68.8 Hz in L at mix, predicted',
    ]);
    expect(found(fieldDipAtSeat, fieldWith({}, [channel(68.8, -15)]))).toHaveLength(1);
  });

  test.each([
    ['a dip of 14.9 dB', channel(68.8, -14.9)],
    ['a dip above the Schroeder frequency', channel(160, -25)],
    ['a dip that the envelope fills', channel(68.8, -25, 78)],
  ])('is quiet for %s', (_, one) => {
    expect(found(fieldDipAtSeat, fieldWith({}, [one]))).toEqual([]);
  });

  test('is quiet before the field is there', () => {
    expect(found(fieldDipAtSeat, undefined)).toEqual([]);
  });
});

describe('field/dip-in-crossover', () => {
  test('fires within half an octave of the crossover at 75 Hz', () => {
    const findings = found(
      fieldDipInCrossover,
      fieldWith({}, [channel(68.8, -12)]),
      withSub(1.2),
      true,
    );
    expect(told(findings)).toEqual([
      'settings.sub.crossover: Beside the crossover at 75 Hz the sum dips by 12.0 dB at 68.8 Hz in L at mix, predicted',
    ]);
  });

  test.each([
    ['half an octave and more away', channel(40, -30)],
    ['less deep', channel(68.8, -11.9)],
    ['a channel without the sub', { ...channel(68.8, -30), sources: ['left'] }],
  ])('is quiet %s', (_, one) => {
    expect(found(fieldDipInCrossover, fieldWith({}, [one]), withSub(1.2), true)).toEqual([]);
  });
});

describe('field/polarity', () => {
  const polarity = (turned_db: number): PolarityFigures => ({
    sub: 'sub',
    set: null,
    channels: ['L', 'R'],
    overlap_hz: [55, 95],
    asSet_db: 80,
    turned_db,
    curve: { asSet_db: [], turned_db: [] },
  });
  const judged = (turned_db: number) =>
    found(fieldPolarity, fieldWith({ polarity: [polarity(turned_db)] })).map(
      ({ severity, message }) => `${severity}: ${message}`,
    );

  test('3 dB more for the other one is told', () => {
    expect(judged(83)).toEqual([
      'information: Turned over, sub would give 3.0 dB more from 55 Hz to 95 Hz at the seat, predicted',
    ]);
  });

  test('less than 1.5 dB between them is undecided', () => {
    expect(judged(78.6)).toEqual([
      'hint: The room does not say which polarity of sub is right: 1.4 dB between them from 55 Hz to 95 Hz, predicted',
    ]);
    expect(judged(81.4)[0]).toMatch(/^hint/);
  });

  test('the right one, and a little more for the other, are quiet', () => {
    expect(judged(78.5)).toEqual([]);
    expect(judged(82)).toEqual([]);
  });
});

describe('field/sub-on-node', () => {
  test('a single sub half-way across does not drive the first mode of the width', () => {
    const findings = found(fieldSubOnNode, fieldWith({}), withSub(2.5));
    expect(told(findings)).toEqual([
      'subwoofers.sub.at.x: sub stands in the node of the width mode at 34.4 Hz and does not drive it',
    ]);
  });

  test('a quarter across it drives it; two subs are meant to', () => {
    expect(found(fieldSubOnNode, fieldWith({}), withSub(1.6))).toEqual([]);
    const two = stereoRoom({
      subwoofers: [subwoofer('one', point(2.5, 0, 0.3)), subwoofer('other', point(2.5, 6.6, 0.3))],
    });
    expect(found(fieldSubOnNode, fieldWith({}), two)).toEqual([]);
  });
});

describe('field/seat-on-mode', () => {
  const seatedAt = (y_m: number): Room =>
    stereoRoom({
      space: spaceWith({ shape: box(5, 6.6, 2.9) }),
      seats: [seat('mix', point(2.5, y_m, 1.2))],
      speakers: [TRIANGLE.left, TRIANGLE.right],
    });

  test('a quarter of the depth is the null of the second mode, the middle its maximum', () => {
    expect(told(found(fieldSeatOnMode, fieldWith({}), seatedAt(6.6 / 4)))).toContain(
      "seats.mix.at.y: mix is in a null of the depth's mode at 52.1 Hz",
    );
    expect(told(found(fieldSeatOnMode, fieldWith({}), seatedAt(3.3)))).toContain(
      "seats.mix.at.y: mix is on a maximum of the depth's mode at 52.1 Hz",
    );
  });

  test('38 % of the depth is neither for the first two', () => {
    const findings = told(found(fieldSeatOnMode, fieldWith({}), seatedAt(0.38 * 6.6)));
    expect(findings.filter((text) => / (26.1|52.1) Hz/.test(text))).toEqual([]);
  });
});

describe('field/seat-spread', () => {
  const spread = (deviation_db: number): SpreadFigures => ({
    channel: 'L',
    set: null,
    from_hz: 20,
    to_hz: 80,
    variance_db2: deviation_db ** 2,
    deviation_db,
    worst: { frequency_hz: 38.9, level_db: 18 },
    source: '',
  });

  test('fires above 6 dB and not at it', () => {
    expect(told(found(fieldSeatSpread, fieldWith({ spread: [spread(6.1)] })))).toEqual([
      'seats.mix: Seats differ by 6.1 dB (standard deviation, 20 Hz to 80 Hz) in L; most at 38.9 Hz, 18.0 dB; predicted',
    ]);
    expect(found(fieldSeatSpread, fieldWith({ spread: [spread(6)] }))).toEqual([]);
  });
});

describe('field/none', () => {
  test('fires where the field was tried and is not there', () => {
    expect(told(found(fieldNone, null))).toEqual([
      'space: The low end of this room cannot be worked out',
    ]);
  });

  test('is quiet with a field, and before it was tried', () => {
    expect(found(fieldNone, fieldWith({}))).toEqual([]);
    expect(found(fieldNone, undefined)).toEqual([]);
  });
});
