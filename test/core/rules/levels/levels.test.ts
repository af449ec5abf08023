// Rules of levels at the seat, each on both sides of its limit and where nothing is known; figures by hand from 110 dB at 1 m.

import { describe, expect, test } from 'vitest';
import { told } from '../../../support/findingsOf.ts';
import { LOUD, loudRoom } from '../../../support/loudRoom.ts';
import { EMPTY_ROOM, policyWith } from '../../../support/rooms.ts';
import {
  decibels,
  device,
  SOURCE,
  SUB,
  settings,
  subRoom,
  subRoomWith,
  volts,
} from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

const dbu = (level_dbu: number) => Math.sqrt(0.6) * 10 ** (level_dbu / 20);

describe('levels/pair', () => {
  const trimmed = (level_db: number) =>
    loudRoom(79, { settings: [settings('left', { level: decibels(level_db) })] });

  test('3 dB apart', () => {
    const [finding] = findingsWith(worked(trimmed(-3)), 'levels/pair');
    expect(finding?.path).toEqual(['speakers', 'right']);
    expect(finding?.message).toBe(
      'right is 3.0 dB louder than left at the seat; 0.5 dB is asked for',
    );
  });

  test('half a decibel is within', () => {
    expect(findingsWith(worked(trimmed(-0.5)), 'levels/pair')).toEqual([]);
  });

  test('the policy may ask for less', () => {
    const room = { ...trimmed(-0.5), policy: policyWith({ tolerances: { pair_level: 0.25 } }) };
    expect(findingsWith(worked(room), 'levels/pair')).toHaveLength(1);
  });

  test('two of one model are compared though their greatest level is not recorded', () => {
    const unknown = { ...LOUD, maxLevel: null };
    const room = loudRoom(79, { settings: [settings('left', { level: decibels(-3) })] }, unknown);
    expect(findingsWith(worked(room), 'levels/pair')).toHaveLength(1);
  });
});

describe('levels/headroom', () => {
  // 103.98 dB at 2 m: peaks of 105 dB are 1.0 dB out of reach, peaks of 103.5 dB are not.
  test('short of the reference level and 20 dB', () => {
    const [finding] = findingsWith(worked(loudRoom(85)), 'levels/headroom');
    expect(finding?.message).toBe(
      'left, right: 1.0 dB short of peaks of 105.0 dB at mix, at 80 Hz',
    );
    expect(finding?.related.map(({ path }) => path.join('.'))).toEqual(['speakers.right']);
  });

  test('within reach, or with nothing recorded, it is quiet', () => {
    expect(findingsWith(worked(loudRoom(83.5)), 'levels/headroom')).toEqual([]);
    const unknown = loudRoom(85, {}, { ...LOUD, maxLevel: null });
    expect(findingsWith(worked(unknown), 'levels/headroom')).toEqual([]);
    const unstated = loudRoom(85, { targets: EMPTY_ROOM.targets });
    expect(findingsWith(worked(unstated), 'levels/headroom')).toEqual([]);
  });
});

