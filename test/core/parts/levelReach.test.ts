// Gain chains, level at the seat, bass sums and calibration against figures worked by hand and published ones.

import { describe, expect, test } from 'vitest';
import type { Gear } from '../../../schema/model/gear.ts';
import { expectNear } from '../../support/expectNear.ts';
import { LOUD, loudRoom } from '../../support/loudRoom.ts';
import { EMPTY_ROOM, gear, policyWith } from '../../support/rooms.ts';
import {
  choices,
  DBU_18_V,
  decibels,
  device,
  drawn,
  SUB,
  settings,
  subRoom,
  subRoomWith,
  volts,
  wires,
} from '../../support/wiredRooms.ts';
import { worked } from '../../support/worked.ts';

const dbu = (level_dbu: number) => Math.sqrt(0.6) * 10 ** (level_dbu / 20);

describe('gain chain', () => {
  // +18 dBu into an input of +10 dBu clips 8 dB below full scale; the driver then gets 8 dB too much. Definition of dBu.
  test('the first point that clips, and what arrives at the driver', () => {
    const setup = worked(subRoomWith({ input_sensitivity: volts(dbu(10), '10 dBu') }));
    const chain = setup.levels.chains?.find(({ target }) => target === 'sub');
    expect(chain?.firstToClip?.at).toBe('sub.in_left');
    expectNear(chain?.firstToClip?.source_dbfs ?? NaN, -8, 1e-5, 'dB');
    // Bus −6 dB of the gear file: 18 − 10 − 6 = +2 dB.
    expectNear(chain?.driver_db ?? NaN, 2, 1e-5, 'dB');
  });

  test('each point in dBu: +18 dBu, turned down 6 dB on the way, into +12 dBu leaves nothing', () => {
    const trim: Gear = gear('box', 'controller', {
      inputs: ['in'],
      outputs: ['out'],
      paths: [drawn('in -> gain -> out')],
      fullLevelInput_v: dbu(18),
      fullLevelOutput_v: dbu(18),
      latency_s: [{ port: '*', latency_s: 0 }],
      controls: [
        {
          name: 'gain',
          stages: ['gain'],
          eachPort: false,
          kind: 'level',
          level_db: choices(0, -6),
        },
      ],
    });
    const room = loudRoom(85, {
      devices: [...loudRoom(85).devices, device('box', trim)],
      wiring: wires('desk.main_left -> box.in', 'box.out -> left.in'),
      settings: [settings('box', { gain: decibels(-6) })],
      speakers: loudRoom(85, {}, { ...LOUD, fullLevelInput_v: dbu(12) }).speakers.slice(0, 1),
    });
    const [chain] = worked(room).levels.chains ?? [];
    const told = chain?.points.map(({ at, level_dbu }) => [at, level_dbu?.toFixed(2)]);
    expect(told).toEqual([
      ['desk.main_left', '18.00'],
      ['box.in', '18.00'],
      ['box.out', '12.00'],
      ['left.in', '12.00'],
      ['left', undefined],
    ]);
    expectNear(chain?.driver_db ?? NaN, 0, 1e-5, 'dB');
  });

  test('what travels as numbers drives the loudspeaker’s own full level', () => {
    const net = { ...LOUD, inputs: ['net'], paths: [drawn('net -> level -> driver')] };
    const room = loudRoom(85, { wiring: wires('desk.net.1 -> left.net') }, net);
    const turned = { ...room, settings: [settings('left', { level: decibels(-3) })] };
    expectNear(worked(turned).levels.chains?.[0]?.driver_db ?? NaN, -3, 1e-9, 'dB');
  });

  test('an unknown device ends the chain, and says so', () => {
    const room = loudRoom(85, { devices: [device('desk', null)] });
    const [chain] = worked(room).levels.chains ?? [];
    expect(chain?.driver_db).toBeNull();
    expect(chain?.missing).toBe('the full level of desk');
    expect(worked(room).levels.attenuation).toEqual([]);
  });
});

describe('level at the seat', () => {
  // 110 dB at 1 m are 103.98 dB at 2 m (20 lg 2 = 6.02); 85 + 20 = 105 dB wanted: 1.02 dB short.
  test('peaks by band, 20 lg of the distance', () => {
    const [reach] = worked(loudRoom(85)).levels.reach ?? [];
    expectNear(reach?.distance_m ?? NaN, 2, 1e-9, 'm');
    const at1k = reach?.bands.find(({ frequency_hz }) => frequency_hz === 1000);
    expectNear(at1k?.driver_db ?? NaN, 103.9794, 1e-3, 'dB');
    expectNear(at1k?.headroom_db ?? NaN, -1.0206, 1e-3, 'dB');
    // Below the lowest figure of the data sheet nothing is known.
    expect(reach?.bands.find(({ frequency_hz }) => frequency_hz === 40)?.driver_db).toBeNull();
  });

  // Full scale drives it to 110 dB peak, 107 dB RMS at 1 m: 100.97 dB at 2 m, 80.97 dB for noise at −20 dBFS.
  test('surplus over the reference level', () => {
    const [attenuation] = worked(loudRoom(79)).levels.attenuation ?? [];
    expectNear(attenuation?.surplus_db ?? NaN, 1.9691, 1e-3, 'dB');
  });

  test('half-space data of a free-standing main lose the boundary’s 6.02 dB', () => {
    const peak_db = { frequency_hz: [63], value: [116.0206] };
    const half = { ...LOUD, maxLevel: { distance_m: 1, space: 'half' as const, peak_db } };
    const [reach] = worked(loudRoom(85, {}, half)).levels.reach ?? [];
    expectNear(reach?.bands.at(-1)?.driver_db ?? NaN, 103.9794, 1e-3, 'dB');
  });

  test('two equal subwoofers with the same signal have 6.02 dB more between them', () => {
    const peak_db = { frequency_hz: [20], value: [110] };
    const model = { ...SUB, maxLevel: { distance_m: 1, space: 'full' as const, peak_db } };
    const room = subRoom({
      targets: { ...EMPTY_ROOM.targets, referenceLevel: { level_db: 79, weighting: 'C' } },
    });
    const [sub] = room.subwoofers;
    if (sub === undefined) throw new Error('no subwoofer');
    const one = worked({ ...room, subwoofers: [{ ...sub, gear: model }] });
    const plain = { ...model, paths: [drawn('in_left -> low_pass -> driver')] };
    const two = worked({
      ...room,
      subwoofers: ['a', 'b'].map((id) => ({ ...sub, id, gear: plain })),
      wiring: wires('desk.main_left -> a.in_left', 'desk.main_left -> b.in_left'),
      settings: [],
    });
    const least = (setup: typeof one) =>
      setup.levels.reach?.find(({ isSubwoofer }) => isSubwoofer)?.worst?.headroom_db ?? NaN;
    expectNear(least(two) - least(one), 6.0206, 1e-4, 'dB');
  });

  test('nothing is wanted where no reference level is stated', () => {
    const room = loudRoom(85, { targets: EMPTY_ROOM.targets });
    const [reach] = worked(room).levels.reach ?? [];
    expect(reach?.wanted_db).toBeNull();
    expect(reach?.worst).toBeNull();
  });
});

