// A triangle mesh of a floor plan: points spread by a size wish, walls kept as edges, finer towards corners that point inwards.

import Delaunator from 'delaunator';
import { type Point2, planDistance_m } from '../acoustics/point.ts';
import { contains, signedArea_m2, wallAt, wallDistances_m } from '../acoustics/polygon.ts';

/** Second-order triangles: corners first, then the middles of their sides. */
export interface PlanMesh {
  readonly x_m: Float64Array;
  readonly y_m: Float64Array;
  /** Six nodes a triangle: corners 0 1 2, then middles of 01, 12, 20. */
  readonly triangles: Int32Array;
  /** Sides that lie on a wall: two ends and their middle, and the wall's index in the plan. */
  readonly edges: readonly {
    readonly nodes: readonly [number, number, number];
    readonly wall: number;
  }[];
}

/** At a corner that points inwards the field is singular: elements there are this much smaller. */
const FINER_AT_CORNER = 5;
/** How fast elements grow away from such a corner, per metre. */
const GROWTH = 0.35;
/** Points inside keep this share of the wished size from each other, and from walls. */
const SPREAD = 0.82;
const OFF_WALL = 0.55;

/**
 * Meshes a simple polygon with second-order triangles of about the wished size.
 *
 * @param plan corners in either direction, not crossing itself, area > 0
 * @param size_m wished side of a triangle, > 0
 * @throws RangeError where no triangle lies inside (slivers, crossing walls): judge the plan before
 */
export function meshPlan(plan: readonly Point2[], size_m: number): PlanMesh {
  const corners = 0 < signedArea_m2(plan) ? plan : [...plan].reverse();
  const sizeAt = sizeWish(corners, size_m);
  const { points, triangles } = conforming(corners, boundary(corners, sizeAt), (points) => {
    fill(points, corners, sizeAt, size_m);
  });
  const inside: [number, number, number][] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [i = 0, j = 0, k = 0] = triangles.subarray(t, t + 3);
    const [a, b, c] = [points[i], points[j], points[k]];
    if (!a || !b || !c) continue;
    const centre = { x_m: (a.x_m + b.x_m + c.x_m) / 3, y_m: (a.y_m + b.y_m + c.y_m) / 3 };
    const area_m2 = ((b.x_m - a.x_m) * (c.y_m - a.y_m) - (c.x_m - a.x_m) * (b.y_m - a.y_m)) / 2;
    if (Math.abs(area_m2) < 1e-9 * size_m ** 2 || !contains(corners, centre)) continue;
    inside.push(0 < area_m2 ? [i, j, k] : [i, k, j]);
  }
  if (inside.length === 0) throw new RangeError('no triangle lies inside the plan');
  return secondOrder(points, inside, wallsOf(plan));
}

/** The wished size at a place: smaller near corners where the inside angle is over 180°. */
function sizeWish(corners: readonly Point2[], size_m: number): (place: Point2) => number {
  const inward = corners.filter((corner, i) => {
    const before = corners[(i + corners.length - 1) % corners.length] ?? corner;
    const after = corners[(i + 1) % corners.length] ?? corner;
    const turn =
      (corner.x_m - before.x_m) * (after.y_m - corner.y_m) -
      (corner.y_m - before.y_m) * (after.x_m - corner.x_m);
    return turn < 0;
  });
  return ({ x_m, y_m }) =>
    inward.reduce((wish_m, corner) => {
      const away_m = Math.hypot(x_m - corner.x_m, y_m - corner.y_m);
      return Math.min(wish_m, size_m / FINER_AT_CORNER + GROWTH * away_m);
    }, size_m);
}

/** Splits a wall's piece at most so often: narrower corners than that are needles. */
const MOST_ROUNDS = 12;

/**
 * Triangles over wall points and inner points such that every piece of a wall is a side: pieces that are none are halved.
 *
 * @source Ruppert, J. Algorithms 18 (1995) 548: splitting of encroached segments
 * @throws RangeError where corners are too sharp for that
 */
function conforming(
  corners: readonly Point2[],
  wallPoints: readonly Point2[],
  addInner: (points: Point2[]) => void,
): { points: readonly Point2[]; triangles: Uint32Array } {
  let ring = wallPoints;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const points = [...ring];
    addInner(points);
    const { triangles } = Delaunator.from(
      points.map(({ x_m, y_m }) => [x_m, y_m] as [number, number]),
    );
    const sides = new Set<number>();
    for (let t = 0; t < triangles.length; t += 3)
      for (const [a, b] of [
        [0, 1],
        [1, 2],
        [2, 0],
      ] as const) {
        const [i = 0, j = 0] = [triangles[t + a], triangles[t + b]];
        sides.add(Math.min(i, j) * points.length + Math.max(i, j));
      }
    const count = ring.length;
    const isSide = (i: number) => {
      const j = (i + 1) % count;
      return sides.has(Math.min(i, j) * points.length + Math.max(i, j));
    };
    if (ring.every((_, i) => isSide(i))) return { points, triangles };
    ring = ring.flatMap((point, i) => {
      const next = ring[(i + 1) % count] ?? point;
      return isSide(i) ? [point] : [point, between(point, next, 0.5)];
    });
  }
  throw new RangeError(`no mesh fits a plan of ${corners.length} corners as sharp as these`);
}

