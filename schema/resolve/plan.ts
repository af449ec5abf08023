// The plan of a room: its walls in order, each from its corner, with corners that coincide and walls that cross told.

import type { PlanShape } from '../model/room.ts';
import { below, entriesOf, type NamedPlace, type Place } from './place.ts';
import { type Reading, tellAt } from './reading.ts';
import { si } from './values.ts';

export type Wall = PlanShape['walls'][number];

/** Corners nearer than this are one corner. Common practice, no source: less than anyone measures a room to. */
const SAME_CORNER_m = 0.001;

/** @returns null where a corner is missing, or the walls do not make a room */
export function readWalls(reading: Reading, plan: Place): readonly Wall[] | null {
  const places = entriesOf(plan);
  const walls: Wall[] = [];
  for (const place of places) {
    const x_m = si(reading, below(place, 'x'), 'length', 'needed');
    const y_m = si(reading, below(place, 'y'), 'length', 'needed');
    if (x_m !== null && y_m !== null) walls.push({ name: place.name, x_m, y_m });
  }
  if (walls.length < places.length || walls.length < 3) return null;
  return isSimple(reading, places, walls) ? walls : null;
}

function isSimple(
  reading: Reading,
  places: readonly NamedPlace[],
  walls: readonly Wall[],
): boolean {
  const fault = firstTooShort(walls) ?? firstCrossing(walls);
  const place = fault === null ? undefined : places[fault.wall];
  const other = fault === null ? undefined : places[fault.other];
  if (fault === null || place === undefined || other === undefined) return true;
  tellAt(reading, place.path, place.value?.range ?? place.key, {
    code: fault.code,
    message: fault.message(place.name, other.name),
    related: [{ path: other.path, message: `wall \`${other.name}\`` }],
  });
  return false;
}

interface PlanFault {
  readonly code: string;
  readonly wall: number;
  readonly other: number;
  readonly message: (wall: string, other: string) => string;
}

function firstTooShort(walls: readonly Wall[]): PlanFault | null {
  for (let index = 0; index < walls.length; index++) {
    const [a, b] = ends(walls, index);
    if (SAME_CORNER_m <= Math.hypot(b.x_m - a.x_m, b.y_m - a.y_m)) continue;
    return {
      code: 'geometry/plan-corner-twice',
      wall: (index + 1) % walls.length,
      other: index,
      message: (wall, other) =>
        `\`${wall}\` starts where \`${other}\` starts, so that \`${other}\` has no length`,
    };
  }
  return null;
}

function firstCrossing(walls: readonly Wall[]): PlanFault | null {
  const count = walls.length;
  for (let second = 1; second < count; second++) {
    for (let first = 0; first < second; first++) {
      const areNeighbours = second - first === 1 || (first === 0 && second === count - 1);
      const meets = areNeighbours
        ? foldsBack(ends(walls, first), ends(walls, second))
        : touches(ends(walls, first), ends(walls, second));
      if (!meets) continue;
      return {
        code: 'geometry/plan-crosses',
        wall: second,
        other: first,
        message: (wall, other) =>
          `The plan crosses itself: wall \`${wall}\` meets wall \`${other}\`; corners follow one another round the room`,
      };
    }
  }
  return null;
}

type Segment = readonly [Wall, Wall];

function ends(walls: readonly Wall[], index: number): Segment {
  const start = walls[index];
  const end = walls[(index + 1) % walls.length];
  if (start === undefined || end === undefined) throw new RangeError(`no wall ${index}`);
  return [start, end];
}

/** Twice the area of the triangle a b c; > 0 where c lies to the left of a → b (x to the right, y up). */
function turn(a: Wall, b: Wall, c: Wall): number {
  return (b.x_m - a.x_m) * (c.y_m - a.y_m) - (b.y_m - a.y_m) * (c.x_m - a.x_m);
}

function touches([a, b]: Segment, [c, d]: Segment): boolean {
  const [abc, abd] = [turn(a, b, c), turn(a, b, d)];
  const [cda, cdb] = [turn(c, d, a), turn(c, d, b)];
  if (abc === 0 && isBetween(a, b, c)) return true;
  if (abd === 0 && isBetween(a, b, d)) return true;
  if (cda === 0 && isBetween(c, d, a)) return true;
  if (cdb === 0 && isBetween(c, d, b)) return true;
  return abc > 0 !== abd > 0 && cda > 0 !== cdb > 0 && abc * abd !== 0 && cda * cdb !== 0;
}

/** Whether a point on the line through a and b lies from a to b. */
function isBetween(a: Wall, b: Wall, point: Wall): boolean {
  return (
    Math.min(a.x_m, b.x_m) <= point.x_m &&
    point.x_m <= Math.max(a.x_m, b.x_m) &&
    Math.min(a.y_m, b.y_m) <= point.y_m &&
    point.y_m <= Math.max(a.y_m, b.y_m)
  );
}

/** Neighbours share a corner; they meet elsewhere too only if one runs back along the other. */
function foldsBack([a, b]: Segment, [c, d]: Segment): boolean {
  const corner = b === c ? { before: a, corner: b, after: d } : { before: c, corner: a, after: b };
  const { before, corner: at, after } = corner;
  if (turn(before, at, after) !== 0) return false;
  const along =
    (before.x_m - at.x_m) * (after.x_m - at.x_m) + (before.y_m - at.y_m) * (after.y_m - at.y_m);
  return 0 < along;
}