describe('calibration', () => {
  const setup = worked({
    ...loudRoom(85),
    wiring: wires('desk.main_left -> left.in', 'desk.main_right -> right.in'),
  });

  // IEC 61672-1: C takes 0.02 dB from 500 Hz–2 kHz; two of 9.97 octaves are 6.97 dB less.
  test('mains read the reference level on noise at −20 dBFS RMS (SMPTE RP 200)', () => {
    const [left] = setup.levels.calibration ?? [];
    expect(left).toMatchObject({ channel: 'L', kind: 'main', weighting: 'C', signal_dbfs: -20 });
    expectNear(left?.reading_db ?? NaN, 85, 1e-9, 'dB');
    expectNear(left?.cut_db ?? NaN, 85 - 6.97, 0.01, 'dB');
  });

  // IEC 61672-1 C: 40–80 Hz reads 1.07 dB low, 500 Hz–2 kHz 0.02 dB: 85 − 1.05; LFE +10 dB (BS.775-3 Annex 7).
  test('bass reads 1.05 dB lower, the LFE 10 dB above it', () => {
    const bass = worked({
      ...subRoom({
        wiring: wires(
          'desk.main_left -> sub.in_left',
          'desk.lfe -> sub.in_lfe',
          'sub.out_left -> left.in',
        ),
      }),
      targets: { ...EMPTY_ROOM.targets, referenceLevel: { level_db: 85, weighting: 'C' } },
    }).levels.calibration;
    const reading = (kind: string) => bass?.find((one) => one.kind === kind)?.reading_db ?? NaN;
    expectNear(reading('bass'), 83.95, 0.01, 'dBC');
    expectNear(reading('lfe'), 93.95, 0.01, 'dBC');
  });

  test('an A-weighted reference is read at −18 dBFS with A (EBU Tech 3276)', () => {
    const room = loudRoom(85, {
      targets: { ...EMPTY_ROOM.targets, referenceLevel: { level_db: 82, weighting: 'A' } },
    });
    expect(worked(room).levels.calibration?.[0]).toMatchObject({
      weighting: 'A',
      signal_dbfs: -18,
    });
  });

  test('no reference level, no reading; the policy’s where the room has none', () => {
    const room = loudRoom(85, { targets: EMPTY_ROOM.targets });
    expect(worked(room).levels.calibration).toEqual([]);
    const policy = policyWith({ referenceLevel: { level_db: 83, weighting: 'C' } });
    expectNear(
      worked({ ...room, policy }).levels.calibration?.[0]?.reading_db ?? NaN,
      83,
      1e-9,
      'dB',
    );
  });
});

// 20 lg 2 = 6.02 dB for two channels; a bus that turns each down by 6 dB leaves 0.02 dB over full scale.
test('bass sums: what two correlated channels come to', () => {
  const [sum] = worked(subRoom()).levels.bassSums ?? [];
  expectNear(sum?.sum_db ?? NaN, 6.0206, 1e-4, 'dB');
  expectNear(sum?.atBus_db ?? NaN, 0.0206, 1e-4, 'dB');
});

// 79 dBC + 20 dB + 10 dB + 3.01 dB, below the EU’s lower action value of 135 dBC (Directive 2003/10/EC Article 3).
test('peak of the LFE at full scale', () => {
  const room = subRoom({
    targets: { ...EMPTY_ROOM.targets, referenceLevel: { level_db: 79, weighting: 'C' } },
    wiring: wires('desk.lfe -> sub.in_lfe'),
  });
  expectNear(worked(room).levels.lfePeak_dbc ?? NaN, 112.0103, 1e-3, 'dBC');
  expect(worked(subRoom()).levels.lfePeak_dbc).toBeNull();
});

// The documents' levels as standards.md and their texts have them: 85 dBC film; 85 − 10 lg 2 dBA.
test('named references of a room', () => {
  const named = worked(loudRoom(85)).levels.named ?? [];
  const level = (name: string) => named.find((one) => one.name === name)?.level_db ?? NaN;
  expectNear(level('SMPTE RP 200'), 85, 0, 'dBC');
  expectNear(level('EBU Tech 3276'), 81.99, 0.005, 'dBA');
  expect(named.some(({ name }) => name === 'ATSC A/85')).toBe(false); // no volume is known
  expect(DBU_18_V).toBeGreaterThan(6);
});
