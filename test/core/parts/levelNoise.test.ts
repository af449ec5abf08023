// Noise of the electronics at the seat and the trims that lower it, against figures worked by hand from the definition of dBu.

import { describe, expect, test } from 'vitest';
import { thirdOctaves } from '../../../core/acoustics/thirdOctave.ts';
import { whiteNoiseLeft_db } from '../../../core/acoustics/whiteNoise.ts';
import type { Gear } from '../../../schema/model/gear.ts';
import type { Room } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import { LOUD, loudRoom } from '../../support/loudRoom.ts';
import { gear } from '../../support/rooms.ts';
import {
  DBU_18_V,
  decibels,
  device,
  drawn,
  range,
  SOURCE,
  settings,
  subRoomWith,
  volts,
  wires,
} from '../../support/wiredRooms.ts';
import { adviceAt, worked } from '../../support/worked.ts';

const dbu = (level_dbu: number) => Math.sqrt(0.6) * 10 ** (level_dbu / 20);

const HISSING: Gear = { ...SOURCE, fullLevelOutput_v: DBU_18_V, outputNoise_v: dbu(-80) };
const noisy = (level_db: number, parts: Partial<Room> = {}, main: Gear = LOUD) =>
  loudRoom(level_db, { devices: [device('desk', HISSING)], ...parts }, main);

describe('noise at the seat', () => {
  // Full scale of +18 dBu makes 110 − 3.01 = 106.99 dB at 1 m, 100.97 dB at 2 m; noise lies 98 dB below: 2.97 dBA, two of them 5.98 dBA.
  test('an output’s noise, and the power of two', () => {
    const [noise] = worked(noisy(79)).levels.noise ?? [];
    expect(noise?.sources.map(({ at, target }) => [at, target])).toEqual([
      ['desk.main_left', 'left'],
      ['desk.main_right', 'right'],
    ]);
    expectNear(noise?.sources[0]?.level_dba ?? NaN, 2.9691, 1e-3, 'dBA');
    expectNear(noise?.sources[0]?.output_dbu ?? NaN, -80, 1e-6, 'dBu');
    expectNear(noise?.level_dba ?? NaN, 5.9794, 1e-3, 'dBA');
  });

  // The trim lies behind the output: 6 dB lower, 6 dB less noise.
  test('what turns the loudspeaker down turns the noise before it down', () => {
    const turned = [
      settings('left', { level: decibels(-6) }),
      settings('right', { level: decibels(-6) }),
    ];
    const [noise] = worked(noisy(73, { settings: turned })).levels.noise ?? [];
    expectNear(noise?.level_dba ?? NaN, -0.0206, 1e-3, 'dBA');
  });

  // 9 dBA at 1 m are 2.98 dBA at 2 m (20 lg 2 = 6.02), whatever its level is set to.
  test('a loudspeaker’s own noise falls with distance only', () => {
    const own = { ...LOUD, selfNoise_dba: 9 };
    const quiet = { devices: [device('desk', { ...SOURCE, fullLevelOutput_v: DBU_18_V })] };
    const turned = [settings('left', { level: decibels(-6) }), settings('right', {})];
    const [noise] = worked(loudRoom(79, { ...quiet, settings: turned }, own)).levels.noise ?? [];
    expect(noise?.sources.map(({ kind, level_dba }) => [kind, level_dba.toFixed(2)])).toEqual([
      ['driver', '2.98'],
      ['driver', '2.98'],
    ]);
    expect(noise?.missing).toEqual(['desk']);
  });

  test('nothing recorded: no figure; no greatest level: none of what comes through it', () => {
    expect(worked(loudRoom(79)).levels.noise).toEqual([]);
    expect(worked(noisy(79, {}, { ...LOUD, maxLevel: null })).levels.noise).toEqual([]);
  });
});