/** Points along all walls, in order: neighbours must stay joined. */
function boundary(corners: readonly Point2[], sizeAt: (place: Point2) => number): Point2[] {
  const points: Point2[] = [];
  corners.forEach((_, i) => {
    const [from, to] = wallAt(corners, i);
    const length_m = Math.hypot(to.x_m - from.x_m, to.y_m - from.y_m);
    for (let along_m = 0; along_m < length_m - 1e-9; ) {
      const place = between(from, to, along_m / length_m);
      points.push(place);
      // Spread what is left evenly, so that no short piece remains at the end.
      const left_m = length_m - along_m;
      const ahead = sizeAt(
        between(from, to, Math.min(1, (along_m + sizeAt(place) / 2) / length_m)),
      );
      along_m += left_m / Math.max(1, Math.round(left_m / ahead));
    }
  });
  return points;
}

function between(from: Point2, to: Point2, share: number): Point2 {
  return {
    x_m: from.x_m + share * (to.x_m - from.x_m),
    y_m: from.y_m + share * (to.y_m - from.y_m),
  };
}

/** Fills the inside from hexagonal lattices, coarse to fine: a point stays where the others leave it its wished room. */
function fill(
  points: Point2[],
  corners: readonly Point2[],
  sizeAt: (place: Point2) => number,
  size_m: number,
): void {
  const cells = new Map<string, Point2[]>();
  const cellOf = ({ x_m, y_m }: Point2) =>
    [Math.floor(x_m / size_m), Math.floor(y_m / size_m)] as const;
  const keep = (place: Point2) => {
    const key = cellOf(place).join(' ');
    cells.set(key, [...(cells.get(key) ?? []), place]);
  };
  points.forEach(keep);
  const free = (place: Point2, least_m: number) => {
    const [column, row] = cellOf(place);
    for (let i = column - 1; i <= column + 1; i++)
      for (let j = row - 1; j <= row + 1; j++)
        for (const other of cells.get(`${i} ${j}`) ?? [])
          if (planDistance_m(place, other) < least_m) return false;
    return true;
  };
  const xs = corners.map((corner) => corner.x_m);
  const ys = corners.map((corner) => corner.y_m);
  for (let step_m = size_m; size_m / FINER_AT_CORNER / 1.5 < step_m; step_m /= 1.5) {
    const row_m = (step_m * Math.sqrt(3)) / 2;
    let shift = 0;
    for (let y_m = Math.min(...ys); y_m < Math.max(...ys); y_m += row_m, shift = step_m / 2 - shift)
      for (let x_m = Math.min(...xs) + shift; x_m < Math.max(...xs); x_m += step_m) {
        const place = { x_m, y_m };
        const wish_m = sizeAt(place);
        if (wish_m < step_m / 1.2 || !contains(corners, place)) continue;
        if (Math.min(...wallDistances_m(corners, place)) < OFF_WALL * wish_m) continue;
        if (!free(place, SPREAD * wish_m)) continue;
        points.push(place);
        keep(place);
      }
  }
}

/** For a boundary side's middle: the wall it lies on, by its index in the plan as given. */
function wallsOf(plan: readonly Point2[]): (middle: Point2) => number {
  return (middle) => {
    const distances_m = wallDistances_m(plan, middle);
    return distances_m.indexOf(Math.min(...distances_m));
  };
}

/** Adds a node in the middle of every side. */
function secondOrder(
  points: readonly Point2[],
  triangles: readonly (readonly [number, number, number])[],
  wallOf: (middle: Point2) => number,
): PlanMesh {
  const all = [...points];
  const middles = new Map<number, { node: number; uses: number; ends: [number, number] }>();
  const middle = (i: number, j: number): number => {
    const key = Math.min(i, j) * points.length + Math.max(i, j);
    const known = middles.get(key);
    if (known) {
      known.uses++;
      return known.node;
    }
    const [a, b] = [points[i], points[j]];
    if (!a || !b) throw new RangeError(`no point ${i} or ${j}`);
    middles.set(key, { node: all.length, uses: 1, ends: [i, j] });
    return all.push(between(a, b, 0.5)) - 1;
  };
  const nodes = new Int32Array(6 * triangles.length);
  triangles.forEach(([i, j, k], t) => {
    nodes.set([i, j, k, middle(i, j), middle(j, k), middle(k, i)], 6 * t);
  });
  const edges = [...middles.values()]
    .filter(({ uses }) => uses === 1)
    .map(({ node, ends: [i, j] }) => ({
      nodes: [i, j, node] as const,
      wall: wallOf(all[node] ?? { x_m: 0, y_m: 0 }),
    }));
  return {
    x_m: Float64Array.from(all, ({ x_m }) => x_m),
    y_m: Float64Array.from(all, ({ y_m }) => y_m),
    triangles: nodes,
    edges,
  };
}
