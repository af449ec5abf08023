// The room's figures in SI, against the definitions of the units.

import { expect, test } from 'vitest';
import { expectNear } from '../support/expectNear.ts';
import { resolveText } from './small.ts';

const ROOM = `
space:
  size: { width: 15'2", depth: 6180 mm ± 20 mm, height: 2.94 m }
  air: { temperature: 70 °F, humidity: 45 %, pressure: 1013 hPa }
  surfaces:
    ceiling: { absorption: { 250 Hz: 0.35, 63 Hz: 0.20, 0.125 kHz: 0.28 } }
    right: { admittance: { real: 0.02, imaginary: 0.1 } }
    left: { admittance: 0.03 }
  decay_time: { 125 Hz: 310 ms, 63 Hz: 0.42 s }
  fixtures: { door: { kind: keep_clear, x: [0 m, 95 cm], y: [4 m, 5 m] } }
seats:
  producer: { at: { x: 2 m, y: 4 m, z: 1.2 m } }
  mix: { at: { x: 2 m, y: 2 m, z: 1.2 m }, role: reference }
speakers: { left: { gear: heath_6, channel: L, at: { x: 1 ft, y: 10 in, z: 4 ft 2 in } } }
targets: { reference_level: 79 dBC, curve: { flat: true } }
`;

test('lengths (international yard and pound agreement, 1959: 1 in = 25.4 mm)', () => {
  const { room } = resolveText(ROOM);
  expect(room.space.shape?.kind).toBe('box');
  if (room.space.shape?.kind !== 'box') return;
  expectNear(room.space.shape.width_m, 182 * 0.0254, 1e-12, 'm');
  expectNear(room.space.shape.depth_m, 6.18, 1e-12, 'm');
  expectNear(room.plusMinus['space.size.depth'] ?? Number.NaN, 0.02, 1e-12, 'm');
  const at = room.speakers[0]?.at;
  expectNear([at?.x_m ?? 0, at?.y_m ?? 0, at?.z_m ?? 0], [0.3048, 0.254, 1.27], 1e-12, 'm');
});

test('air (70 °F = 294.261 K: NIST SP 811, K = (°F + 459.67) / 1.8)', () => {
  const { air } = resolveText(ROOM).room;
  expectNear(air.temperature_k ?? 0, (70 + 459.67) / 1.8, 1e-9, 'K');
  expectNear([air.relativeHumidity ?? 0, air.pressure_pa ?? 0], [0.45, 101300], 1e-9, '');
});

test('spectra ascend, whatever order they are written in', () => {
  const { space } = resolveText(ROOM).room;
  const ceiling = space.surfaces.find(({ name }) => name === 'ceiling')?.covering;
  expect(ceiling).toEqual({
    kind: 'absorption',
    absorption: { frequency_hz: [63, 125, 250], value: [0.2, 0.28, 0.35] },
  });
  expect(space.decayTime_s).toEqual({ frequency_hz: [63, 125], value: [0.42, 0.31] });
});

test('admittances, real and complex', () => {
  const coverings = resolveText(ROOM).room.space.surfaces.map(({ covering }) => covering);
  expect(coverings).toContainEqual({ kind: 'admittance', real: 0.02, imaginary: 0.1 });
  expect(coverings).toContainEqual({ kind: 'admittance', real: 0.03, imaginary: 0 });
});

test('the reference seat is the one that says so, else the first', () => {
  const reference = (text: string) =>
    resolveText(text).room.seats.find(({ isReference }) => isReference)?.id;
  expect(reference(ROOM)).toBe('mix');
  expect(reference(ROOM.replace(', role: reference', ''))).toBe('producer');
});

test('the policy, and the room over it', () => {
  const { policy } = resolveText(`
policy: mix
targets: { reference_level: 82 dBA, tolerances: { height: 2 in }, severity: { layout/pair: off } }
`).room;
  expect(policy.id).toBe('mix');
  expect(policy.referenceLevel).toEqual({ level_db: 82, weighting: 'A' });
  expect(policy.layouts).toEqual(['0+2+0']);
  expectNear(policy.recheck_months ?? 0, 12, 1e-9, 'months');
  expectNear(
    [policy.tolerances.height ?? 0, policy.tolerances.azimuth ?? 0],
    [0.0508, (2 * Math.PI) / 180],
    1e-12,
    '',
  );
  expect(policy.severity).toEqual({ 'layout/height': 'warning', 'layout/pair': 'off' });
});

test('a flat curve is an empty spectrum', () => {
  expect(resolveText(ROOM).room.targets.curve).toEqual({ frequency_hz: [], value: [] });
});

test('habits follow what is written most', () => {
  expect(resolveText(ROOM).room.habits).toEqual({
    length: 'metre',
    temperature: 'fahrenheit',
    mass: 'kilogram',
  });
  expect(resolveText('').room.habits.length).toBe('metre');
  expect(
    resolveText(`\nseats: { a: { at: { x: 7', y: 6'2", z: 4 ft } } }\n`).room.habits.length,
  ).toBe('feet');
});

test('gaps say why', () => {
  const { room } = resolveText(`
space:
  size: { width: 4 m, depth: unknown, height: 3 Hz }
  background_noise: unknown
`);
  const reasons = new Map(room.gaps.map(({ path, reason }) => [path.join('.'), reason]));
  expect(room.space.shape).toBeNull();
  expect(reasons.get('space.size.depth')).toBe('unknown');
  expect(reasons.get('space.size.height')).toBe('in error');
  expect(reasons.get('space.background_noise')).toBe('unknown');
  expect(reasons.get('space.decay_time')).toBe('not recorded');
  expect(reasons.has('space.size.width')).toBe(false);
});
