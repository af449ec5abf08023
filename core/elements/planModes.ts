// The rigid-wall modes of a floor plan, by finite elements, with their values at places and their products along each wall.

import type { Point2 } from '../acoustics/point.ts';
import { perimeter_m, signedArea_m2 } from '../acoustics/polygon.ts';
import { interpolator } from './interpolator.ts';
import { lowestModes } from './lowestModes.ts';
import { planMatrices, slopeSquares_x, wallProducts_m } from './planElements.ts';
import { meshPlan, type PlanMesh } from './planMesh.ts';

export interface PlanModes {
  readonly mesh: PlanMesh;
  /** Squared wave numbers, ascending from 0, 1/m². */
  readonly value: Float64Array;
  /** ∫φ² dA = 1. */
  readonly at: (place: Point2) => Float64Array;
  /** By wall: ∮ φ_i φ_j along it, row-major. */
  readonly couplings: readonly Float64Array[];
  /** ∫(∂φ/∂x)² dA by mode; what is left of the squared wave number is owed to slopes along y. */
  readonly slopes_x: () => Float64Array;
}

/**
 * @param size_m wished side of the elements
 * @param limit highest squared wave number, 1/m²
 * @throws RangeError on a plan that no mesh fits
 */
export function planModes(plan: readonly Point2[], size_m: number, limit: number): PlanModes {
  const mesh = meshPlan(plan, size_m);
  const { stiffness, mass } = planMatrices(mesh);
  const { value, vector } = lowestModes(stiffness, mass, limit, expectedCount(plan, limit));
  const read = interpolator(mesh);
  return {
    mesh,
    value,
    at: (place) => {
      const field = read(place);
      return Float64Array.from(vector, (one) => field(one, 1, 0));
    },
    couplings: plan.map((_, wall) => wallProducts_m(mesh, wall, vector)),
    slopes_x: () => slopeSquares_x(mesh, vector),
  };
}

/** About how many modes a plan has. @source Weyl's law with its second term: A q/(4π) + U √q/(4π) for hard walls */
export function expectedCount(plan: readonly Point2[], limit: number): number {
  const area_m2 = Math.abs(signedArea_m2(plan));
  return Math.ceil((area_m2 * limit + perimeter_m(plan) * Math.sqrt(limit)) / (4 * Math.PI)) + 2;
}
