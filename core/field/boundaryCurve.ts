// What the nearest surfaces do to a loudspeaker at the reference seat up to 500 Hz: direct sound and first reflections.
//
// Each reflection is weighed by the wave's angle at the surface, R = (cos θ − β)/(cos θ + β), and by how much the loudspeaker radiates
// that way: a point source on a rigid sphere as large as its front, omni in the bass. Built-in loudspeakers have no reflection in
// their own wall. What modes make of it all is in the response; this is what remains where modes are too many to tell.

import type { Admittance } from '../acoustics/field/axisModes.ts';
import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import { type ImagePath, levelImage, wallImages } from '../acoustics/imageSources.ts';
import { distance_m, type Point3 } from '../acoustics/point.ts';
import { baffleRadius_m, sphereDirectivity } from '../acoustics/sphereDirectivity.ts';
import type { BoundaryCurve } from '../fieldFigures.ts';
import type { PlacedSource } from '../parts/referenceSeat.ts';
import type { FieldContext } from './context.ts';
import type { Kept } from './kept.ts';

const FROM_HZ = 50;
const TO_HZ = 500;
const POINTS_PER_OCTAVE = 24;
/** Front of a loudspeaker of which no size is recorded: common practice, no source. */
const USUAL_FRONT_M = { width: 0.25, height: 0.4 } as const;
/** Nearer than this a source is part of the surface. */
const BUILT_IN_M = 0.005;

/**
 * One curve a loudspeaker (not subwoofers, which stay below), for the seat of that position in the context.
 *
 * @param remember keeps curves of loudspeakers that have not moved
 */
export function boundaryCurves(
  context: FieldContext,
  sources: readonly PlacedSource[],
  seatIndex: number,
  remember: Kept<BoundaryCurve> = (_, make) => make(),
): readonly BoundaryCurve[] {
  const seat = context.seats[seatIndex];
  if (seat === undefined) return [];
  const frequency_hz = Array.from(logGrid_hz(FROM_HZ, TO_HZ, POINTS_PER_OCTAVE), tenths);
  return sources
    .filter(({ isSubwoofer }) => !isSubwoofer)
    .map((source) => {
      const { id, at, aimAt, flushIn, gear } = source;
      const about = [id, at, aimAt ?? null, flushIn, gear?.size ?? null, seat.id, seat.at];
      return remember(`${context.key}\n${JSON.stringify(about)}`, () => ({
        source: id,
        seat: seat.id,
        frequency_hz,
        level_db: curve(context, source, seat.at, frequency_hz),
      }));
    });
}

function curve(
  context: FieldContext,
  source: PlacedSource,
  ear: Point3,
  frequency_hz: readonly number[],
): readonly number[] {
  const { medium, surfaces } = context.fieldRoom;
  const direct_m = distance_m(source.at, ear);
  const size = source.gear?.size;
  const radius_m = baffleRadius_m(
    size?.width_m ?? USUAL_FRONT_M.width,
    size?.height_m ?? USUAL_FRONT_M.height,
  );
  const paths = reflectionsOf(context, source, ear);
  return frequency_hz.map((f_hz) => {
    const admittances = surfaces.at(f_hz);
    const k = (2 * Math.PI * f_hz) / medium.speedOfSound_m_s;
    const beam = source.flushIn === null ? sphereDirectivity(k * radius_m) : () => 1;
    const towards = (to: Point3) => beam(angle_rad(source.at, to, source.aimAt ?? ear));
    const direct = towards(ear);
    let re = direct;
    let im = 0;
    for (const { path, surface, cos } of paths) {
      const admittance = admittances[surface] ?? { real: 0, imaginary: 0 };
      const [rRe, rIm] = reflection(admittance, cos);
      const gain = (towards(path.reflectedAt) * direct_m) / path.reflected_m;
      const late = -k * path.difference_m;
      re += gain * (rRe * Math.cos(late) - rIm * Math.sin(late));
      im += gain * (rRe * Math.sin(late) + rIm * Math.cos(late));
    }
    return Math.round(2000 * Math.log10(Math.max(1e-3, Math.hypot(re, im) / direct))) / 100 + 0;
  });
}

interface Reflected {
  readonly path: ImagePath;
  /** Its place among the surfaces' admittances. */
  readonly surface: number;
  /** Of the angle between the ray and the surface's normal. */
  readonly cos: number;
}

/** First reflections in floor, level ceiling and walls. A sloped ceiling is left out. */
function reflectionsOf(
  { fieldRoom: { shape } }: FieldContext,
  { at, flushIn }: PlacedSource,
  ear: Point3,
): readonly Reflected[] {
  const { plan, wallNames, ceiling } = shape;
  const level = ceiling.slopeX_ratio === 0 && ceiling.slopeY_ratio === 0;
  const found: readonly (readonly [number, ImagePath | null])[] = [
    [0, levelImage(0, at, ear)],
    [1, level ? levelImage(ceiling.atOrigin_m, at, ear) : null],
    ...wallImages(plan, at, ear).map((path) => [path.wallIndex + 2, path] as const),
  ];
  return found.flatMap(([surface, path]) => {
    const isOwn = 2 <= surface && wallNames[surface - 2] === flushIn;
    if (path === null || isOwn || path.difference_m < BUILT_IN_M) return [];
    // The image lies straight behind the surface: the way from source to image is twice its normal.
    const across_m = distance_m(at, path.image);
    const hit_m = distance_m(at, path.reflectedAt);
    return [{ path, surface, cos: across_m / 2 / Math.max(hit_m, across_m / 2) }];
  });
}

/** Plane-wave reflection of a locally reacting surface. @source Kuttruff, Room Acoustics, ch. 2 */
function reflection({ real, imaginary }: Admittance, cos: number): readonly [number, number] {
  const size = (cos + real) ** 2 + imaginary ** 2;
  return [(cos * cos - real * real - imaginary * imaginary) / size, (-2 * cos * imaginary) / size];
}

function angle_rad(from: Point3, to: Point3, axis: Point3): number {
  const dot =
    (to.x_m - from.x_m) * (axis.x_m - from.x_m) +
    (to.y_m - from.y_m) * (axis.y_m - from.y_m) +
    (to.z_m - from.z_m) * (axis.z_m - from.z_m);
  const sizes = distance_m(from, to) * distance_m(from, axis);
  return sizes === 0 ? 0 : Math.acos(Math.min(1, Math.max(-1, dot / sizes)));
}

function tenths(value: number): number {
  return Math.round(value * 10) / 10;
}
