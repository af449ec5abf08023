// Levels against definitions and standards: dBu margins, EBU's reference level, bass sums, LFE +10 dB, NIOSH hours.

import { describe, expect, test } from 'vitest';
import type { Room } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import { EMPTY_ROOM, policyWith, roomWith, speaker } from '../../support/rooms.ts';
import {
  BYPASS,
  crossover,
  DBU_18_V,
  decibels,
  device,
  MAIN,
  SOURCE,
  SUB_SETTINGS,
  settings,
  subRoom,
  subRoomWith,
  volts,
  wires,
} from '../../support/wiredRooms.ts';
import { adviceAt, findingsWith, worked } from '../../support/worked.ts';

const dbu = (level_dbu: number) => Math.sqrt(0.6) * 10 ** (level_dbu / 20);

describe('connections', () => {
  test('+24 dBu into an input of +18 dBu is 6 dB too much (standards’ full levels: SMPTE RP 155, EBU R 68)', () => {
    const loud = { ...SOURCE, fullLevelOutput_v: dbu(24) };
    const setup = worked(subRoom({ devices: [device('desk', loud)] }));
    expectNear(setup.levels.connections[0]?.margin_db ?? NaN, -6, 1e-6, 'dB');
    const [finding] = findingsWith(setup, 'levels/overload');
    expect(finding?.message).toBe(
      'desk.main_left gives up to 24.0 dBu; sub.in_left clips at 18.0 dBu, 6.0 dB earlier',
    );
  });

  test('equal full levels leave nothing and are fine', () => {
    const setup = worked(subRoom());
    expectNear(setup.levels.connections[0]?.margin_db ?? NaN, 0, 1e-9, 'dB');
    expect(findingsWith(setup, 'levels/overload')).toEqual([]);
  });

  test('an output turned down, and a loudspeaker turned down, take the more', () => {
    const room = roomWith({
      devices: [device('desk', SOURCE)],
      speakers: [speaker('left', 'L', null, { gear: { ...MAIN, fullLevelInput_v: dbu(12) } })],
      wiring: wires('desk.main_left -> left.in'),
      settings: [settings('left', { level: decibels(-6) })],
    });
    expectNear(worked(room).levels.connections[0]?.margin_db ?? NaN, 0, 1e-6, 'dB');
    const open = { ...room, settings: [] };
    expectNear(worked(open).levels.connections[0]?.margin_db ?? NaN, -6, 1e-6, 'dB');
  });

  test('the sensitivity that matches its source is advised', () => {
    const low = subRoomWith({ input_sensitivity: volts(dbu(4), '4 dBu') });
    const setup = worked(low);
    expectNear(setup.levels.connections[0]?.margin_db ?? NaN, -14, 1e-6, 'dB');
    expect(adviceAt(setup, 'settings.sub.input_sensitivity')).toMatchObject({
      dialIn: '18 dBu',
      agrees: false,
    });
    // A source of +6 dBu is best taken by the choice of +10 dBu: the next that does not clip.
    const quiet = { ...SOURCE, fullLevelOutput_v: dbu(6) };
    const other = worked({ ...low, devices: [device('desk', quiet)] });
    expect(adviceAt(other, 'settings.sub.input_sensitivity').dialIn).toBe('10 dBu');
  });
});

describe('reference level', () => {
  const withLevel = (count: number, level_db: number, weighting: 'A' | 'C'): Room =>
    roomWith({
      speakers: Array.from({ length: count }, (_, index) => speaker(`s${index}`, null, null)),
      targets: { ...EMPTY_ROOM.targets, referenceLevel: { level_db, weighting } },
    });

  // EBU Tech 3276 §2.5: 85 − 10 lg n: 81.99, 80.23, 78.01 dBA.
  test.each([
    [2, 81.99],
    [3, 80.23],
    [5, 78.01],
  ])('%i channels: %d dBA each', (count, level_dba) => {
    const { reference } = worked(withLevel(count, 79, 'C')).levels;
    expectNear(reference.byChannelCount_dba ?? NaN, level_dba, 0.01, 'dB');
  });

  test('five channels at 78.01 dBA are 85 dBA together: eight hours a day (NIOSH)', () => {
    const { exposure } = worked(withLevel(5, 78.0103, 'A')).levels;
    expectNear(exposure?.level_dba ?? NaN, 85, 0.001, 'dB');
    expectNear(exposure?.hours ?? NaN, 8, 0.01, 'h');
  });

  // Wide pink noise: A reads 1.75 dB below C (computed from IEC 61672-1). 88 − 1.75 + 3.01 = 89.26 dBA: 8 / 2^(4.26/3) h.
  test('a C-weighted level is converted before it counts', () => {
    const setup = worked(withLevel(2, 88, 'C'));
    expectNear(setup.levels.exposure?.level_dba ?? NaN, 89.26, 0.02, 'dB');
    expectNear(setup.levels.exposure?.hours ?? NaN, 8 / 2 ** (4.26 / 3), 0.02, 'h');
    expect(findingsWith(setup, 'levels/exposure')[0]?.severity).toBe('information');
    expect(findingsWith(worked(withLevel(2, 79, 'C')), 'levels/exposure')).toEqual([]);
  });

  test('a room at another level than its policy asks for', () => {
    const room = withLevel(2, 83, 'C');
    const policy = policyWith({ referenceLevel: { level_db: 79, weighting: 'C' } });
    const [finding] = findingsWith(worked({ ...room, policy }), 'levels/reference-level');
    expect(finding?.message).toBe('83 dBC, where the policy asks for 79 dBC');
    expect(finding?.fixes[0]?.edits).toEqual([
      { do: 'set', path: ['targets', 'reference_level'], value: '79 dBC' },
    ]);
    const alike = policyWith({ referenceLevel: { level_db: 83, weighting: 'C' } });
    expect(findingsWith(worked({ ...room, policy: alike }), 'levels/reference-level')).toEqual([]);
  });
});

