// The pieces of the field's figures: levels, filters of a path, damping, extremes, spread, directivity; each against a hand-worked value.
import { describe, expect, test } from 'vitest';
import { boxModes } from '../../core/acoustics/boxModes.ts';
import { sphereDirectivity_ratio } from '../../core/acoustics/sphereDirectivity.ts';
import { statisticalAbsorption_ratio } from '../../core/acoustics/statisticalAbsorption.ts';
import { lowestModes } from '../../core/elements/lowestModes.ts';
import { planMatrices } from '../../core/elements/planElements.ts';
import { meshPlan } from '../../core/elements/planMesh.ts';
import { tridiagonalPairs } from '../../core/elements/tridiagonal.ts';
import { boundaryCurves } from '../../core/field/boundaryCurve.ts';
import { fieldContext } from '../../core/field/context.ts';
import { extremesOf } from '../../core/field/extremes.ts';
import { fieldGrid_hz } from '../../core/field/grid.ts';
import { pathResponse } from '../../core/field/path.ts';
import { drivenLevel, fullOutput_dbspl } from '../../core/field/source.ts';
import { spreadOf } from '../../core/field/spread.ts';
import { fieldSurfaces } from '../../core/field/surfaces.ts';
import { measuredDecayTime } from '../../core/parts/decayTime.ts';
import { placedSources } from '../../core/parts/referenceSeat.ts';
import { roomShape } from '../../core/parts/roomShape.ts';
import type { GovernedStage } from '../../core/signal/governing.ts';
import { geometrySetup } from '../support/findingsOf.ts';
import { box, gear, point, seat, spaceWith, speaker, stereoRoom } from '../support/rooms.ts';

describe('level of a source', () => {
  test('half-space data hold one boundary, and peaks are not RMS: −6.02 − 3.01 dB', () => {
    const peak_db = { frequency_hz: [25, 40, 80], value: [104, 114, 116] };
    const half = fullOutput_dbspl({ distance_m: 1, space: 'half', peak_db });
    const full = fullOutput_dbspl({ distance_m: 2, space: 'full', peak_db });
    expect(half).toBeCloseTo(116 - 3.0103 - 6.0206, 3);
    expect(full).toBeCloseTo(116 - 3.0103 + 6.0206, 3); // at 2 m, told at 1 m
  });

  test('−20 dBFS from 18 dBu through −6 dB into an input that takes 18 dBu for all it has', () => {
    const full_v = Math.sqrt(0.6) * 10 ** (18 / 20);
    const things = {
      desk: gear('desk', 'interface', { fullLevelOutput_v: full_v }),
      left: gear('left', 'loudspeaker', {
        fullLevelInput_v: full_v,
        maxLevel: {
          distance_m: 1,
          space: 'full',
          peak_db: { frequency_hz: [100], value: [110] },
        },
      }),
    };
    const connection = {
      index: 0,
      from: { device: 'desk', port: 'main_left' },
      to: { device: 'left', port: 'in' },
    };
    const path = {
      source: connection.from,
      target: 'left',
      stages: [],
      gain_db: -6,
      connections: [0],
    };
    const gearOf = (id: string) => things[id as keyof typeof things] ?? null;
    const driven = drivenLevel({ path, wiring: [connection], gearOf }, -20);
    expect(driven).toEqual({ level_db: expect.closeTo(110 - 3.0103 - 20 - 6, 3) });
    const unknown = drivenLevel({ path, wiring: [connection], gearOf: () => null }, -20);
    expect(unknown).toEqual({ missing: 'the greatest level of left' });
  });
});

describe('electrical response of a path', () => {
  const stage = (change: Partial<GovernedStage>): GovernedStage => ({
    device: 'sub',
    stage: 'low_pass',
    kind: 'low_pass',
    fromPort: 'in',
    toPort: 'driver',
    settingPath: null,
    control: null,
    value: null,
    port: null,
    set: null,
    ...change,
  });
  const any = { min: null, max: null, step: null, choices: null };
  const lowPass = stage({
    control: {
      kind: 'filter',
      name: 'low_pass',
      stages: ['low_pass'],
      eachPort: false,
      family: 'linkwitz_riley',
      frequency_hz: any,
      slope_db_oct: any,
      bypass: true,
    },
    value: {
      kind: 'filter',
      control: 'low_pass',
      port: null,
      set: null,
      path: [],
      told: '80 Hz',
      frequency_hz: 80,
      slope_db_oct: 24,
    },
  });
  const bare = { stages: [lowPass], inverted: false, delay_s: 0, latency_s: null };

  test('a Linkwitz-Riley of fourth order is 6.02 dB down and half a turn late at its frequency', () => {
    const { re, im } = pathResponse(bare, [80]);
    expect(re[0]).toBeCloseTo(-0.5, 6);
    expect(im[0]).toBeCloseTo(0, 6);
  });

  test('polarity turns it, delay and latency turn it by ω times their sum', () => {
    const turned = pathResponse({ ...bare, inverted: true }, [80]);
    expect(turned.re[0]).toBeCloseTo(0.5, 6);
    const late = pathResponse({ ...bare, delay_s: 1 / 320, latency_s: 1 / 320 }, [80]);
    expect(late.re[0]).toBeCloseTo(0.5, 6); // half a period in all
  });

  test('bypassed and not dialled in filter nothing', () => {
    const bypass = stage({
      ...lowPass,
      value: { kind: 'bypass', control: 'low_pass', port: null, set: null, path: [], told: '' },
    });
    for (const one of [bypass, stage({})])
      expect(pathResponse({ ...bare, stages: [one] }, [200]).re[0]).toBeCloseTo(1, 12);
  });

  test('a bell has its gain at its frequency', () => {
    const eq = stage({
      kind: 'eq',
      value: {
        kind: 'eq',
        control: 'eq',
        port: null,
        set: null,
        path: [],
        told: '',
        bands: [{ name: 'band_1', frequency_hz: 41, gain_db: -4.5, q: 4 }],
      },
    });
    const { re, im } = pathResponse({ ...bare, stages: [eq] }, [41]);
    expect(20 * Math.log10(Math.hypot(re[0] ?? 0, im[0] ?? 0))).toBeCloseTo(-4.5, 6);
  });
});

