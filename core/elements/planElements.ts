// Second-order triangles on a plan: stiffness, mass and each wall's boundary mass, and the shape functions at a place.

import type { Point2 } from '../acoustics/point.ts';
import type { PlanMesh } from './planMesh.ts';
import { matrixBuilder, type SymmetricMatrix } from './sparse.ts';

/**
 * Six-point rule for triangles, exact to degree 4: barycentric place and weight (times the area).
 * @source Dunavant, Int. J. Numer. Meth. Eng. 21 (1985) 1129, degree 4
 */
export const RULE: readonly {
  readonly place: readonly [number, number, number];
  readonly weight: number;
}[] = [
  [0.10810301816807, 0.445948490915965, 0.223381589678011],
  [0.816847572980459, 0.091576213509771, 0.109951743655322],
].flatMap(([one = 0, two = 0, weight = 0]) => [
  { place: [one, two, two] as const, weight },
  { place: [two, one, two] as const, weight },
  { place: [two, two, one] as const, weight },
]);

/** One triangle ready for integration: its nodes, area, and the gradients of the three barycentric coordinates. */
export interface Element {
  readonly nodes: Int32Array;
  readonly area_m2: number;
  readonly gradients: readonly [
    readonly [number, number],
    readonly [number, number],
    readonly [number, number],
  ];
}

export function elements(mesh: PlanMesh): Element[] {
  const list: Element[] = [];
  for (let t = 0; t < mesh.triangles.length; t += 6) {
    const nodes = mesh.triangles.subarray(t, t + 6);
    const [x0, x1, x2] = [0, 1, 2].map((i) => mesh.x_m[nodes[i] ?? 0] ?? 0) as [
      number,
      number,
      number,
    ];
    const [y0, y1, y2] = [0, 1, 2].map((i) => mesh.y_m[nodes[i] ?? 0] ?? 0) as [
      number,
      number,
      number,
    ];
    const twice = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0);
    list.push({
      nodes,
      area_m2: twice / 2,
      gradients: [
        [(y1 - y2) / twice, (x2 - x1) / twice],
        [(y2 - y0) / twice, (x0 - x2) / twice],
        [(y0 - y1) / twice, (x1 - x0) / twice],
      ],
    });
  }
  return list;
}

/** Values of the six shape functions at barycentric coordinates. */
export function shapes([a, b, c]: readonly [number, number, number]): number[] {
  return [a * (2 * a - 1), b * (2 * b - 1), c * (2 * c - 1), 4 * a * b, 4 * b * c, 4 * c * a];
}

/** Gradients of the six shape functions at barycentric coordinates, 1/m. */
export function shapeGradients(
  { gradients: [ga, gb, gc] }: Element,
  [a, b, c]: readonly [number, number, number],
): (readonly [number, number])[] {
  const mix = (
    u: number,
    gu: readonly [number, number],
    v: number,
    gv: readonly [number, number],
  ) => [u * gu[0] + v * gv[0], u * gu[1] + v * gv[1]] as const;
  return [
    mix(4 * a - 1, ga, 0, ga),
    mix(4 * b - 1, gb, 0, gb),
    mix(4 * c - 1, gc, 0, gc),
    mix(4 * a, gb, 4 * b, ga),
    mix(4 * b, gc, 4 * c, gb),
    mix(4 * c, ga, 4 * a, gc),
  ];
}

/** ∫∇u·∇v and ∫uv over the plan. */
export function planMatrices(mesh: PlanMesh): {
  stiffness: SymmetricMatrix;
  mass: SymmetricMatrix;
} {
  const size = mesh.x_m.length;
  const stiffness = matrixBuilder(size);
  const mass = matrixBuilder(size);
  for (const element of elements(mesh)) {
    for (const { place, weight } of RULE) {
      const w = weight * element.area_m2;
      const u = shapes(place);
      const g = shapeGradients(element, place);
      for (let i = 0; i < 6; i++)
        for (let j = 0; j < 6; j++) {
          const [row, column] = [element.nodes[i] ?? 0, element.nodes[j] ?? 0];
          const [gi, gj] = [g[i] ?? [0, 0], g[j] ?? [0, 0]];
          mass.add(row, column, w * (u[i] ?? 0) * (u[j] ?? 0));
          stiffness.add(row, column, w * (gi[0] * gj[0] + gi[1] * gj[1]));
        }
    }
  }
  return { stiffness: stiffness.build(), mass: mass.build() };
}

