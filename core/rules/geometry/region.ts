// Regions of the room that fixtures take up: obstacles and places to keep clear.

import type { Point } from '../../../schema/model/quantities.ts';
import type { Fixture } from '../../../schema/model/room.ts';

type Region = Extract<Fixture, { readonly kind: 'keep_clear' | 'obstacle' }>;

/**
 * Whether a point lies truly inside a region; on its faces it does not.
 *
 * An extent that the file does not give reaches through the whole room.
 */
export function isInRegion({ x_m, y_m, z_m }: Region, at: Point): boolean {
  return isBetween(x_m, at.x_m) && isBetween(y_m, at.y_m) && isBetween(z_m, at.z_m);
}

/** The fixtures of one kind. */
export function regions(fixtures: readonly Fixture[], kind: Region['kind']): readonly Region[] {
  return fixtures.filter((fixture): fixture is Region => fixture.kind === kind);
}

function isBetween(extent_m: readonly [number, number] | null, value_m: number): boolean {
  if (extent_m === null) return true;
  const [one_m, other_m] = extent_m;
  return Math.min(one_m, other_m) < value_m && value_m < Math.max(one_m, other_m);
}
