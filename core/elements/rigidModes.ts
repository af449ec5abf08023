// What a room's field tells of its single modes: frequency, shape at a place, and how surfaces damp each.

import type { Point3 } from '../acoustics/point.ts';
import type { PlanModes } from './planModes.ts';
import type { PrismSurfaces } from './prismField.ts';
import type { SlopedModes } from './slopedModes.ts';
import type { SurfaceProducts } from './slopedSurfaces.ts';

/** Modes between rigid walls, ascending, without the uniform one. */
export interface RigidModes {
  readonly frequency_hz: readonly number[];
  /** Shapes at a place, scaled so that the mean of their squares over the room is 1; by mode. */
  readonly shapesAt: (place: Point3) => Float64Array;
  /**
   * Amplitude decay by mode, δ = (c/2) Σ Re β_s ∮_s φ², 1/s, surfaces taken at each mode's frequency.
   * @source Morse & Ingard, Theoretical Acoustics, §9.4, first order in β
   */
  readonly damping_per_s: (surfacesAt: (frequency_hz: number) => PrismSurfaces) => Float64Array;
}

/** Below this it is the uniform mode, 0 Hz but for rounding. */
const LEAST_HZ = 1;

/** Plan modes times cosines up the height. */
export function prismRigidModes(
  plan: PlanModes,
  height_m: number,
  floorArea_m2: number,
  speedOfSound_m_s: number,
  limit_hz: number,
): RigidModes {
  const count = plan.value.length;
  const modes = [...plan.value]
    .flatMap((value, planMode) => {
      const orders = Math.ceil((2 * limit_hz * height_m) / speedOfSound_m_s) + 1;
      return Array.from({ length: orders }, (_, order) => ({
        frequency_hz: frequency(value + ((order * Math.PI) / height_m) ** 2, speedOfSound_m_s),
        planMode,
        order,
      }));
    })
    .filter(({ frequency_hz }) => LEAST_HZ < frequency_hz && frequency_hz <= limit_hz)
    .sort((one, other) => one.frequency_hz - other.frequency_hz);
  const weight = (order: number) => (order === 0 ? 1 : 2);
  return {
    frequency_hz: modes.map(({ frequency_hz }) => frequency_hz),
    shapesAt: (place) => {
      const onPlan = plan.at(place);
      return Float64Array.from(modes, ({ planMode, order }) => {
        const up = Math.sqrt(weight(order)) * Math.cos((order * Math.PI * place.z_m) / height_m);
        return Math.sqrt(floorArea_m2) * (onPlan[planMode] ?? 0) * up;
      });
    },
    damping_per_s: (surfacesAt) =>
      Float64Array.from(modes, ({ frequency_hz, planMode, order }) => {
        const { floor, ceiling, walls } = surfacesAt(frequency_hz);
        const level = (weight(order) * (floor.real + ceiling.real)) / height_m;
        const upright = plan.couplings.reduce(
          (sum, table, wall) =>
            sum + (walls[wall]?.real ?? 0) * (table[planMode * count + planMode] ?? 0),
          0,
        );
        return (speedOfSound_m_s / 2) * (level + upright);
      }),
  };
}

export function slopedRigidModes(
  { value, shapesAt, volume_m3 }: SlopedModes,
  products: SurfaceProducts,
  speedOfSound_m_s: number,
  limit_hz: number,
): RigidModes {
  const count = value.length;
  const wanted = [...value.keys()].filter((i) => {
    const frequency_hz = frequency(value[i] ?? 0, speedOfSound_m_s);
    return LEAST_HZ < frequency_hz && frequency_hz <= limit_hz;
  });
  const frequencies_hz = wanted.map((i) => frequency(value[i] ?? 0, speedOfSound_m_s));
  return {
    frequency_hz: frequencies_hz,
    shapesAt: (place) => {
      const all = shapesAt(place);
      return Float64Array.from(wanted, (i) => Math.sqrt(volume_m3) * (all[i] ?? 0));
    },
    damping_per_s: (surfacesAt) =>
      Float64Array.from(wanted, (i, index) => {
        const at = i * count + i;
        const { floor, ceiling, walls } = surfacesAt(frequencies_hz[index] ?? 0);
        const sum =
          floor.real * (products.floor[at] ?? 0) +
          ceiling.real * (products.ceiling[at] ?? 0) +
          products.walls.reduce(
            (total, table, wall) => total + (walls[wall]?.real ?? 0) * (table[at] ?? 0),
            0,
          );
        return (speedOfSound_m_s / 2) * sum;
      }),
  };
}

function frequency(squaredWaveNumber: number, speedOfSound_m_s: number): number {
  return (speedOfSound_m_s / (2 * Math.PI)) * Math.sqrt(squaredWaveNumber);
}
