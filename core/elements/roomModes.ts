// The rigid-wall modes of any room with a plan and a plane ceiling, by finite elements: frequencies, shapes at places, wall coupling.

import type { Point2, Point3 } from '../acoustics/point.ts';
import { signedArea_m2 } from '../acoustics/polygon.ts';
import { interpolator } from './interpolator.ts';
import { lowestModes } from './lowestModes.ts';
import { planMatrices } from './planElements.ts';
import { meshPlan } from './planMesh.ts';
import { expectedCount } from './planModes.ts';
import type { Ceiling } from './slopedElements.ts';
import { slopedModes } from './slopedModes.ts';

export interface RoomGeometry {
  /** Corners in order, not crossing; wall i runs from corner i to the next. */
  readonly plan: readonly Point2[];
  readonly ceiling: Ceiling;
}

/** Modes ascending in frequency, the uniform one (0 Hz) first. Shapes are scaled so that the mean of p² over the volume is 1. */
export interface RoomModes {
  readonly frequency_hz: readonly number[];
  /** Shape of every mode at a place, by mode. */
  readonly shapesAt: (place: Point3) => Float64Array;
  readonly nodes: number;
}

/** Second-order elements of a seventh of the shortest wavelength: eigenfrequencies within 0.04 % (measured; see the accuracy table). */
const ELEMENTS_A_WAVELENGTH = 7;
/**
 * All modes up to a frequency.
 *
 * @param limit_hz highest frequency wanted; cost grows with its fourth power or so
 * @param onProgress called with the share done, 0 … 1; may throw to cancel
 * @throws RangeError on a plan that crosses itself or a ceiling that meets the floor
 */
export function roomModes(
  geometry: RoomGeometry,
  speedOfSound_m_s: number,
  limit_hz: number,
  onProgress: (share: number) => void = () => {},
): RoomModes {
  const { slopeX, slopeY } = geometry.ceiling;
  const of = slopeX === 0 && slopeY === 0 ? flatModes : modesUnderSlope;
  return of(geometry, speedOfSound_m_s, limit_hz, onProgress);
}

type ModesOf = (
  geometry: RoomGeometry,
  c: number,
  limit_hz: number,
  onProgress: (share: number) => void,
) => RoomModes;

/** Plan modes times cosines up the height. */
const flatModes: ModesOf = ({ plan, ceiling: { height_m } }, c, limit_hz, onProgress) => {
  const mesh = meshPlan(plan, c / limit_hz / ELEMENTS_A_WAVELENGTH);
  onProgress(0.2);
  const { stiffness, mass } = planMatrices(mesh);
  onProgress(0.3);
  const limit = ((2 * Math.PI * limit_hz) / c) ** 2;
  const area_m2 = Math.abs(signedArea_m2(plan));
  const pairs = lowestModes(stiffness, mass, limit, expectedCount(plan, limit));
  onProgress(1);
  const modes: { frequency_hz: number; planMode: number; order: number }[] = [];
  pairs.value.forEach((value, planMode) => {
    for (let order = 0; ; order++) {
      const frequency_hz =
        (c / (2 * Math.PI)) * Math.sqrt(value + ((order * Math.PI) / height_m) ** 2);
      if (limit_hz < frequency_hz) break;
      modes.push({ frequency_hz, planMode, order });
    }
  });
  modes.sort((one, other) => one.frequency_hz - other.frequency_hz);
  const at = interpolator(mesh);
  // vᵀMv = 1 makes the plan mean of p² equal to 1/area; cosines have mean 1/2.
  const scale = Math.sqrt(area_m2);
  return {
    frequency_hz: modes.map(({ frequency_hz }) => frequency_hz),
    nodes: mesh.x_m.length,
    shapesAt: (place) => {
      const onPlan = at(place);
      return Float64Array.from(modes, ({ planMode, order }) => {
        const up =
          order === 0 ? 1 : Math.SQRT2 * Math.cos((order * Math.PI * place.z_m) / height_m);
        return scale * onPlan(pairs.vector[planMode] as Float64Array, 1, 0) * up;
      });
    },
  };
};

/** Plan elements times polynomials up the local height. */
const modesUnderSlope: ModesOf = (geometry, c, limit_hz, onProgress) => {
  const { mesh, basis, value, volume_m3, shapesAt } = slopedModes(
    geometry,
    c,
    limit_hz,
    onProgress,
  );
  const scale = Math.sqrt(volume_m3);
  return {
    frequency_hz: [...value].map((one) => (c / (2 * Math.PI)) * Math.sqrt(one)),
    nodes: mesh.x_m.length * basis.count,
    shapesAt: (place) => shapesAt(place).map((shape) => scale * shape),
  };
};
