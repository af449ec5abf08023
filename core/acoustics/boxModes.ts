// Modes of a rigid box-shaped room: their frequencies, kinds, number, density, spacing and coincidences.

import { notNegative, positive } from './guard.ts';
import type { Point3 } from './point.ts';

/** Inner size of the box along the room's axes. */
export interface BoxSize {
  readonly x_m: number;
  readonly y_m: number;
  readonly z_m: number;
}

/** Half waves along x, y and z. */
export type ModeOrder = readonly [x: number, y: number, z: number];

/** One, two or three of the orders are not zero. */
export type ModeKind = 'axial' | 'tangential' | 'oblique';

export interface BoxMode {
  readonly frequency_hz: number;
  readonly order: ModeOrder;
  readonly kind: ModeKind;
}

/**
 * All modes of a box up to a limit, f = (c/2) √[(nx/x)² + (ny/y)² + (nz/z)²].
 *
 * @param size each length > 0
 * @param speedOfSound_m_s > 0
 * @param limit_hz highest frequency wanted; the number of modes grows with its cube (`modeCount`)
 * @returns ascending in frequency; the pressure mode of order 0, 0, 0 is left out
 * @throws RangeError on a size or speed that is not > 0, or a negative limit
 * @source Rayleigh; Kuttruff, Room Acoustics, ch. 3; Handbook for Sound Engineers ch. 6
 */
export function boxModes(
  size: BoxSize,
  speedOfSound_m_s: number,
  limit_hz: number,
): readonly BoxMode[] {
  const [fx, fy, fz] = firstAxials_hz(size, speedOfSound_m_s);
  const limit2 = notNegative('limit_hz', limit_hz) ** 2;
  const modes: BoxMode[] = [];
  for (let nx = 0; (nx * fx) ** 2 <= limit2; nx++) {
    for (let ny = 0; (nx * fx) ** 2 + (ny * fy) ** 2 <= limit2; ny++) {
      for (let nz = nx + ny === 0 ? 1 : 0; ; nz++) {
        const square = (nx * fx) ** 2 + (ny * fy) ** 2 + (nz * fz) ** 2;
        if (limit2 < square) break;
        const order: ModeOrder = [nx, ny, nz];
        modes.push({ frequency_hz: Math.sqrt(square), order, kind: modeKind(order) });
      }
    }
  }
  return modes.sort((a, b) => a.frequency_hz - b.frequency_hz);
}

/** The first axial mode of each axis, Hz, in the order x, y, z: c/(2L). */
export function firstAxials_hz(
  size: BoxSize,
  speedOfSound_m_s: number,
): readonly [number, number, number] {
  const half_m_s = positive('speedOfSound_m_s', speedOfSound_m_s) / 2;
  return [
    half_m_s / positive('x_m', size.x_m),
    half_m_s / positive('y_m', size.y_m),
    half_m_s / positive('z_m', size.z_m),
  ];
}

/** @throws RangeError on the order 0, 0, 0, which is no standing wave */
export function modeKind(order: ModeOrder): ModeKind {
  const axisCount = order.filter((n) => n !== 0).length;
  if (axisCount === 0) throw new RangeError('the order 0, 0, 0 has no kind');
  return axisCount === 1 ? 'axial' : axisCount === 2 ? 'tangential' : 'oblique';
}

/**
 * About how many modes lie below a frequency.
 *
 * @returns 4πVf³/(3c³) + πSf²/(4c²) + Ef/(8c); E the sum of the twelve edges
 * @source Maa 1939, Bolt 1939; Kuttruff, Room Acoustics, ch. 3
 */
export function modeCount(size: BoxSize, speedOfSound_m_s: number, frequency_hz: number): number {
  const { volume_m3, surface_m2, edges_m } = boxMeasures(size);
  const k = frequency_hz / positive('speedOfSound_m_s', speedOfSound_m_s);
  return (
    (4 / 3) * Math.PI * volume_m3 * k ** 3 + (Math.PI / 4) * surface_m2 * k ** 2 + (edges_m / 8) * k
  );
}

/** Modes per hertz, the derivative of `modeCount`. */
export function modeDensity_per_hz(
  size: BoxSize,
  speedOfSound_m_s: number,
  frequency_hz: number,
): number {
  const { volume_m3, surface_m2, edges_m } = boxMeasures(size);
  const c = positive('speedOfSound_m_s', speedOfSound_m_s);
  const k = frequency_hz / c;
  return (4 * Math.PI * volume_m3 * k ** 2 + (Math.PI / 2) * surface_m2 * k + edges_m / 8) / c;
}

/** Volume, surface and sum of the edges of a box. */
export function boxMeasures({ x_m, y_m, z_m }: BoxSize): {
  readonly volume_m3: number;
  readonly surface_m2: number;
  readonly edges_m: number;
} {
  return {
    volume_m3: x_m * y_m * z_m,
    surface_m2: 2 * (x_m * y_m + y_m * z_m + z_m * x_m),
    edges_m: 4 * (x_m + y_m + z_m),
  };
}

/**
 * Groups of modes that lie together: each is nearer than a bandwidth to the one before it.
 *
 * @param modes ascending, as `boxModes` gives them
 * @param bandwidth_hz >= 0; 0 finds exact coincidences (to 1e-9 relative)
 * @returns groups of two or more, ascending; modes that stand alone are left out
 */
export function coincidences<M extends { readonly frequency_hz: number }>(
  modes: readonly M[],
  bandwidth_hz: number,
): readonly (readonly M[])[] {
  const groups: M[][] = [];
  let previous_hz = Number.NEGATIVE_INFINITY;
  for (const mode of modes) {
    const reach_hz = Math.max(bandwidth_hz, mode.frequency_hz * 1e-9);
    if (mode.frequency_hz - previous_hz <= reach_hz) groups.at(-1)?.push(mode);
    else groups.push([mode]);
    previous_hz = mode.frequency_hz;
  }
  return groups.filter((group) => 1 < group.length);
}

/** Distance of each mode to the next one, Hz; one fewer than modes. */
export function modeSpacings_hz(modes: readonly { readonly frequency_hz: number }[]): number[] {
  return modes.slice(1).map((mode, i) => mode.frequency_hz - (modes[i]?.frequency_hz ?? 0));
}

/**
 * Pressure of a mode at a place, re its greatest: cos(nxπx/X) cos(nyπy/Y) cos(nzπz/Z).
 *
 * @returns −1 … 1; by reciprocity also how strongly a source at that place drives the mode
 */
export function modeShape_ratio(
  order: ModeOrder,
  size: BoxSize,
  { x_m, y_m, z_m }: Point3,
): number {
  return (
    Math.cos((order[0] * Math.PI * x_m) / size.x_m) *
    Math.cos((order[1] * Math.PI * y_m) / size.y_m) *
    Math.cos((order[2] * Math.PI * z_m) / size.z_m)
  );
}
