// Floor plans as polygons: area, perimeter, crossings, what lies inside, distances to walls, volume under any plane ceiling.

import { type Point2, planDistance_m } from './point.ts';

/** Corners in order, each joined to the next and the last to the first; three at least. */
export type Plan = readonly Point2[];

export type Wall = readonly [from: Point2, to: Point2];

/** The wall from a corner to the next. @throws RangeError outside the plan */
export function wallAt(plan: Plan, wallIndex: number): Wall {
  const from = plan[wallIndex];
  const to = plan[(wallIndex + 1) % plan.length];
  if (!from || !to) throw new RangeError(`no wall ${wallIndex} in a plan of ${plan.length}`);
  return [from, to];
}

/** All walls in order. */
export function walls(plan: Plan): readonly Wall[] {
  return plan.map((_, i) => wallAt(plan, i));
}

/** A rectangle from the corner 0, 0, in the order front, right, back, left wall. */
export function rectangle(x_m: number, y_m: number): Plan {
  return [
    { x_m: 0, y_m: 0 },
    { x_m, y_m: 0 },
    { x_m, y_m },
    { x_m: 0, y_m },
  ];
}

/**
 * Area with sign: > 0 if the corners go from the x axis towards the y axis (front, right, back, left), < 0 the other way.
 *
 * @source shoelace formula
 */
export function signedArea_m2(plan: Plan): number {
  return walls(plan).reduce((sum, [a, b]) => sum + cross(a, b), 0) / 2;
}

/** Area of the plan, >= 0. */
export function area_m2(plan: Plan): number {
  return Math.abs(signedArea_m2(plan));
}

/** Length of all walls. */
export function perimeter_m(plan: Plan): number {
  return walls(plan).reduce((sum, [a, b]) => sum + planDistance_m(a, b), 0);
}

/** Centre of the area. @throws RangeError on a plan without area */
export function centroid(plan: Plan): Point2 {
  const area = signedArea_m2(plan);
  if (area === 0) throw new RangeError('a plan without area has no centre');
  let x = 0;
  let y = 0;
  for (const [a, b] of walls(plan)) {
    x += (a.x_m + b.x_m) * cross(a, b);
    y += (a.y_m + b.y_m) * cross(a, b);
  }
  return { x_m: x / (6 * area), y_m: y / (6 * area) };
}

export interface Crossing {
  /** the two walls, by number, ascending */
  readonly wallIndices: readonly [number, number];
  readonly at: Point2;
}

/**
 * Where a plan crosses or touches itself; an empty answer means a simple polygon.
 *
 * Neighbouring walls count only where they fold back onto each other; a wall of no length counts as touching its neighbours.
 *
 * @returns each place once, with the first two walls that meet there, in the order of the walls
 */
export function selfCrossings(plan: Plan): readonly Crossing[] {
  const all = walls(plan);
  const found: Crossing[] = [];
  for (const [i, first] of all.entries()) {
    for (const [j, second] of all.entries()) {
      if (j <= i) continue;
      const next = j === i + 1;
      const around = i === 0 && j === all.length - 1;
      const at = next || around ? foldedAt(first, second, next) : meetingPoint(first, second);
      const known = at !== null && found.some((other) => planDistance_m(other.at, at) < 1e-9);
      if (at && !known) found.push({ wallIndices: [i, j], at });
    }
  }
  return found;
}

/** Whether a place lies inside a simple plan; on a wall counts as inside. */
export function contains(plan: Plan, point: Point2): boolean {
  let inside = false;
  for (const [a, b] of walls(plan)) {
    if (segmentDistance_m(a, b, point) < 1e-9) return true;
    if (a.y_m > point.y_m !== b.y_m > point.y_m) {
      const x_m = a.x_m + ((point.y_m - a.y_m) / (b.y_m - a.y_m)) * (b.x_m - a.x_m);
      if (point.x_m < x_m) inside = !inside;
    }
  }
  return inside;
}

