// The sum over a room's rigid-wall modes, each damped by itself, for that room and for slightly other ones.
//
// Stretched along x, y and z by s, a mode's squared wave number becomes λₓ/sₓ² + λ_y/s_y² + λ_z/s_z² (Rayleigh's quotient with the
// shape carried along: first order in what changes; exact for boxes), its load on a surface grows with area over volume. Walls that
// couple modes are left out, so that only the difference between two such sums is to be trusted, not the sums.

import type { Admittance } from '../acoustics/field/axisModes.ts';
import type { Medium } from '../acoustics/field/boxTransfer.ts';
import type { Point2, Point3 } from '../acoustics/point.ts';
import type { PrismSurfaces } from './prismField.ts';
import { loadOf, type ModalParts, type SurfaceLoads } from './rigidModes.ts';

/** How many times longer each side is than that of the room whose modes are known. */
export type Stretch = readonly [x: number, y: number, z: number];

export interface NearbyRoom {
  readonly stretch: Stretch;
  readonly surfacesAt: (frequency_hz: number) => PrismSurfaces;
  readonly medium: Medium;
}

/** Pressure per volume velocity by frequency between two places, in coordinates of the stretched room, Pa·s/m³, e^{+jωt}. */
export type NearbySum = (
  one: Point3,
  other: Point3,
) => { readonly re: Float64Array; readonly im: Float64Array };

/**
 * @param origin the point of the plan that stays where it is
 * @source Rayleigh, Theory of Sound, §88 (first-order change of natural frequencies); Morse & Ingard, §9.4 (damping)
 */
export function nearbySum(
  parts: ModalParts,
  plan: readonly Point2[],
  origin: Point2,
  { stretch, surfacesAt, medium }: NearbyRoom,
  frequency_hz: readonly number[],
): NearbySum {
  const [sx, sy, sz] = stretch;
  const volume_m3 = parts.volume_m3 * sx * sy * sz;
  const [lx, ly, lz] = parts.slopes;
  const value = parts.value.map(
    (_, i) => (lx[i] ?? 0) / sx ** 2 + (ly[i] ?? 0) / sy ** 2 + (lz[i] ?? 0) / sz ** 2,
  );
  const loads = stretchedLoads(parts.loads, plan, stretch);
  const count = value.length;
  // 1/(λ + jk Σ β ∮φ² − k²), by frequency, then mode, interleaved.
  const inverse = new Float64Array(2 * count * frequency_hz.length);
  frequency_hz.forEach((f_hz, f) => {
    const k = (2 * Math.PI * f_hz) / medium.speedOfSound_m_s;
    const surfaces = surfacesAt(f_hz);
    for (let i = 0; i < count; i++) {
      const re = (value[i] as number) - k * k - k * loadOf(loads, surfaces, i, imaginary);
      const im = k * loadOf(loads, surfaces, i, real);
      const size = re * re + im * im;
      inverse[2 * (f * count + i)] = re / size;
      inverse[2 * (f * count + i) + 1] = -im / size;
    }
  });
  const unstretched = ({ x_m, y_m, z_m }: Point3): Point3 => ({
    x_m: origin.x_m + (x_m - origin.x_m) / sx,
    y_m: origin.y_m + (y_m - origin.y_m) / sy,
    z_m: z_m / sz,
  });
  return (one, other) => {
    const here = parts.shapesAt(unstretched(one));
    const there = parts.shapesAt(unstretched(other));
    const weight = here.map((shape, i) => shape * (there[i] as number));
    const re = new Float64Array(frequency_hz.length);
    const im = new Float64Array(frequency_hz.length);
    frequency_hz.forEach((f_hz, f) => {
      let [sumRe, sumIm] = [0, 0];
      for (let i = 0; i < count; i++) {
        sumRe += (weight[i] as number) * (inverse[2 * (f * count + i)] as number);
        sumIm += (weight[i] as number) * (inverse[2 * (f * count + i) + 1] as number);
      }
      const scale = (2 * Math.PI * f_hz * medium.density_kg_m3) / volume_m3;
      re[f] = -scale * sumIm;
      im[f] = scale * sumRe;
    });
    return { re, im };
  };
}

const real = (admittance: Admittance) => admittance.real;
const imaginary = (admittance: Admittance) => admittance.imaginary;

/** Area over volume, surface by surface; a sloped ceiling counts as a level one here. */
function stretchedLoads(
  { floor, ceiling, walls }: SurfaceLoads,
  plan: readonly Point2[],
  [sx, sy, sz]: Stretch,
): SurfaceLoads {
  const by = (load: Float64Array, ratio: number) => load.map((one) => one * ratio);
  return {
    floor: by(floor, 1 / sz),
    ceiling: by(ceiling, 1 / sz),
    walls: walls.map((load, wall) => {
      const [from, to] = [plan[wall], plan[(wall + 1) % plan.length]];
      const [dx, dy] = from && to ? [to.x_m - from.x_m, to.y_m - from.y_m] : [1, 0];
      return by(load, Math.hypot(sx * dx, sy * dy) / Math.hypot(dx, dy) / (sx * sy));
    }),
  };
}
