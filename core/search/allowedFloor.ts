// Where on the floor a subwoofer may stand: clear of walls, obstacles, ways out, seats and loudspeakers, within reach of wall and cable.

import type { Fixture, Room, Speaker } from '../../schema/model/room.ts';
import { ceilingHeight_m } from '../acoustics/ceiling.ts';
import { type Point2, type Point3, planDistance_m } from '../acoustics/point.ts';
import { contains, wallDistances_m } from '../acoustics/polygon.ts';
import type { RoomShape } from '../parts/roomShape.ts';

export interface Reach {
  readonly from: Point2;
  readonly length_m: number;
}

export interface FloorRules {
  /** Lines of the grid, metres apart; the places right at the walls are always among them. */
  readonly step_m: number;
  /** Between the cabinet and any wall. */
  readonly gap_m: number;
  /** The cabinet is no farther from the nearest wall than this; null for anywhere. */
  readonly nearWall_m: number | null;
  /** Where each cable begins and how long it is, along the floor in a straight line. */
  readonly cables: readonly Reach[];
}

export interface SubSize {
  readonly width_m: number;
  readonly depth_m: number;
  readonly height_m: number;
}

/** Ports and connectors at the rear need some air. Common practice, no source. */
export const USUAL_GAP_M = 0.05;
/** Stands in where the gear file gives no size: a usual twelve-inch cabinet. Common practice, no source. */
export const USUAL_SIZE: SubSize = { width_m: 0.4, depth_m: 0.4, height_m: 0.45 };
/** Nobody sits with a cabinet between the feet. Common practice, no source. */
const FROM_SEAT_M = 0.6;
/** A loudspeaker's stand takes up so much around its middle. Common practice, no source. */
const STAND_M = 0.2;

type Region = Extract<Fixture, { readonly kind: 'keep_clear' | 'obstacle' }>;

/**
 * Places for the middle of the cabinet, in columns along x. The cabinet counts as a square of its longer side, since it may be turned.
 *
 * @param height_m of the acoustic centre above the floor
 * @param others loudspeakers and subwoofers that stay where they are
 */
export function allowedPlaces(
  shape: RoomShape & { readonly ceiling: NonNullable<RoomShape['ceiling']> },
  room: Pick<Room, 'space' | 'seats'>,
  others: readonly Speaker[],
  size: SubSize,
  height_m: number,
  rules: FloorRules,
): readonly Point3[] {
  const half_m = Math.max(size.width_m, size.depth_m) / 2;
  const fixtures = room.space.fixtures.filter(
    (one): one is Region => one.kind !== 'panel' && overlapsHeight(one, size.height_m, height_m),
  );
  const seats = room.seats.flatMap(({ at }) => at ?? []);
  const isAllowed = (at: Point3): boolean => {
    const toWall_m = Math.min(...wallDistances_m(shape.plan, at));
    if (toWall_m < half_m + rules.gap_m - HAIR_M || !contains(shape.plan, at)) return false;
    if (rules.nearWall_m !== null && rules.nearWall_m + half_m + HAIR_M < toWall_m) return false;
    if (ceilingHeight_m(shape.ceiling, at) < Math.max(height_m, size.height_m)) return false;
    if (rules.cables.some(({ from, length_m }) => length_m < planDistance_m(from, at)))
      return false;
    if (seats.some((seat) => planDistance_m(seat, at) < FROM_SEAT_M)) return false;
    if (fixtures.some((one) => isOver(one, at, half_m))) return false;
    return others.every(
      (other) =>
        other.at === null ||
        other.flushIn !== null ||
        half_m + ownHalf_m(other) <= planDistance_m(other.at, at) + HAIR_M,
    );
  };
  const inset_m = half_m + rules.gap_m;
  const xs = lines(
    shape.plan.map(({ x_m }) => x_m),
    inset_m,
    rules.step_m,
  );
  const ys = lines(
    shape.plan.map(({ y_m }) => y_m),
    inset_m,
    rules.step_m,
  );
  return xs.flatMap((x_m) => ys.map((y_m) => ({ x_m, y_m, z_m: height_m }))).filter(isAllowed);
}

/** A tenth of a millimetre: what decimal text leaves. */
const HAIR_M = 1e-4;

/** Multiples of the step between two insets, and the insets themselves, rounded inwards to the centimetre. */
function lines(corners_m: readonly number[], inset_m: number, step_m: number): readonly number[] {
  const low = Math.ceil((Math.min(...corners_m) + inset_m) * 100 - 1e-6) / 100;
  const high = Math.floor((Math.max(...corners_m) - inset_m) * 100 + 1e-6) / 100;
  if (high < low) return [];
  const first = Math.floor(low / step_m) + 1;
  const between = Array.from({ length: Math.max(0, Math.ceil(high / step_m) - first) }, (_, i) =>
    Number(((first + i) * step_m).toFixed(4)),
  ).filter((line) => low + HAIR_M < line && line < high - HAIR_M);
  return low === high ? [low] : [low, ...between, high];
}

function overlapsHeight({ z_m }: Region, height_m: number, centre_m: number): boolean {
  if (z_m === null) return true;
  const bottom_m = Math.max(0, centre_m - height_m / 2);
  const top_m = bottom_m + height_m;
  return Math.min(...z_m) < top_m && bottom_m < Math.max(...z_m);
}

/** An extent that the file does not give reaches through the whole room. */
function isOver({ x_m, y_m }: Region, at: Point2, half_m: number): boolean {
  const meets = (extent: readonly [number, number] | null, value: number) =>
    extent === null ||
    (Math.min(...extent) < value + half_m - HAIR_M &&
      value - half_m + HAIR_M < Math.max(...extent));
  return meets(x_m, at.x_m) && meets(y_m, at.y_m);
}

/** What stands on the floor of another: a cabinet's own size where it is low, else its stand. */
function ownHalf_m({ at, gear }: Speaker): number {
  const size = gear?.size ?? null;
  const isLow = at !== null && at.z_m <= (size?.height_m ?? USUAL_SIZE.height_m);
  return isLow && size !== null ? Math.max(size.width_m, size.depth_m) / 2 : STAND_M;
}
