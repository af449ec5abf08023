// The rigid-wall modes of a room under a sloped ceiling: plan elements times polynomials up the local height.

import type { Point3 } from '../acoustics/point.ts';
import { lowestModes } from './lowestModes.ts';
import { elements, locate, shapes } from './planElements.ts';
import { meshPlan, type PlanMesh } from './planMesh.ts';
import type { RoomGeometry } from './roomModes.ts';
import { type Ceiling, slopedMatrices } from './slopedElements.ts';
import type { SymmetricMatrix } from './sparse.ts';
import { type VerticalBasis, verticalBasis } from './verticalBasis.ts';

/** Modes with all that integrals over surfaces need. */
export interface SlopedModes {
  readonly mesh: PlanMesh;
  readonly basis: VerticalBasis;
  /** Squared wave numbers, ascending, 1/m². */
  readonly value: Float64Array;
  /** By mode, unknown `node * count + degree`; ∫φ² dV = 1. */
  readonly vector: readonly Float64Array[];
  readonly volume_m3: number;
  readonly stiffness: SymmetricMatrix;
  readonly mass: SymmetricMatrix;
  /** Solves (K − sM) x = b in place, s somewhere among the eigenvalues. */
  readonly solve: (b: Float64Array) => void;
  /** φ of every mode at a place. */
  readonly shapesAt: (place: Point3) => Float64Array;
  /** Any fields at a place. */
  readonly fieldsAt: (fields: readonly Float64Array[], place: Point3) => Float64Array;
  /** What reads any field at a place: its value is the product with the field. */
  readonly readerAt: (place: Point3) => Float64Array;
}

/** Under a slope the unknowns are many: five and a half elements a wavelength still keep within 0.15 %. */
const ELEMENTS_A_WAVELENGTH = 5.5;

/**
 * All modes up to a frequency.
 *
 * @throws RangeError on a plan that crosses itself or a ceiling that meets the floor
 */
export function slopedModes(
  { plan, ceiling }: RoomGeometry,
  speedOfSound_m_s: number,
  limit_hz: number,
  onProgress: (share: number) => void = () => {},
): SlopedModes {
  const heights = plan.map(
    ({ x_m, y_m }) => ceiling.height_m + ceiling.slopeX * x_m + ceiling.slopeY * y_m,
  );
  if (!(0 < Math.min(...heights))) throw new RangeError('the ceiling meets the floor');
  const mesh = meshPlan(plan, speedOfSound_m_s / limit_hz / ELEMENTS_A_WAVELENGTH);
  // A polynomial of this degree follows that many half waves up the tallest corner to better than 0.01 %.
  const halfWaves = (2 * limit_hz * Math.max(...heights)) / speedOfSound_m_s;
  const basis = verticalBasis(Math.ceil(halfWaves) + 3);
  const { stiffness, mass } = slopedMatrices(mesh, ceiling, basis);
  onProgress(0.1);
  const volume_m3 = volumeUnder(mesh, ceiling);
  const limit = ((2 * Math.PI * limit_hz) / speedOfSound_m_s) ** 2;
  const expected = Math.ceil((limit ** 1.5 * volume_m3) / (6 * Math.PI ** 2)) + 30;
  const { value, vector, solve } = lowestModes(stiffness, mass, limit, expected);
  onProgress(1);
  const list = elements(mesh);
  const weightsAt = ({ x_m, y_m, z_m }: Point3) => {
    const height_m = ceiling.height_m + ceiling.slopeX * x_m + ceiling.slopeY * y_m;
    const { element, place } = locate(mesh, list, { x_m, y_m });
    return { up: basis.valuesAt(z_m / height_m), nodes: element.nodes, flat: shapes(place) };
  };
  const fieldsAt: SlopedModes['fieldsAt'] = (fields, place) => {
    const { up, nodes, flat } = weightsAt(place);
    return Float64Array.from(fields, (field) => readField(field, up, nodes, flat));
  };
  return {
    mesh,
    basis,
    value,
    vector,
    volume_m3,
    stiffness,
    mass,
    solve,
    shapesAt: (place) => fieldsAt(vector, place),
    fieldsAt,
    readerAt: (place) => {
      const { up, nodes, flat } = weightsAt(place);
      const reader = new Float64Array(stiffness.size);
      flat.forEach((weight, i) => {
        up.forEach((part, degree) => {
          reader[(nodes[i] ?? 0) * basis.count + degree] = weight * part;
        });
      });
      return reader;
    },
  };
}

function readField(
  field: Float64Array,
  up: Float64Array,
  nodes: Int32Array,
  flat: readonly number[],
): number {
  let sum = 0;
  for (let i = 0; i < flat.length; i++) {
    const base = (nodes[i] as number) * up.length;
    let column = 0;
    for (let degree = 0; degree < up.length; degree++)
      column += (up[degree] as number) * (field[base + degree] as number);
    sum += (flat[i] as number) * column;
  }
  return sum;
}

function volumeUnder(mesh: PlanMesh, { height_m, slopeX, slopeY }: Ceiling): number {
  return elements(mesh).reduce((sum, { nodes, area_m2 }) => {
    const height = (k: number) =>
      height_m + slopeX * (mesh.x_m[nodes[k] ?? 0] ?? 0) + slopeY * (mesh.y_m[nodes[k] ?? 0] ?? 0);
    return sum + (area_m2 * (height(0) + height(1) + height(2))) / 3;
  }, 0);
}
