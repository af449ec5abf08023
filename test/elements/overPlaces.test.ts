// Many places at one frequency read the same as each of them by itself over all frequencies.

import { expect, test } from 'vitest';
import { preparePrismField } from '../../core/elements/prismField.ts';
import { prepareSlopedField } from '../../core/elements/slopedField.ts';

const AIR = { speedOfSound_m_s: 343, density_kg_m3: 1.204 };
const PLAN = [
  { x_m: 0, y_m: 0 },
  { x_m: 5.6, y_m: 0 },
  { x_m: 5.1, y_m: 4.3 },
  { x_m: 0.4, y_m: 4.3 },
];
const SOFT = { real: 0.03, imaginary: 0 };
const surfaces = () => ({ walls: PLAN.map(() => SOFT), floor: SOFT, ceiling: SOFT });
const F_HZ = [25, 40, 63, 100];
const SOURCE = { x_m: 0.8, y_m: 0.7, z_m: 0.3 };
const PLACES = [
  { x_m: 2.2, y_m: 2.4, z_m: 1.2 },
  { x_m: 3.4, y_m: 2.7, z_m: 1.2 },
  { x_m: 3.4, y_m: 2.7, z_m: 1.9 },
];

test.each([
  ['a level ceiling', () => preparePrismField(PLAN, 2.6, surfaces, AIR, F_HZ)],
  [
    'a sloped ceiling',
    () =>
      prepareSlopedField(
        { plan: PLAN, ceiling: { height_m: 2.5, slopeX: 0.1, slopeY: 0 } },
        surfaces,
        AIR,
        F_HZ,
      ),
  ],
])('%s', (_, make) => {
  const field = make();
  // By reciprocity: the source listens, each place sounds.
  const heard = PLACES.map((place) => field.listenAt([SOURCE])(place)[0]);
  const over = field.over(PLACES);
  F_HZ.forEach((f_hz, f) => {
    const { re, im } = over(SOURCE, f_hz);
    heard.forEach((one, place) => {
      const size = Math.hypot(one?.re[f] ?? Number.NaN, one?.im[f] ?? Number.NaN);
      expect(Math.abs((re[place] ?? Number.NaN) - (one?.re[f] ?? 0))).toBeLessThan(1e-6 * size);
      expect(Math.abs((im[place] ?? Number.NaN) - (one?.im[f] ?? 0))).toBeLessThan(1e-6 * size);
    });
  });
});
