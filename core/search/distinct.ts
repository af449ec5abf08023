// Which placements are clearly different: no matter which sub stands where, at least one of them has to be carried.

import { type Point3, planDistance_m } from '../acoustics/point.ts';

/** The greatest way that any sub has to be carried from one placement to the other, when each goes to its nearest place. */
export function carried_m(one: readonly Point3[], other: readonly Point3[]): number {
  const [from, to] = [one[0], other[0]];
  if (one.length === 1 && from && to) return planDistance_m(from, to);
  return Math.min(
    ...orders(other.length).map((order) =>
      Math.max(
        ...one.map((from, index) => {
          const to = other[order[index] ?? index];
          return to ? planDistance_m(from, to) : 0;
        }),
      ),
    ),
  );
}

/**
 * The first of a list, and each further one that differs from all chosen before.
 *
 * @param sorted best first
 */
export function clearlyDifferent<Thing>(
  sorted: readonly Thing[],
  positionsOf: (thing: Thing) => readonly Point3[],
  different_m: number,
  mostCount: number,
): readonly Thing[] {
  const chosen: Thing[] = [];
  for (const thing of sorted) {
    if (chosen.length === mostCount) break;
    const positions = positionsOf(thing);
    const isNew = chosen.every(
      (before) => different_m <= carried_m(positionsOf(before), positions) + 1e-9,
    );
    if (isNew) chosen.push(thing);
  }
  return chosen;
}

/** All orders of 0 … count − 1. */
function orders(count: number): readonly (readonly number[])[] {
  if (count <= 1) return [[0]];
  return orders(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, at) => order.toSpliced(at, 0, count - 1)),
  );
}
