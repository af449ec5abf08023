// Plans: any shape, ceilings as planes, and walls that make no room told.

import { expect, test } from 'vitest';
import type { PlanShape } from '../../schema/model/room.ts';
import { expectNear } from '../support/expectNear.ts';
import { check, resolveText } from './small.ts';

const TRAPEZOID = `
space:
  plan:
    front: { x: 0 m, y: 0 m }
    right: { x: 2.40 m, y: 0 m }
    back: { x: 2.20 m, y: 6.10 m ± 20 mm }
    left: { x: 0.20 m, y: 6.10 m }
`;

function plan(text: string): PlanShape {
  const { shape } = resolveText(text).room.space;
  if (shape?.kind !== 'plan') throw new Error('no plan');
  return shape;
}

/** Height over a point by the plane. */
function height_m({ ceiling }: PlanShape, x_m: number, y_m: number): number {
  if (ceiling === null) return Number.NaN;
  return ceiling.height_m + ceiling.slopeX * x_m + ceiling.slopeY * y_m;
}

test('walls keep their order and names', () => {
  const shape = plan(`${TRAPEZOID}  height: 2.94 m\n`);
  expect(shape.walls.map(({ name }) => name)).toEqual(['front', 'right', 'back', 'left']);
  expect(shape.walls[2]).toEqual({ name: 'back', x_m: 2.2, y_m: 6.1 });
  expect(shape.ceiling).toEqual({ height_m: 2.94, slopeX: 0, slopeY: 0 });
});

test('front and back, left and right: heights where the plan begins and ends', () => {
  const frontBack = plan(`${TRAPEZOID}  ceiling: { front: 2.60 m, back: 3.10 m }\n`);
  expectNear(
    [height_m(frontBack, 1, 0), height_m(frontBack, 1, 6.1), height_m(frontBack, 1, 3.05)],
    [2.6, 3.1, 2.85],
    1e-9,
    'm',
  );
  const leftRight = plan(`${TRAPEZOID}  ceiling: { left: 3 m, right: 2.40 m }\n`);
  expectNear([height_m(leftRight, 0, 2), height_m(leftRight, 2.4, 5)], [3, 2.4], 1e-9, 'm');
});

test('three corners: any plane', () => {
  const shape = plan(
    `${TRAPEZOID}  ceiling: { front_left: 2.60 m, front_right: 2.80 m, back_left: 3.10 m }\n`,
  );
  expectNear(
    [height_m(shape, 0, 0), height_m(shape, 2.4, 0), height_m(shape, 0, 6.1)],
    [2.6, 2.8, 3.1],
    1e-9,
    'm',
  );
});

test('either way round, and corners that point inwards, will do', () => {
  check(`
space:
  plan:
    a: { x: 0 m, y: 0 m }
    b: { x: 0 m, y: 5.80 m }
    c: { x: 6 m, y: 5.80 m }
    d: { x: 6 m, y: 3.50 m }
    e: { x: 4.20 m, y: 3.50 m }
    f: { x: 4.20 m, y: 0 m }
  height: 3 m
`);
});

test('a plan that crosses itself', () => {
  const crossed = `
space:
  plan:
    a: { x: 0 m, y: 0 m }
    b: { x: 4 m, y: 5 m }
    c: { x: 4 m, y: 0 m }
    #  ^^^^^^^^^^^^^^^^^^ error: The plan crosses itself: wall \`c\` meets wall \`a\`; corners follow one another round the room
    d: { x: 0 m, y: 5 m }
  height: 3 m
`;
  check(crossed);
  expect(resolveText(crossed).room.space.shape).toBeNull();
});

test('a corner on another wall, a wall that runs back, two corners in one place', () => {
  check(`
space:
  plan:
    a: { x: 0 m, y: 0 m }
    b: { x: 4 m, y: 0 m }
    c: { x: 4 m, y: 5 m }
    #  ^^^^^^^^^^^^^^^^^^ error: The plan crosses itself: wall \`c\` meets wall \`a\`; corners follow one another round the room
    d: { x: 2 m, y: 0 m }
    e: { x: 0 m, y: 5 m }
  height: 3 m
`);
  check(`
space:
  plan:
    a: { x: 0 m, y: 0 m }
    b: { x: 4 m, y: 0 m }
    #  ^^^^^^^^^^^^^^^^^^ error: The plan crosses itself: wall \`b\` meets wall \`a\`; corners follow one another round the room
    c: { x: 2 m, y: 0 m }
    d: { x: 2 m, y: 5 m }
  height: 3 m
`);
  check(`
space:
  plan:
    a: { x: 0 m, y: 0 m }
    b: { x: 4 m, y: 0 m }
    c: { x: 4 m, y: 0 m }
    #  ^^^^^^^^^^^^^^^^^^ error: \`c\` starts where \`b\` starts, so that \`b\` has no length
    d: { x: 0 m, y: 5 m }
  height: 3 m
`);
});

test('spans that run backwards and shares that are no whole', () => {
  check(`
space:
  size: { width: 4 m, depth: 5 m, height: 3 m }
  surfaces:
    floor: { shares: { a: 80 %, b: 40 % } }
    #                ^^^^^^^^^^^^^^^^^^^^ error: The shares add up to 120 %; together they are 100 %
    back: { shares: { a: 80 % } }
    #               ^^^^^^^^^^^ warning: The shares add up to 80 %; together they are 100 %
  fixtures:
    door: { kind: keep_clear, x: [1 m, 0 m], y: [0 m, 1 m] }
    #                            ^^^^^^^^^^ error: From \`1 m\` to \`0 m\` runs backwards; the smaller value comes first
`);
});
