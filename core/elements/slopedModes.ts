// The rigid-wall modes of a room under a sloped ceiling: plan elements times polynomials up the local height.

import type { Point3 } from '../acoustics/point.ts';
import { interpolator } from './interpolator.ts';
import { lowestModes } from './lowestModes.ts';
import { elements } from './planElements.ts';
import { meshPlan, type PlanMesh } from './planMesh.ts';
import type { RoomGeometry } from './roomModes.ts';
import { type Ceiling, slopedMatrices } from './slopedElements.ts';
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
  /** φ of every mode at a place. */
  readonly shapesAt: (place: Point3) => Float64Array;
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
  const { value, vector } = lowestModes(stiffness, mass, limit, expected);
  onProgress(1);
  const at = interpolator(mesh);
  return {
    mesh,
    basis,
    value,
    vector,
    volume_m3,
    shapesAt: (place) => {
      const height_m = ceiling.height_m + ceiling.slopeX * place.x_m + ceiling.slopeY * place.y_m;
      const up = basis.valuesAt(place.z_m / height_m);
      const onPlan = at(place);
      return Float64Array.from(vector, (field) =>
        up.reduce((sum, part, degree) => sum + part * onPlan(field, basis.count, degree), 0),
      );
    },
  };
}

function volumeUnder(mesh: PlanMesh, { height_m, slopeX, slopeY }: Ceiling): number {
  return elements(mesh).reduce((sum, { nodes, area_m2 }) => {
    const height = (k: number) =>
      height_m + slopeX * (mesh.x_m[nodes[k] ?? 0] ?? 0) + slopeY * (mesh.y_m[nodes[k] ?? 0] ?? 0);
    return sum + (area_m2 * (height(0) + height(1) + height(2))) / 3;
  }, 0);
}
