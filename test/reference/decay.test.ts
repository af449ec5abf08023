// Decay of modes and of rooms: identities between the formulas, and the cases without an answer.
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boxMeasures, type ModeOrder } from '../../core/acoustics/boxModes.ts';
import {
  decayConstant_per_s,
  decayTime_s,
  modalDamping_per_s,
  modalDecayTime_s,
  type SixSurfaces,
} from '../../core/acoustics/modalDecay.ts';
import {
  type AbsorbingArea,
  arauPuchades_s,
  eyring_s,
  fitzroy_s,
  meanAbsorption_ratio,
  sabine_s,
} from '../../core/acoustics/reverberation.ts';
import { expectNear } from '../support/expectNear.ts';

const side_m = fc.double({ min: 2, max: 12, noNaN: true });
const alpha = fc.double({ min: 0.01, max: 0.9, noNaN: true });

test('an oblique mode decays as Sabine says, whatever absorbs (Kuttruff, ch. 3)', () => {
  fc.assert(
    fc.property(
      side_m,
      side_m,
      side_m,
      fc.tuple(alpha, alpha, alpha, alpha, alpha, alpha),
      (x_m, y_m, z_m, a) => {
        const [xy, yz, xz] = [x_m * y_m, y_m * z_m, x_m * z_m];
        const surfaces: AbsorbingArea[] = a.map((absorption_ratio, i) => ({
          area_m2: [yz, yz, xz, xz, xy, xy][i] ?? 0,
          absorption_ratio,
        }));
        const { volume_m3 } = boxMeasures({ x_m, y_m, z_m });
        const room = { volume_m3, speedOfSound_m_s: 343, airLoss_per_m: 0 };
        const mode_s = modalDecayTime_s([1, 2, 1], { x_m, y_m, z_m }, 343, a) ?? 0;
        expectNear(mode_s / (sabine_s(surfaces, room) ?? 0), 1, 1e-12, '');
      },
    ),
  );
});

test('in a cube with equal walls damping is 4 : 5 : 6, axial, tangential, oblique (by hand)', () => {
  const size = { x_m: 3, y_m: 3, z_m: 3 };
  const walls: SixSurfaces = [0.01, 0.01, 0.01, 0.01, 0.01, 0.01];
  const orders: readonly ModeOrder[] = [
    [1, 0, 0],
    [0, 1, 1],
    [1, 1, 1],
  ];
  const [axial = 0, tangential = 0, oblique = 0] = orders.map((order) =>
    modalDamping_per_s(order, size, 343, walls),
  );
  expectNear([tangential / axial, oblique / axial], [5 / 4, 6 / 4], 1e-12, '');
});

test('decay constant and decay time are inverses; both refuse what is not > 0', () => {
  expectNear(decayTime_s(decayConstant_per_s(0.37)), 0.37, 1e-15, 's');
  expect(() => decayConstant_per_s(0)).toThrow('reverberation_s');
});

test('without absorption there is no decay time, and none is made up', () => {
  const room = { volume_m3: 60, speedOfSound_m_s: 343, airLoss_per_m: 0 };
  const hard = [{ area_m2: 90, absorption_ratio: 0 }];
  expect(sabine_s(hard, room)).toBeNull();
  expect(eyring_s(hard, room)).toBeNull();
  expect(eyring_s([{ area_m2: 90, absorption_ratio: 1 }], room)).toBeNull();
  expect(
    modalDecayTime_s([1, 0, 0], { x_m: 4, y_m: 5, z_m: 3 }, 343, [0, 0, 0, 0, 0, 0]),
  ).toBeNull();
  expect(fitzroy_s([hard, hard, hard], room)).toBeNull();
});

describe('formulas against each other', () => {
  const room = { volume_m3: 60, speedOfSound_m_s: 343, airLoss_per_m: 0 };

  test('Eyring is shorter than Sabine, and nears it for little absorption', () => {
    fc.assert(
      fc.property(alpha, (absorption_ratio) => {
        const surfaces = [{ area_m2: 90, absorption_ratio }];
        expect(eyring_s(surfaces, room)).toBeLessThan(sabine_s(surfaces, room) ?? 0);
      }),
    );
    const little = [{ area_m2: 90, absorption_ratio: 1e-5 }];
    expectNear((eyring_s(little, room) ?? 0) / (sabine_s(little, room) ?? 1), 1, 1e-5, '');
  });

  test('with the same absorption everywhere Fitzroy and Arau-Puchades are Eyring', () => {
    const pair = (area_m2: number) => [{ area_m2, absorption_ratio: 0.3 }];
    const pairs = [pair(20), pair(30), pair(40)] as const;
    const eyring = eyring_s(pair(90), room) ?? 0;
    expectNear(
      [fitzroy_s(pairs, room) ?? 0, arauPuchades_s(pairs, room) ?? 0],
      [eyring, eyring],
      1e-12,
      's',
    );
  });

  test('air shortens the decay: 4mV joins the absorption area (Kuttruff)', () => {
    const surfaces = [{ area_m2: 90, absorption_ratio: 0.2 }];
    const damp = sabine_s(surfaces, { ...room, airLoss_per_m: 0.01 }) ?? 0;
    expectNear(damp / (sabine_s(surfaces, room) ?? 1), 18 / (18 + 4 * 0.01 * 60), 1e-12, '');
  });
});

test('mean absorption is by area; no area is a caller’s fault', () => {
  const surfaces = [
    { area_m2: 10, absorption_ratio: 0.1 },
    { area_m2: 30, absorption_ratio: 0.5 },
  ];
  expectNear(meanAbsorption_ratio(surfaces), 0.4, 1e-12, '');
  expect(() => meanAbsorption_ratio([])).toThrow('total area_m2');
});