describe('surfaces', () => {
  const shape = roomShape({ shape: box(5, 6, 2.8) });
  const given = { volume_m3: 84, speedOfSound_m_s: 343, measured: null, factor: 1 };
  const surfacesOf = (
    space: Parameters<typeof spaceWith>[0],
    change: Partial<typeof given> = {},
  ) => {
    if (shape === null) throw new RangeError('no shape');
    return fieldSurfaces(shape, spaceWith(space), { ...given, ...change });
  };

  test('absorption becomes the admittance that absorbs as much at random incidence (Paris)', () => {
    const absorption = { frequency_hz: [63, 125], value: [0.2, 0.2] };
    const { names, at } = surfacesOf({
      surfaces: [{ name: 'front', covering: { kind: 'absorption', absorption } }],
    });
    const front = at(63)[names.indexOf('front')];
    expect(statisticalAbsorption_ratio(front?.real ?? 0)).toBeCloseTo(0.2, 3);
  });

  test('a stated admittance stands as it is, complex, and what is not known is named', () => {
    const { names, at, assumed } = surfacesOf({
      surfaces: [{ name: 'back', covering: { kind: 'admittance', real: 0.02, imaginary: 0.05 } }],
    });
    expect(at(100)[names.indexOf('back')]).toEqual({ real: 0.02, imaginary: 0.05 });
    expect(assumed).toEqual(['floor', 'ceiling', 'front', 'right', 'left']);
  });

  test('measured decay sets the damping: oblique modes fall by 60 dB in that time (Kuttruff, ch. 3)', () => {
    const measured = measuredDecayTime({ frequency_hz: [63, 125], value: [0.5, 0.5] });
    const { at, names } = surfacesOf({}, { measured } as object);
    const areas = [30, 30, 14, 16.8, 14, 16.8]; // floor, ceiling, front, right, back, left
    const sum = at(80).reduce((total, { real }, i) => total + real * (areas[i] ?? 0), 0);
    // δ = (c/V) Σ β S, T = 3 ln 10/δ
    expect(names).toEqual(['floor', 'ceiling', 'front', 'right', 'back', 'left']);
    expect((3 * Math.LN10) / ((343 / 84) * sum)).toBeCloseTo(0.5, 3);
  });
});

describe('figures of curves', () => {
  const f_hz = fieldGrid_hz('box', { volume_m3: 80, floorArea_m2: 28, speedOfSound_m_s: 343 });

  test('180 points from 15 to 300 Hz; fewer in a hall, none in a hangar', () => {
    expect(f_hz.length).toBe(180);
    const grid = (volume_m3: number) =>
      fieldGrid_hz('box', { volume_m3, floorArea_m2: volume_m3 / 10, speedOfSound_m_s: 343 });
    expect(grid(20_000).at(-1)).toBeLessThan(150);
    expect(grid(3_000_000)).toEqual([]);
  });

  test('a flat curve with one dip and one peak', () => {
    const flat = f_hz.map(() => 0);
    const dip_at = f_hz.findIndex((f) => 50 < f);
    const peak_at = f_hz.findIndex((f) => 90 < f);
    const level_db = flat.map((_, i) => (i === dip_at ? -17 : i === peak_at ? 8 : 80 - 80));
    const extremes = extremesOf(f_hz, level_db, flat);
    expect(extremes?.dip).toEqual({ frequency_hz: f_hz[dip_at], level_db: -17 });
    expect(extremes?.peak).toEqual({ frequency_hz: f_hz[peak_at], level_db: 8 });
    expect(extremes?.median_db).toBe(0);
    expect(extremes?.from_hz).toBeGreaterThanOrEqual(20);
    expect(extremes?.to_hz).toBeLessThanOrEqual(200);
  });

  test('the mere end of a curve is no dip', () => {
    const falling = f_hz.map((f) => -20 * Math.log10(f / 20));
    const bump = falling.map((level, i) => (i === 60 ? level - 3 : level));
    const extremes = extremesOf(
      f_hz,
      bump,
      f_hz.map(() => 0),
    );
    expect(extremes?.dip.frequency_hz).toBe(f_hz[60]);
  });

  test('mean spatial variance by hand: two seats 6 dB apart everywhere have 9 dB², 3 dB', () => {
    const levels = [f_hz.map(() => 80), f_hz.map(() => 86)];
    const spread = spreadOf(f_hz, levels);
    expect(spread?.variance_db2).toBeCloseTo(9, 9);
    expect(spread?.deviation_db).toBeCloseTo(3, 9);
    expect(spread?.worst.level_db).toBeCloseTo(6, 9);
    expect(spreadOf(f_hz, levels.slice(1))).toBeNull();
  });
});

