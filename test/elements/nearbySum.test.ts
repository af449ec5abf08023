// A slightly other room to first order, held against a new mesh of that room: sides, absorption and places changed together.

import { describe, expect, test } from 'vitest';
import { nearbySum, type Stretch } from '../../core/elements/nearbySum.ts';
import { type PrismSurfaces, preparePrismField } from '../../core/elements/prismField.ts';
import { prepareSlopedField } from '../../core/elements/slopedField.ts';
import { deviations_db, rms } from '../support/fieldData.ts';

const AIR = { speedOfSound_m_s: 343, density_kg_m3: 1.204 };
const corner = ([x_m = 0, y_m = 0]: readonly number[]) => ({ x_m, y_m });
const L_SHAPE = [
  [0, 0],
  [6.4, 0],
  [6.4, 3.1],
  [4.1, 3.1],
  [4.1, 5.2],
  [0, 5.2],
].map(corner);
const SPLAYED = [
  [0, 0],
  [5.6, 0],
  [5.1, 4.3],
  [0.4, 4.3],
].map(corner);
const F_HZ = Array.from({ length: 84 }, (_, i) => 20 * 2 ** (i / 30));
const SOURCE = { x_m: 0.7, y_m: 0.6, z_m: 0.3 };
const EARS = [
  { x_m: 2.2, y_m: 2.4, z_m: 1.2 },
  { x_m: 3.4, y_m: 2.7, z_m: 1.2 },
];
/** As an envelope draws them: centimetres of the sides, an absorption known to a factor of 1.6, a moved head and source. */
const STRETCH: Stretch = [1 + 0.02 / 6, 1 - 0.02 / 5, 1 + 0.01 / 2.7];
const ABSORBS = 1.6;
const MOVED = { x_m: 0.03, y_m: -0.02, z_m: 0.02 };

function surfaces(walls: number, factor: number): () => PrismSurfaces {
  const real = (value: number) => ({ real: value * factor, imaginary: 0 });
  return () => ({
    floor: real(0.01),
    ceiling: real(0.03),
    walls: Array.from({ length: walls }, (_, i) => real(0.015 + 0.01 * (i % 3))),
  });
}

/** A room under a ceiling that may slope along x, with its plan and height stretched about its corner. */
function room(plan: typeof L_SHAPE, slopeX: number, [sx, sy, sz]: Stretch, factor: number) {
  const stretched = plan.map(({ x_m, y_m }) => ({ x_m: sx * x_m, y_m: sy * y_m }));
  const ceiling = { height_m: sz * 2.6, slopeX: (sz / sx) * slopeX, slopeY: 0 };
  const at = surfaces(plan.length, factor);
  return slopeX === 0
    ? preparePrismField(stretched, ceiling.height_m, at, AIR, F_HZ)
    : prepareSlopedField({ plan: stretched, ceiling }, at, AIR, F_HZ);
}

function added<Point extends typeof SOURCE>(place: Point): Point {
  return {
    ...place,
    x_m: place.x_m + MOVED.x_m,
    y_m: place.y_m + MOVED.y_m,
    z_m: place.z_m + MOVED.z_m,
  };
}

/** RMS over both ears away from deep dips: of the first order against the new mesh, and of leaving the change out. */
function compared(plan: typeof L_SHAPE, slopeX: number) {
  const as = room(plan, slopeX, [1, 1, 1], 1);
  const heard = as.listenAt(EARS)(SOURCE);
  const ears = EARS.map(added);
  const exact = room(plan, slopeX, STRETCH, ABSORBS).listenAt(ears)(added(SOURCE));
  const sum = (stretch: Stretch, factor: number) =>
    nearbySum(
      as.parts(),
      plan,
      { x_m: 0, y_m: 0 },
      { stretch, surfacesAt: surfaces(plan.length, factor), medium: AIR },
      F_HZ,
    );
  const before = sum([1, 1, 1], 1);
  const after = sum(STRETCH, ABSORBS);
  const apart = heard.flatMap((whole, i) => {
    const one = before(EARS[i] ?? SOURCE, SOURCE);
    const other = after(ears[i] ?? SOURCE, added(SOURCE));
    const changed = {
      re: whole.re.map((value, f) => value + (other.re[f] ?? 0) - (one.re[f] ?? 0)),
      im: whole.im.map((value, f) => value + (other.im[f] ?? 0) - (one.im[f] ?? 0)),
    };
    return deviations_db(changed, exactOf(exact[i]));
  });
  const unchanged = heard.flatMap((whole, i) => deviations_db(whole, exactOf(exact[i])));
  return { apart_db: rms(apart), unchanged_db: rms(unchanged) };
}

function exactOf(field: { readonly re: Float64Array; readonly im: Float64Array } | undefined) {
  return { re: [...(field?.re ?? [])], im: [...(field?.im ?? [])] };
}

describe.each([
  { name: 'an L shape under a level ceiling', plan: L_SHAPE, slopeX: 0 },
  { name: 'splayed walls under a slope', plan: SPLAYED, slopeX: 0.12 },
])('$name', ({ plan, slopeX }) => {
  test('the first order tells what changes to a fraction of the change', () => {
    const { apart_db, unchanged_db } = compared(plan, slopeX);
    expect(unchanged_db).toBeGreaterThan(1.5);
    expect(apart_db).toBeLessThan(unchanged_db / 4);
    expect(apart_db).toBeLessThan(0.7);
  });

  test('slopes of every mode sum to its squared wave number, none below nothing', () => {
    const { value, slopes } = room(plan, slopeX, [1, 1, 1], 1).parts();
    const [along, across, up] = slopes;
    value.forEach((whole, i) => {
      const parts = [along[i] ?? Number.NaN, across[i] ?? Number.NaN, up[i] ?? Number.NaN];
      expect(Math.min(...parts)).toBeGreaterThan(-1e-6 * (1 + whole));
      expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(whole, 6);
    });
  });
});

test('a box drawn as a plan: sides stretched by nothing but the first order are its own modes', () => {
  // Separable: λ = (nπ/X)² + … , of which each part goes with its own side. @source Rayleigh, by hand
  const box = [
    [0, 0],
    [5, 0],
    [5, 4],
    [0, 4],
  ].map(corner);
  const { value, slopes } = room(box, 0, [1, 1, 1], 1).parts();
  const [along] = slopes;
  const first = [...value].findIndex((one) => Math.abs(one - (Math.PI / 5) ** 2) < 1e-3);
  expect(along[first]).toBeCloseTo((Math.PI / 5) ** 2, 4);
});
