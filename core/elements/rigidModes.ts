// What a room's field tells of its single modes: frequency, shape at a place, and how surfaces damp each.

import type { Admittance } from '../acoustics/field/axisModes.ts';
import type { Point3 } from '../acoustics/point.ts';
import type { PlanModes } from './planModes.ts';
import type { PrismSurfaces } from './prismField.ts';
import type { SlopedModes } from './slopedModes.ts';
import { slopedSlopes } from './slopedSlopes.ts';
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

/** The same modes with the uniform one, and what of each depends on which side of the room: for sums over slightly other rooms. */
export interface ModalParts {
  /** Squared wave numbers, 1/m². */
  readonly value: Float64Array;
  /** How much of each is owed to slopes along x, along y, and upwards. */
  readonly slopes: readonly [Float64Array, Float64Array, Float64Array];
  /** Shapes at a place, the mean of their squares over the room 1. */
  readonly shapesAt: (place: Point3) => Float64Array;
  readonly loads: SurfaceLoads;
  readonly volume_m3: number;
}

/** ∮φ² over each surface, by mode, over the room's volume (1/m) where the mean of φ² is 1. */
export interface SurfaceLoads {
  readonly floor: Float64Array;
  readonly ceiling: Float64Array;
  readonly walls: readonly Float64Array[];
}

/** Below this it is the uniform mode, 0 Hz but for rounding. */
const LEAST_HZ = 1;

/** Plan modes times cosines up the height, up to a frequency. */
export function prismParts(
  plan: PlanModes,
  height_m: number,
  floorArea_m2: number,
  speedOfSound_m_s: number,
  limit_hz: number,
): ModalParts {
  const count = plan.value.length;
  const orders = Math.ceil((2 * limit_hz * height_m) / speedOfSound_m_s) + 1;
  const upward = (order: number) => ((order * Math.PI) / height_m) ** 2;
  const modes = [...plan.value]
    .flatMap((value, planMode) =>
      Array.from({ length: orders }, (_, order) => ({
        value: value + upward(order),
        planMode,
        order,
      })),
    )
    .filter(({ value }) => frequency(value, speedOfSound_m_s) <= limit_hz)
    .sort((one, other) => one.value - other.value);
  const of = (number: (mode: (typeof modes)[number]) => number) => Float64Array.from(modes, number);
  const weight = (order: number) => (order === 0 ? 1 : 2);
  const level = of(({ order }) => weight(order) / height_m);
  const slopes_x = plan.slopes_x();
  return {
    value: of(({ value }) => value),
    slopes: [
      of(({ planMode }) => slopes_x[planMode] ?? 0),
      of(({ planMode }) => (plan.value[planMode] ?? 0) - (slopes_x[planMode] ?? 0)),
      of(({ order }) => upward(order)),
    ],
    shapesAt: (place) => {
      const onPlan = plan.at(place);
      return of(({ planMode, order }) => {
        const up = Math.sqrt(weight(order)) * Math.cos((order * Math.PI * place.z_m) / height_m);
        return Math.sqrt(floorArea_m2) * (onPlan[planMode] ?? 0) * up;
      });
    },
    loads: {
      floor: level,
      ceiling: level,
      walls: plan.couplings.map((table) =>
        of(({ planMode }) => table[planMode * count + planMode] ?? 0),
      ),
    },
    volume_m3: floorArea_m2 * height_m,
  };
}

export function slopedParts(
  modes: SlopedModes,
  products: SurfaceProducts,
  ceiling: Parameters<typeof slopedSlopes>[1],
): ModalParts {
  const count = modes.value.length;
  const diagonal = (table: Float64Array) =>
    Float64Array.from({ length: count }, (_, i) => table[i * count + i] ?? 0);
  return {
    value: modes.value,
    slopes: slopedSlopes(modes, ceiling),
    shapesAt: (place) => modes.shapesAt(place).map((shape) => Math.sqrt(modes.volume_m3) * shape),
    loads: {
      floor: diagonal(products.floor),
      ceiling: diagonal(products.ceiling),
      walls: products.walls.map(diagonal),
    },
    volume_m3: modes.volume_m3,
  };
}

/** The modes themselves, without the uniform one. */
export function rigidModes(
  { value, shapesAt, loads }: Pick<ModalParts, 'value' | 'shapesAt' | 'loads'>,
  speedOfSound_m_s: number,
  limit_hz: number,
): RigidModes {
  const wanted = [...value.keys()].filter((i) => {
    const frequency_hz = frequency(value[i] ?? 0, speedOfSound_m_s);
    return LEAST_HZ < frequency_hz && frequency_hz <= limit_hz;
  });
  const frequencies_hz = wanted.map((i) => frequency(value[i] ?? 0, speedOfSound_m_s));
  return {
    frequency_hz: frequencies_hz,
    shapesAt: (place) => {
      const all = shapesAt(place);
      return Float64Array.from(wanted, (i) => all[i] ?? 0);
    },
    damping_per_s: (surfacesAt) =>
      Float64Array.from(wanted, (i, index) => {
        const surfaces = surfacesAt(frequencies_hz[index] ?? 0);
        return (speedOfSound_m_s / 2) * loadOf(loads, surfaces, i, ({ real }) => real);
      }),
  };
}

/** Σ β_s ∮_s φ² of one mode, one part of β. */
export function loadOf(
  { floor, ceiling, walls }: SurfaceLoads,
  surfaces: PrismSurfaces,
  mode: number,
  part: (admittance: Admittance) => number,
): number {
  return walls.reduce(
    (sum, load, wall) => {
      const admittance = surfaces.walls[wall];
      return sum + (admittance ? part(admittance) : 0) * (load[mode] ?? 0);
    },
    part(surfaces.floor) * (floor[mode] ?? 0) + part(surfaces.ceiling) * (ceiling[mode] ?? 0),
  );
}

function frequency(squaredWaveNumber: number, speedOfSound_m_s: number): number {
  return (speedOfSound_m_s / (2 * Math.PI)) * Math.sqrt(Math.max(0, squaredWaveNumber));
}