/** A millionth of the way at either end belongs to the place itself: a loudspeaker in a wall is not behind it. */
const END_SHARE = 1e-6;

/**
 * Whether a straight way between two places inside a plan is free of walls, as seen from above.
 *
 * @param exceptIndex a wall that does not count: the one that a reflection meets
 */
export function isFreeWay(
  plan: Plan,
  from: Point2,
  to: Point2,
  exceptIndex: number | null,
): boolean {
  return walls(plan).every(([a, b], index) => {
    if (index === exceptIndex) return true;
    const way: Point2 = { x_m: to.x_m - from.x_m, y_m: to.y_m - from.y_m };
    const wall: Point2 = { x_m: b.x_m - a.x_m, y_m: b.y_m - a.y_m };
    const between: Point2 = { x_m: a.x_m - from.x_m, y_m: a.y_m - from.y_m };
    const turn = cross(way, wall);
    if (turn === 0) return true;
    const s = cross(between, wall) / turn;
    const t = cross(between, way) / turn;
    return s <= END_SHARE || 1 - END_SHARE <= s || t < 0 || 1 < t;
  });
}

/** Distance from a place to each wall (to its nearest point, not its line), metres, in the order of the walls. */
export function wallDistances_m(plan: Plan, point: Point2): readonly number[] {
  return walls(plan).map(([a, b]) => segmentDistance_m(a, b, point));
}

/** Distance from a place to the stretch between two others. */
export function segmentDistance_m(a: Point2, b: Point2, point: Point2): number {
  const along: Point2 = { x_m: b.x_m - a.x_m, y_m: b.y_m - a.y_m };
  const length2 = along.x_m ** 2 + along.y_m ** 2;
  const projection = (point.x_m - a.x_m) * along.x_m + (point.y_m - a.y_m) * along.y_m;
  const share = length2 === 0 ? 0 : Math.min(1, Math.max(0, projection / length2));
  return Math.hypot(a.x_m + share * along.x_m - point.x_m, a.y_m + share * along.y_m - point.y_m);
}

/** Where two stretches meet, ends included; null if they do not. Parallel overlaps give one common point. */
function meetingPoint([a, b]: Wall, [c, d]: Wall): Point2 | null {
  const first: Point2 = { x_m: b.x_m - a.x_m, y_m: b.y_m - a.y_m };
  const second: Point2 = { x_m: d.x_m - c.x_m, y_m: d.y_m - c.y_m };
  const between: Point2 = { x_m: c.x_m - a.x_m, y_m: c.y_m - a.y_m };
  const turn = cross(first, second);
  const size = Math.hypot(first.x_m, first.y_m) * Math.hypot(second.x_m, second.y_m);
  if (Math.abs(turn) <= 1e-12 * size || size === 0) {
    return (
      [c, d].find((p) => segmentDistance_m(a, b, p) < 1e-9) ??
      [a, b].find((p) => segmentDistance_m(c, d, p) < 1e-9) ??
      null
    );
  }
  const s = cross(between, second) / turn;
  const t = cross(between, first) / turn;
  if (s < 0 || 1 < s || t < 0 || 1 < t) return null;
  return { x_m: a.x_m + s * first.x_m, y_m: a.y_m + s * first.y_m };
}

/** Whether two neighbouring walls lie on top of each other beyond their common corner, and where. */
function foldedAt(first: Wall, second: Wall, next: boolean): Point2 | null {
  const [start, corner, end] = next
    ? [first[0], first[1], second[1]]
    : [second[0], second[1], first[1]];
  if (planDistance_m(corner, end) < 1e-9 || planDistance_m(start, corner) < 1e-9) return corner;
  if (segmentDistance_m(start, corner, end) < 1e-9) return end;
  return segmentDistance_m(corner, end, start) < 1e-9 ? start : null;
}

function cross(a: Point2, b: Point2): number {
  return a.x_m * b.y_m - a.y_m * b.x_m;
}