describe('bass and LFE', () => {
  const lfeRoom = (values: Parameters<typeof subRoomWith>[0] = {}) =>
    subRoomWith(values, {
      wiring: wires(
        'desk.main_left -> sub.in_left',
        'desk.main_right -> sub.in_right',
        'desk.lfe -> sub.in_lfe',
        'sub.out_left -> left.in',
        'sub.out_right -> right.in',
      ),
    });

  // 20 lg (2 + 10^(10/20)) = 14.26 dB; 20 lg 2 = 6.02 dB: by hand.
  test('two mains and the LFE in one subwoofer', () => {
    const [bass] = worked(lfeRoom()).levels.bass;
    expect(bass).toMatchObject({ sub: 'sub', channels: ['L', 'R'], lfe: true });
    expectNear(bass?.coherentSum_db ?? NaN, 14.256, 0.001, 'dB');
    expectNear(worked(subRoom()).levels.bass[0]?.coherentSum_db ?? NaN, 6.0206, 1e-4, 'dB');
  });

  test('LFE gain: 10 dB are asked for (ITU-R BS.775-3 Annex 7)', () => {
    const wrong = worked(lfeRoom({ lfe_gain: decibels(0), lfe_low_pass: crossover(120) }));
    expect(wrong.levels.lfe).toEqual({ sub: 'sub', gain_db: 0, lowPass_hz: 120 });
    const [finding] = findingsWith(wrong, 'levels/lfe-gain');
    expect(finding?.fixes[0]?.edits).toEqual([
      { do: 'set', path: ['settings', 'sub', 'lfe_gain'], value: '10 dB' },
    ]);
    const right = worked(lfeRoom({ lfe_gain: decibels(10), lfe_low_pass: crossover(120) }));
    expect(findingsWith(right, 'levels/lfe-gain')).toEqual([]);
    expect(findingsWith(right, 'signal/lfe')).toEqual([]);
  });

  test('LFE without a low-pass on its way', () => {
    const setup = worked(lfeRoom({ lfe_gain: decibels(10), lfe_low_pass: BYPASS }));
    const [finding] = findingsWith(setup, 'signal/lfe-no-low-pass');
    expect(finding?.path).toEqual(['settings', 'sub', 'lfe_low_pass']);
    expect(finding?.fixes[0]?.edits).toEqual([
      {
        do: 'set',
        path: ['settings', 'sub', 'lfe_low_pass'],
        value: '{ frequency: 120 Hz, slope: 24 dB/oct }',
      },
    ]);
  });

  test('LFE through the crossover of the mains, and nothing to make its 10 dB', () => {
    const room = subRoom({
      devices: [device('desk', SOURCE, [{ port: 'lfe', channel: 'LFE' }])],
      wiring: wires('desk.lfe -> sub.in_left'),
    });
    const setup = worked(room);
    expect(findingsWith(setup, 'signal/lfe').map(({ code, message }) => [code, message])).toEqual([
      ['signal/lfe-not-plus-10', 'No stage on the way of the LFE to sub makes its 10 dB'],
      [
        'signal/lfe-through-crossover',
        'On its way to sub the LFE passes a low-pass at 75 Hz and loses what lies above',
      ],
    ]);
  });

  test('without an LFE nothing is said of it', () => {
    const setup = worked(subRoom());
    expect(setup.levels.lfe).toBeNull();
    expect(findingsWith(setup, 'signal/lfe')).toEqual([]);
    expect(DBU_18_V).toBeCloseTo(dbu(18), 6);
    expect(SUB_SETTINGS.polarity?.told).toBe('normal');
  });
});
