// The field of a room with a level ceiling: a rectangle against the exact box, and what every field must keep.
import { expect, test } from 'vitest';
import { boxTransfer_pa_s_m3 } from '../../core/acoustics/field/boxTransfer.ts';
import { preparePrismField } from '../../core/elements/prismField.ts';
import { prepareSlopedField } from '../../core/elements/slopedField.ts';
import { level_db, point } from '../support/fieldData.ts';

test('a rectangle drawn as a plan has the field of the box', () => {
  const beta = { real: 0.03, imaginary: 0 };
  const medium = { speedOfSound_m_s: 343, density_kg_m3: 1.204 };
  const frequency_hz = [25, 41, 63, 88, 110];
  const plan = [
    { x_m: 0, y_m: 0 },
    { x_m: 4.7, y_m: 0 },
    { x_m: 4.7, y_m: 6.2 },
    { x_m: 0, y_m: 6.2 },
  ];
  const [transfer] = preparePrismField(
    plan,
    2.9,
    () => ({ walls: plan.map(() => beta), floor: beta, ceiling: beta }),
    medium,
    frequency_hz,
  ).listenAt([{ x_m: 2.35, y_m: 3.9, z_m: 1.2 }])({ x_m: 0.6, y_m: 0.45, z_m: 0.35 });
  const axis = (length_m: number) => ({ length_m, walls: [beta, beta] as const });
  frequency_hz.forEach((f_hz, i) => {
    const [re, im] = boxTransfer_pa_s_m3(
      [axis(4.7), axis(6.2), axis(2.9)],
      medium,
      f_hz,
      [0.6, 0.45, 0.35],
      [2.35, 3.9, 1.2],
    );
    const off = level_db(transfer?.re[i] ?? 0, transfer?.im[i] ?? 0) - level_db(re, im);
    expect(Math.abs(off)).toBeLessThan(0.3);
  });
});

const L_SHAPE = [
  [0, 0],
  [6.4, 0],
  [6.4, 3.1],
  [4.1, 3.1],
  [4.1, 5.2],
  [0, 5.2],
].map(([x_m = 0, y_m = 0]) => ({ x_m, y_m }));
const SOFT = { real: 0.03, imaginary: 0.01 };
const AIR = { speedOfSound_m_s: 343, density_kg_m3: 1.204 };
const SURFACES = () => ({ walls: L_SHAPE.map(() => SOFT), floor: SOFT, ceiling: SOFT });
const HERE = point([0.5, 0.7, 0.4]);
const THERE = point([3.3, 4.1, 1.2]);

test.each([
  ['level', () => preparePrismField(L_SHAPE, 2.75, SURFACES, AIR, [40, 75, 110])],
  [
    'sloped',
    () =>
      prepareSlopedField(
        { plan: L_SHAPE, ceiling: { height_m: 2.4, slopeX: 0.1, slopeY: 0.05 } },
        SURFACES,
        AIR,
        [40, 75, 110],
      ),
  ],
] as const)('%s ceiling: source and receiver may be exchanged (reciprocity)', (_, prepare) => {
  const field = prepare();
  const [there] = field.listenAt([THERE])(HERE);
  const [back] = field.listenAt([HERE])(THERE);
  for (const i of [0, 1, 2]) {
    const size = Math.hypot(there?.re[i] ?? 0, there?.im[i] ?? 0);
    // A sloped field holds other fields for other receivers: it is reciprocal as far as it has converged.
    expect(Math.abs((there?.re[i] ?? 0) - (back?.re[i] ?? 0)) / size).toBeLessThan(0.03);
    expect(Math.abs((there?.im[i] ?? 0) - (back?.im[i] ?? 0)) / size).toBeLessThan(0.03);
  }
});

test('far below the first mode the room is a spring: p = ρc²Q/(jωV) (Morse & Ingard, §9.4)', () => {
  const hard = { real: 0, imaginary: 0 };
  const [transfer] = preparePrismField(
    L_SHAPE,
    2.75,
    () => ({ walls: L_SHAPE.map(() => hard), floor: hard, ceiling: hard }),
    AIR,
    [1, 2, 60],
  ).listenAt([THERE])(HERE);
  const volume_m3 = (6.4 * 3.1 + 4.1 * 2.1) * 2.75;
  const want = (AIR.density_kg_m3 * AIR.speedOfSound_m_s ** 2) / (2 * Math.PI * volume_m3);
  expect(Math.hypot(transfer?.re[0] ?? 0, transfer?.im[0] ?? 0) / want).toBeCloseTo(1, 2);
});

test('a room and its mirror image have the same field', () => {
  const mirrored = L_SHAPE.map(({ x_m, y_m }) => ({ x_m: 6.4 - x_m, y_m }));
  const flip = ({ x_m, y_m, z_m }: typeof HERE) => ({ x_m: 6.4 - x_m, y_m, z_m });
  const of = (plan: typeof L_SHAPE, turn: (place: typeof HERE) => typeof HERE) =>
    preparePrismField(plan, 2.75, SURFACES, AIR, [35, 62, 90, 120]).listenAt([turn(THERE)])(
      turn(HERE),
    )[0];
  const [one, other] = [of(L_SHAPE, (place) => place), of(mirrored, flip)];
  for (const i of [0, 1, 2, 3]) {
    const off =
      level_db(one?.re[i] ?? 0, one?.im[i] ?? 0) - level_db(other?.re[i] ?? 0, other?.im[i] ?? 0);
    expect(Math.abs(off)).toBeLessThan(0.1); // another mesh
  }
});
