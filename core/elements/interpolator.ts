// Reads fields that are given at the nodes of a plan's mesh, at any place of the plan.

import type { Point2 } from '../acoustics/point.ts';
import { elements, locate, shapes } from './planElements.ts';
import type { PlanMesh } from './planMesh.ts';

/** For a place on the plan: reads a field with `stride` unknowns a node, the `offset`th wanted. */
export type Interpolator = (
  place: Point2,
) => (field: Float64Array, stride: number, offset: number) => number;

export function interpolator(mesh: PlanMesh): Interpolator {
  const list = elements(mesh);
  return (at) => {
    const { element, place } = locate(mesh, list, at);
    const values = shapes(place);
    return (field, stride, offset) =>
      values.reduce(
        (sum, value, i) => sum + value * (field[(element.nodes[i] ?? 0) * stride + offset] ?? 0),
        0,
      );
  };
}
