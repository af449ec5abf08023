// What stands behind a loudspeaker: how far it is from its rear to the wall, along the line that it looks away from.

import type { Point } from '../../../schema/model/quantities.ts';
import { walls } from '../../acoustics/polygon.ts';
import type { RoomShape } from '../../parts/roomShape.ts';

export interface Behind {
  readonly surface: string;
  /** From the rear to the wall; < 0 where the box would reach into it. */
  readonly clear_m: number;
}

/** Looking more steeply than this, its rear is up or down, not behind. */
const LEVEL_M = 0.1;

/**
 * @param at its front
 * @param towards what it looks at
 * @param depth_m of its box
 * @returns null where no wall is met, or it looks straight up or down
 */
export function behind(
  { plan, wallNames }: RoomShape,
  at: Point,
  towards: Point,
  depth_m: number,
): Behind | null {
  const [ahead_x, ahead_y] = [towards.x_m - at.x_m, towards.y_m - at.y_m];
  const ahead_m = Math.hypot(ahead_x, ahead_y);
  if (ahead_m < LEVEL_M) return null;
  const [x, y] = [-ahead_x / ahead_m, -ahead_y / ahead_m];
  let nearest: Behind | null = null;
  for (const [index, [from, to]] of walls(plan).entries()) {
    const [wall_x, wall_y] = [to.x_m - from.x_m, to.y_m - from.y_m];
    const turn = x * wall_y - y * wall_x;
    if (turn === 0) continue;
    const [to_x, to_y] = [from.x_m - at.x_m, from.y_m - at.y_m];
    const away_m = (to_x * wall_y - to_y * wall_x) / turn;
    const along = (to_x * y - to_y * x) / turn;
    if (away_m < 0 || along < 0 || 1 < along) continue;
    const clear_m = away_m - depth_m;
    if (nearest === null || clear_m < nearest.clear_m)
      nearest = { surface: wallNames[index] ?? '', clear_m };
  }
  return nearest;
}