describe('noise-relevant trims', () => {
  // Surplus over 73 dB: 100.97 − 20 − 73 = 7.97 dB; in steps of half a decibel 7.5 dB can go from the loudspeaker to the monitor control.
  const stepped: Gear = {
    ...LOUD,
    controls: LOUD.controls.map((control) =>
      control.kind === 'level' ? { ...control, level_db: range(-20, 0, 0.5) } : control,
    ),
  };

  test('the surplus at the monitor control', () => {
    const [trim, ...others] = worked(noisy(73, {}, stepped)).levels.noiseTrims ?? [];
    expect(trim?.target).toBe('left');
    expect(trim?.early).toBeNull();
    expect(trim?.late).toMatchObject({ device: 'left', control: 'level' });
    expectNear(trim?.by_db ?? NaN, 7.5, 1e-6, 'dB');
    expectNear(trim?.saves_db ?? NaN, 7.5, 1e-6, 'dB');
    expect(others).toHaveLength(1);
  });

  // Output noise 2.97 dBA and own noise 2.97 dBA (8.99 dBA at 1 m): 10 lg(2) before, 10 lg(1 + 10^(−0.75)) after: 3.01 − 0.71 = 2.30 dB.
  test('its own noise stays', () => {
    const own = { ...stepped, selfNoise_dba: 2.9691 + 6.0206 };
    const [trim] = worked(noisy(73, {}, own)).levels.noiseTrims ?? [];
    expectNear(trim?.saves_db ?? NaN, 2.2999, 1e-3, 'dB');
  });

  test('no surplus, no trim; nothing recorded, no trim', () => {
    expect(worked(noisy(81, {}, stepped)).levels.noiseTrims).toEqual([]);
    expect(worked(loudRoom(73, {}, stepped)).levels.noiseTrims).toEqual([]);
  });

  // A box turned down 6 dB, the loudspeaker with room below: +18 dBu full scale, so all 6 dB fit between.
  const between = (limit_dbu: number, mainCount = 1) => {
    const trim: Gear = gear('box', 'processor', {
      inputs: ['in'],
      outputs: ['out'],
      paths: [drawn('in -> gain -> out')],
      fullLevelInput_v: dbu(18),
      gain_db: 0,
      fullLevelOutput_v: dbu(limit_dbu),
      outputNoise_v: dbu(-70),
      latency_s: [{ port: '*', latency_s: 0 }],
      controls: [
        {
          name: 'gain',
          stages: ['gain'],
          eachPort: false,
          kind: 'level',
          level_db: range(-12, 0, 0.5),
        },
      ],
    });
    const base = noisy(81, {}, stepped);
    return worked({
      ...base,
      devices: [...base.devices, device('box', trim)],
      wiring: wires(
        'desk.main_left -> box.in',
        'box.out -> left.in',
        ...(mainCount === 1 ? [] : ['box.out -> right.in']),
      ),
      settings: [settings('box', { gain: decibels(-6) }), settings('left', {})],
      speakers: base.speakers.slice(0, mainCount),
    });
  };

  test('gain from a loudspeaker to the box before it', () => {
    const [trim] = between(18).levels.noiseTrims ?? [];
    expect(trim?.early).toMatchObject({ device: 'box', control: 'gain' });
    expectNear(trim?.by_db ?? NaN, 6, 1e-6, 'dB');
    // box: 100.97 − 6 − 82 = 12.97 dBA, 6 dB less after; desk: 100.97 − 6 − 98 = −3.03 dBA stays:
    // 10 lg(10^1.29691 + 10^−0.30309) − 10 lg(10^0.69691 + 10^−0.30309).
    const before_db = 10 * Math.log10(10 ** 1.29691 + 10 ** -0.30309);
    const after_db = 10 * Math.log10(10 ** 0.69691 + 10 ** -0.30309);
    expectNear(trim?.saves_db ?? NaN, before_db - after_db, 1e-3, 'dB');
  });

  // Both mains behind one gain: what is raised there for one would be raised for the other.
  test('gain that others share is left alone', () => {
    expect(between(18, 2).levels.noiseTrims).toEqual([]);
  });

  // +12 dBu pass an output that gives +14 dBu: 2 dB and no more can be moved without a new clip point.
  test('no further than the points between take', () => {
    expectNear(between(14).levels.noiseTrims?.[0]?.by_db ?? NaN, 2, 1e-6, 'dB');
    expect(between(12).levels.noiseTrims).toEqual([]);
  });
});

describe('hiss behind filters', () => {
  /** A-weighting by third octaves from 20 Hz. @source IEC 61672-1 Table 3 (from memory) */
  const TABLE_DB = [
    -50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8,
    -3.2, -1.9, -0.8, 0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1, -2.5, -4.3, -6.6, -9.3,
  ];
  const bands = thirdOctaves(20, 20_000).map(({ exact_hz }) => exact_hz);
  const power = (index: number) => 10 ** (1.3 + index / 10 + (TABLE_DB[index] ?? NaN) / 10);
  const whole = TABLE_DB.reduce((sum, _, index) => sum + power(index), 0);

  test('all of it is left where nothing filters', () => {
    expectNear(
      whiteNoiseLeft_db(bands.map((exact_hz) => ({ exact_hz, level_db: 0 }))),
      0,
      1e-9,
      'dB',
    );
  });

  test('the bands below 200 Hz, by the standard’s table', () => {
    const low = bands.slice(0, 10).map((exact_hz) => ({ exact_hz, level_db: 0 }));
    const table_db = 10 * Math.log10(low.reduce((sum, _, index) => sum + power(index), 0) / whole);
    expectNear(whiteNoiseLeft_db(low), table_db, 0.1, 'dB');
  });
});

describe('input sensitivity', () => {
  // Definition of dBu: +18 dBu into +10 dBu clips 8 dB early, into +4 dBu 14 dB.
  test('what the other choices would cost', () => {
    const setup = worked(subRoomWith({ input_sensitivity: volts(dbu(18), '18 dBu') }));
    const { reason } = adviceAt(setup, 'settings.sub.input_sensitivity');
    expect(reason).toContain('; 10 dBu would clip 8.0 dB below full scale');
    expect(reason).toContain('; 4 dBu would clip 14.0 dB below full scale');
  });
});
