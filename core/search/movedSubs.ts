// Which subwoofers of a room are to be placed, and where each of them may stand.

import type { CableEnd, Room, Speaker } from '../../schema/model/room.ts';
import type { Point3 } from '../acoustics/point.ts';
import type { FieldContext } from '../field/context.ts';
import {
  allowedPlaces,
  type FloorRules,
  type Reach,
  type SubSize,
  USUAL_GAP_M,
  USUAL_SIZE,
} from './allowedFloor.ts';

export interface MovedSub {
  /** Its own id, or the copy's. */
  readonly id: string;
  readonly isCopy: boolean;
  readonly source: Speaker;
  readonly size: SubSize;
  /** Of the acoustic centre. */
  readonly height_m: number;
}

/** What of the options the places depend on. */
export interface PlaceOptions {
  /** How many subs are placed: the room's first ones, and copies of its first where it has fewer. All of them where absent. */
  readonly subCount?: number;
  /** Only these of the room's subs are moved; overrides `subCount`. */
  readonly subs?: readonly string[];
  readonly step_m?: number;
  readonly nearWall_m?: number;
  /** Beside those that the file records. */
  readonly cables?: readonly Reach[];
}

const STEP_M = { box: 0.1, other: 0.25 } as const;
const MOST_SUBS = 4;

export function movedSubs(
  subwoofers: readonly Speaker[],
  { subs, subCount }: PlaceOptions,
): readonly MovedSub[] {
  const wanted = subs ? subwoofers.filter(({ id }) => subs.includes(id)) : subwoofers;
  const count = Math.min(MOST_SUBS, subs ? wanted.length : (subCount ?? wanted.length));
  const [first] = wanted;
  if (first === undefined) return [];
  return Array.from({ length: count }, (_, index) => {
    const source = wanted[index] ?? first;
    const isCopy = wanted[index] === undefined;
    const size = source.gear?.size ?? USUAL_SIZE;
    const height_m = source.at?.z_m ?? size.height_m / 2;
    return { id: isCopy ? `${first.id}_${index + 1}` : source.id, isCopy, source, size, height_m };
  });
}

type PlacesOf = Pick<Room, 'space' | 'seats' | 'speakers' | 'subwoofers' | 'devices' | 'cables'>;

export function placesOf(
  { fieldRoom: { shape } }: FieldContext,
  room: PlacesOf,
  moved: readonly MovedSub[],
  sub: MovedSub,
  options: PlaceOptions,
): readonly Point3[] {
  const rules: FloorRules = {
    step_m: options.step_m ?? STEP_M[shape.box === null ? 'other' : 'box'],
    gap_m: USUAL_GAP_M,
    nearWall_m: options.nearWall_m ?? null,
    cables: [...cablesOf(room, moved, sub), ...(options.cables ?? [])],
  };
  const ids = new Set(moved.map(({ source }) => source.id));
  const others = [...room.speakers, ...room.subwoofers].filter(({ id }) => !ids.has(id));
  return allowedPlaces(shape, room, others, sub.size, sub.height_m, rules);
}

/** Runs between a sub and whatever stays and has a place: the sub stands no farther from it than its cable reaches. */
function cablesOf(
  { cables, speakers, subwoofers, devices }: PlacesOf,
  moved: readonly MovedSub[],
  { source }: MovedSub,
): readonly Reach[] {
  const isMoved = (id: string) => moved.some((sub) => sub.source.id === id);
  const things = [...speakers, ...subwoofers, ...devices];
  return (cables ?? []).flatMap(({ from, to, length_m }): readonly Reach[] => {
    const isOurs = (end: CableEnd) => end.device === source.id;
    if (length_m === null || !(isOurs(from) || isOurs(to))) return [];
    const other = things.find(({ id }) => id === (isOurs(from) ? to : from).device);
    const at = other?.at ?? null;
    return other === undefined || at === null || isMoved(other.id) ? [] : [{ from: at, length_m }];
  });
}
