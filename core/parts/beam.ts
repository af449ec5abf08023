// Beam: how much less a loudspeaker radiates to the side than ahead, modelled as a point source on a sphere as large as its front.

import type { Point } from '../../schema/model/quantities.ts';
import { distance_m } from '../acoustics/point.ts';
import { baffleRadius_m, sphereDirectivity } from '../acoustics/sphereDirectivity.ts';
import type { PlacedSource } from './referenceSeat.ts';

/** Front of a loudspeaker of which no size is recorded: common practice, no source. */
const USUAL_FRONT_M = { width: 0.25, height: 0.4 } as const;
/** Higher than this the sphere's series is long and a real loudspeaker is no sphere. */
const MOST_KA = 12;

/** Directivities by size, made ready once for loudspeakers of one model. */
export type Spheres = Map<number, (angle_rad: number) => number>;

/**
 * Amplitude towards a place re straight ahead; 1 for what is built into a wall, which radiates into half the room.
 *
 * @param ear what it looks at where the file gives nothing else
 * @param spheres kept between calls, so that one model is worked out once
 */
export function beamOf(
  { at, aimAt, flushIn, gear }: PlacedSource,
  ear: Point,
  frequency_hz: number,
  speedOfSound_m_s: number,
  spheres: Spheres = new Map(),
): (to: Point) => number {
  if (flushIn !== null) return () => 1;
  const { width_m, height_m } = gear?.size ?? {
    width_m: USUAL_FRONT_M.width,
    height_m: USUAL_FRONT_M.height,
  };
  const size_rad =
    ((2 * Math.PI * frequency_hz) / speedOfSound_m_s) * baffleRadius_m(width_m, height_m);
  const ka = Math.min(MOST_KA, size_rad);
  const ratio = spheres.get(ka) ?? sphereDirectivity(ka);
  spheres.set(ka, ratio);
  const axis = aimAt ?? ear;
  return (to) => Math.max(1e-3, ratio(angle_rad(at, to, axis)));
}

function angle_rad(from: Point, to: Point, axis: Point): number {
  const dot =
    (to.x_m - from.x_m) * (axis.x_m - from.x_m) +
    (to.y_m - from.y_m) * (axis.y_m - from.y_m) +
    (to.z_m - from.z_m) * (axis.z_m - from.z_m);
  const sizes = distance_m(from, to) * distance_m(from, axis);
  return sizes === 0 ? 0 : Math.acos(Math.min(1, Math.max(-1, dot / sizes)));
}
