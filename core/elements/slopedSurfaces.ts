// Integrals of pairs of modes over each surface of a room under a sloped ceiling: what couples the modes where surfaces absorb.

import { elements, RULE, shapes } from './planElements.ts';
import type { RoomGeometry } from './roomModes.ts';
import type { SlopedModes } from './slopedModes.ts';

/** ∮ φ_i φ_j over each surface, 1/m: row-major, modes × modes. */
export interface SurfaceProducts {
  readonly walls: readonly Float64Array[];
  readonly floor: Float64Array;
  readonly ceiling: Float64Array;
}

/** Three Gauss points on 0 … 1: exact to degree 5, products of second-order fields times a linear height. */
const LINE = [
  { at: 0.5 - Math.sqrt(0.15), weight: 5 / 18 },
  { at: 0.5, weight: 8 / 18 },
  { at: 0.5 + Math.sqrt(0.15), weight: 5 / 18 },
] as const;

/** @param modes their fields count; more fields than modes may be given */
export function surfaceProducts(
  geometry: RoomGeometry,
  modes: Pick<SlopedModes, 'mesh' | 'basis' | 'vector'>,
): SurfaceProducts {
  const { slopeX, slopeY } = geometry.ceiling;
  const { basis } = modes;
  return {
    walls: geometry.plan.map((_, wall) => wallProducts(geometry, modes, wall)),
    floor: levelProducts(modes, basis.valuesAt(0), 1),
    ceiling: levelProducts(modes, basis.valuesAt(1), Math.hypot(1, slopeX, slopeY)),
  };
}

type Fields = Parameters<typeof surfaceProducts>[1];

/** ∫ φ_i φ_j dA at one end of the height (ζ = 0 or 1), times how much larger than the plan the surface is. */
function levelProducts(modes: Fields, up: Float64Array, stretch: number): Float64Array {
  const { mesh, vector, basis } = modes;
  const n = vector.length;
  const atEnd = vector.map((field) =>
    Float64Array.from(mesh.x_m, (_, node) =>
      up.reduce((sum, value, degree) => sum + value * (field[node * basis.count + degree] ?? 0), 0),
    ),
  );
  const table = new Float64Array(n * n);
  const values = new Float64Array(n);
  for (const { nodes, area_m2 } of elements(mesh))
    for (const { place, weight } of RULE) {
      const shape = shapes(place);
      atEnd.forEach((field, i) => {
        values[i] = shape.reduce((sum, u, a) => sum + u * (field[nodes[a] ?? 0] ?? 0), 0);
      });
      addSquares(table, values, weight * area_m2 * stretch);
    }
  return mirrored(table, n);
}

function wallProducts({ ceiling }: RoomGeometry, modes: Fields, wall: number): Float64Array {
  const { mesh, vector, basis } = modes;
  const n = vector.length;
  const table = new Float64Array(n * n);
  const values = new Float64Array(n);
  for (const { nodes, wall: on } of mesh.edges) {
    if (on !== wall) continue;
    const [a, b, middle] = nodes;
    const [ax, ay] = [mesh.x_m[a] ?? 0, mesh.y_m[a] ?? 0];
    const [dx, dy] = [(mesh.x_m[b] ?? 0) - ax, (mesh.y_m[b] ?? 0) - ay];
    for (const { at: t, weight } of LINE) {
      const height_m =
        ceiling.height_m + ceiling.slopeX * (ax + t * dx) + ceiling.slopeY * (ay + t * dy);
      const shape = [(1 - t) * (1 - 2 * t), t * (2 * t - 1), 4 * t * (1 - t)] as const;
      // Polynomials up the height are orthonormal: degree by degree.
      for (let degree = 0; degree < basis.count; degree++) {
        vector.forEach((field, i) => {
          values[i] =
            shape[0] * (field[a * basis.count + degree] ?? 0) +
            shape[1] * (field[b * basis.count + degree] ?? 0) +
            shape[2] * (field[middle * basis.count + degree] ?? 0);
        });
        addSquares(table, values, weight * Math.hypot(dx, dy) * height_m);
      }
    }
  }
  return mirrored(table, n);
}

/** Upper triangle += weight × values valuesᵀ. */
function addSquares(table: Float64Array, values: Float64Array, weight: number): void {
  const n = values.length;
  for (let i = 0; i < n; i++) {
    const left = weight * (values[i] as number);
    for (let j = i; j < n; j++)
      table[i * n + j] = (table[i * n + j] as number) + left * (values[j] as number);
  }
}

function mirrored(table: Float64Array, n: number): Float64Array {
  for (let i = 1; i < n; i++)
    for (let j = 0; j < i; j++) table[i * n + j] = table[j * n + i] as number;
  return table;
}