describe('levels/sub-headroom', () => {
  // Subwoofer at 3.40 m: 20 lg 3.4 = 10.63 dB; 110 dB at 1 m are 99.37 dB there. 79 + 20 = 99 dB; 80 + 20 = 100 dB.
  const roomAt = (level_db: number) => {
    const peak_db = { frequency_hz: [25], value: [110] };
    const model = { ...SUB, maxLevel: { distance_m: 1, space: 'full' as const, peak_db } };
    return subRoom({
      subwoofers: subRoom().subwoofers.map((sub) => ({ ...sub, gear: model })),
      targets: { ...EMPTY_ROOM.targets, referenceLevel: { level_db, weighting: 'C' } },
    });
  };

  test('a third octave that cannot be made', () => {
    expect(told(findingsWith(worked(roomAt(80)), 'levels/sub-headroom'))).toEqual([
      'subwoofers.sub: sub is 0.6 dB short of peaks of 100.0 dB at mix, at 31.5 Hz (short in 4 third octaves); what the room adds is not counted',
    ]);
  });

  test('just enough is enough', () => {
    expect(findingsWith(worked(roomAt(79)), 'levels/sub-headroom')).toEqual([]);
  });

  test('a boost of the equaliser takes headroom, the whole of it at its frequency', () => {
    const eq = {
      kind: 'eq',
      bands: [{ name: 'band_1', frequency_hz: 39.81, gain_db: 3, q: 4 }],
      told: '{ band_1: … }',
    } as const;
    const room = roomAt(79);
    const [sub] = room.subwoofers;
    if (!sub?.gear) throw new Error('no subwoofer');
    const steps = { min: null, max: null, step: null, choices: null };
    const gear = {
      ...sub.gear,
      paths: sub.gear.paths.map((path) =>
        path.from === 'bass' ? { ...path, stages: ['eq', ...path.stages] } : path,
      ),
      controls: [
        ...sub.gear.controls,
        {
          name: 'eq',
          stages: ['eq'],
          eachPort: false,
          kind: 'eq',
          bands: 3,
          frequency_hz: steps,
          gain_db: steps,
          q: steps,
        } as const,
      ],
    };
    const boosted = {
      ...room,
      subwoofers: [{ ...sub, gear }],
      settings: [settings('sub', { ...PLAIN, eq })],
    };
    expect(findingsWith(worked(boosted), 'levels/sub-headroom')[0]?.message).toMatch(
      /^sub is 2.6 dB short of peaks of 99.0 dB at mix, at 40 Hz/,
    );
  });

  test('nothing recorded, nothing said', () => {
    const room = subRoom({
      targets: { ...EMPTY_ROOM.targets, referenceLevel: { level_db: 95, weighting: 'C' } },
    });
    expect(findingsWith(worked(room), 'levels/sub-headroom')).toEqual([]);
  });
});

const PLAIN = {
  crossover: { kind: 'filter', frequency_hz: 75, slope_db_oct: 24, told: '' },
} as const;

describe('levels/attenuation', () => {
  // Noise at −20 dBFS makes 80.97 dB: 21.0 dB above 60 dBC, 19.97 dB above 61 dBC.
  test('more than 20 dB at the reference level', () => {
    expect(told(findingsWith(worked(loudRoom(60)), 'levels/attenuation'))).toEqual([
      'speakers.left: left, right: 21.0 dB taken away as numbers at the reference level (21.0 dB at the control, 0.0 dB dialled in)',
    ]);
    expect(findingsWith(worked(loudRoom(61)), 'levels/attenuation')).toEqual([]);
  });

  test('nothing known of the levels, nothing said', () => {
    const room = loudRoom(60, {
      devices: [device('desk', { ...SOURCE, fullLevelOutput_v: null })],
    });
    expect(findingsWith(worked(room), 'levels/attenuation')).toEqual([]);
  });
});

describe('levels/short-of-reference', () => {
  // 80.97 dB for noise at −20 dBFS: 7.0 dB short of 88 dBC, 5.9 dB short of 86.9 dBC.
  test('more than 6 dB short', () => {
    expect(told(findingsWith(worked(loudRoom(88)), 'levels/short-of-reference'))).toEqual([
      "speakers.left: left, right: noise at the calibration's level comes 7.0 dB short of the reference level, free field",
    ]);
    expect(findingsWith(worked(loudRoom(86.9)), 'levels/short-of-reference')).toEqual([]);
  });
});

describe('levels/weak-input', () => {
  const fed = (level_dbu: number) =>
    subRoomWith(
      { input_sensitivity: volts(dbu(18), '18 dBu') },
      { devices: [device('desk', { ...SOURCE, fullLevelOutput_v: dbu(level_dbu) })] },
    );

  test('an output of +6 dBu into an input made for +18 dBu', () => {
    const [finding] = findingsWith(worked(fed(6)), 'levels/weak-input');
    expect(finding?.message).toBe(
      'desk.main_left gives at most 6.0 dBu; sub.in_left is made for 18.0 dBu, 12.0 dB more',
    );
    // The choices are 4, 10 and 18 dBu: 10 dBu is the next that does not clip.
    expect(finding?.fixes[0]?.edits[0]).toMatchObject({ value: '10 dBu' });
  });

  test('10 dB are within', () => {
    expect(findingsWith(worked(fed(8)), 'levels/weak-input')).toEqual([]);
  });
});