/** ∫(∂u/∂x)² over the plan for fields given at the nodes, by field. */
export function slopeSquares_x(mesh: PlanMesh, fields: readonly Float64Array[]): Float64Array {
  const sums = new Float64Array(fields.length);
  for (const element of elements(mesh))
    for (const { place, weight } of RULE) {
      const g = shapeGradients(element, place);
      const w = weight * element.area_m2;
      fields.forEach((field, i) => {
        let slope = 0;
        for (let a = 0; a < 6; a++)
          slope += (g[a]?.[0] ?? 0) * (field[element.nodes[a] as number] as number);
        sums[i] = (sums[i] as number) + w * slope * slope;
      });
    }
  return sums;
}

/**
 * ∮ u_i u_j along one wall for fields given at the nodes, m: exact for second-order fields.
 *
 * @returns row-major, fields × fields
 */
export function wallProducts_m(
  mesh: PlanMesh,
  wall: number,
  fields: readonly Float64Array[],
): Float64Array {
  const n = fields.length;
  const table = new Float64Array(n * n);
  const values = new Float64Array(3 * n);
  const images = new Float64Array(3 * n);
  for (const { nodes, wall: on } of mesh.edges) {
    if (on !== wall) continue;
    const [a, b, c] = nodes;
    const length_m = Math.hypot(
      (mesh.x_m[a] ?? 0) - (mesh.x_m[b] ?? 0),
      (mesh.y_m[a] ?? 0) - (mesh.y_m[b] ?? 0),
    );
    // Mass matrix of a second-order line element: L/30 [[4, −1, 2], [−1, 4, 2], [2, 2, 16]].
    const w = length_m / 30;
    fields.forEach((field, i) => {
      const [u, v, m] = [field[a] ?? 0, field[b] ?? 0, field[c] ?? 0];
      values.set([u, v, m], 3 * i);
      images.set(
        [w * (4 * u - v + 2 * m), w * (-u + 4 * v + 2 * m), w * (2 * u + 2 * v + 16 * m)],
        3 * i,
      );
    });
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const at = i * n + j;
        table[at] =
          (table[at] as number) +
          (values[3 * i] as number) * (images[3 * j] as number) +
          (values[3 * i + 1] as number) * (images[3 * j + 1] as number) +
          (values[3 * i + 2] as number) * (images[3 * j + 2] as number);
      }
  }
  return table;
}

/** The element that holds a place and its barycentric coordinates there; the nearest element for a place on or past a wall. */
export function locate(
  mesh: PlanMesh,
  list: readonly Element[],
  { x_m, y_m }: Point2,
): { element: Element; place: readonly [number, number, number] } {
  let best: { element: Element; place: readonly [number, number, number] } | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (const element of list) {
    const { nodes, gradients } = element;
    const dx = x_m - (mesh.x_m[nodes[0] ?? 0] ?? 0);
    const dy = y_m - (mesh.y_m[nodes[0] ?? 0] ?? 0);
    const b = gradients[1][0] * dx + gradients[1][1] * dy;
    const c = gradients[2][0] * dx + gradients[2][1] * dy;
    const a = 1 - b - c;
    const least = Math.min(a, b, c);
    if (most < least) {
      most = least;
      best = { element, place: [a, b, c] };
      if (0 <= least) break;
    }
  }
  if (best === null) throw new RangeError('no elements');
  return best;
}