describe('directivity of a loudspeaker', () => {
  test('omni while the circumference is short against the wavelength', () => {
    for (const angle_rad of [0.5, 1.5, Math.PI])
      expect(sphereDirectivity_ratio(0.05, angle_rad)).toBeCloseTo(1, 2);
  });

  test('falls steadily to the side, and more with frequency', () => {
    const at = (ka: number, degrees: number) =>
      sphereDirectivity_ratio(ka, (degrees * Math.PI) / 180);
    expect(at(1, 0)).toBeCloseTo(1, 12);
    for (const ka of [0.5, 1, 2]) {
      expect(at(ka, 60)).toBeLessThan(at(ka, 30));
      expect(at(ka, 90)).toBeLessThan(at(ka, 60));
    }
    expect(at(1, 90)).toBeLessThan(at(0.5, 90));
  });
});

describe('boundary curve', () => {
  // A hard floor alone: all else absorbs all that a real admittance can at normal incidence.
  const surfaces = ['ceiling', 'front', 'right', 'back', 'left'].map((name) => ({
    name,
    covering: { kind: 'admittance', real: 1, imaginary: 0 } as const,
  }));
  const hard = { name: 'floor', covering: { kind: 'admittance', real: 0, imaginary: 0 } as const };
  const room = stereoRoom({
    space: spaceWith({ shape: box(12, 12, 8), surfaces: [...surfaces, hard] }),
    seats: [seat('mix', point(6, 7.5, 1.2))],
    speakers: [speaker('one', 'L', point(6, 5.5, 1.2))],
  });
  const setup = geometrySetup(room);

  test('the notch of a hard floor lies at c/(2Δ) (geometry)', () => {
    const context = fieldContext(setup);
    if (context === null) throw new RangeError('no context');
    const [curve] = boundaryCurves(context, placedSources(room), 0);
    const lowest = curve?.level_db.indexOf(Math.min(...(curve?.level_db ?? []))) ?? -1;
    const difference_m = Math.hypot(2, 2.4) - 2;
    const want_hz = setup.air.speedOfSound_m_s / (2 * difference_m);
    expect((curve?.frequency_hz[lowest] ?? 0) / want_hz).toBeCloseTo(1, 1);
    // g = 2/3.12: 20 lg(1 − g) = −8.9 dB with an omni source; a box that beams a little leaves less of it.
    expect(curve?.level_db[lowest]).toBeLessThan(-5);
    expect(curve?.level_db[lowest]).toBeGreaterThan(-10.5);
    expect(curve?.level_db[0]).toBeGreaterThan(0);
  });
});

describe('eigenvalues', () => {
  test('of a chain of n equal links: 2 − 2 cos(iπ/(n + 1)) (closed form)', () => {
    const n = 40;
    const { value } = tridiagonalPairs(
      new Array<number>(n).fill(2),
      new Array<number>(n - 1).fill(-1),
      [n - 1],
    );
    const sorted = [...value].sort((a, b) => a - b);
    sorted.forEach((one, i) => {
      expect(one).toBeCloseTo(2 - 2 * Math.cos(((i + 1) * Math.PI) / (n + 1)), 12);
    });
  });

  test('a square room has its modes twice, none lost: 4 × 4 m to 200 Hz against the formula', () => {
    const plan = [
      { x_m: 0, y_m: 0 },
      { x_m: 4, y_m: 0 },
      { x_m: 4, y_m: 4 },
      { x_m: 0, y_m: 4 },
    ];
    const { stiffness, mass } = planMatrices(meshPlan(plan, 0.25));
    const { value } = lowestModes(stiffness, mass, ((2 * Math.PI * 200) / 343) ** 2, 24);
    // A room so low that its height has no mode below 200 Hz.
    const want = [
      0,
      ...boxModes({ x_m: 4, y_m: 4, z_m: 0.5 }, 343, 200).map((m) => m.frequency_hz),
    ];
    expect(value.length).toBe(want.length);
    value.forEach((one, i) => {
      expect((Math.sqrt(one) * 343) / (2 * Math.PI)).toBeCloseTo(want[i] ?? 0, 0);
    });
  });
});
