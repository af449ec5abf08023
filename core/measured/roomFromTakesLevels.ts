// Levels of takes in slightly other rooms of any shape: boxes worked out anew, others from a mesh nearby and the first order of its modes.
//
// A mesh is made for one variant, the anchor; what its own sum of modes changes by on the way to another variant is added to its field
// (elements/nearbySum.ts). Whoever fits moves the anchor to where the fit came to, so that in the end the mesh has the last word.

import type { Room } from '../../schema/model/room.ts';
import { type ComplexResponse, withChange } from '../acoustics/complex.ts';
import { distance_m, type Point3 } from '../acoustics/point.ts';
import { type NearbySum, nearbySum, type Stretch } from '../elements/nearbySum.ts';
import type { FieldContext } from '../field/context.ts';
import { type Kept, kept } from '../field/kept.ts';
import {
  areApart,
  type FieldRoom,
  isInside,
  prepareRoomField,
  type RoomField,
  surfacesOf,
} from '../field/roomField.ts';
import type { AirFigures } from '../setup.ts';
import { extentsOf, otherField, stretchBy } from './otherRoom.ts';
import { type CurvesOf, curves, distinct, type PlannedTake } from './plan.ts';
import type { Variant } from './variant.ts';

/** Transfers from a place to each receiver in a variant; null where it, or a receiver, lies outside. */
type Heard = (variant: Variant) => ((from: Point3) => readonly ComplexResponse[]) | null;

export interface RoomLevels {
  readonly curvesOf: (takes: readonly PlannedTake[]) => CurvesOf;
  /** Puts the mesh at a variant; boxes need none. */
  readonly anchorAt: (variant: Variant) => void;
  /** Rooms that are no box: the field of the anchor. */
  readonly anchor: () => RoomField | null;
}

/** Variants of which transfers are kept: one is asked for by every take. */
const MOST_KEPT = 3;

export function roomLevels(
  room: Room,
  air: AirFigures,
  frequency_hz: readonly number[],
): RoomLevels {
  const isBox = room.space.shape?.kind === 'box';
  const contextOf = (variant: Variant) => otherField(room, air, variant, frequency_hz);
  let anchor = isBox ? null : anchored(contextOf, {});
  const anchors = kept<ReturnType<typeof anchored>>(MOST_KEPT);
  return {
    anchor: () => anchor?.field ?? null,
    anchorAt: (variant) => {
      if (!isBox) anchor = anchors(JSON.stringify(variant), () => anchored(contextOf, variant));
    },
    curvesOf: (takes) => {
      const receivers = distinct(takes.map(({ receiver }) => receiver));
      const heardBy = kept<ReturnType<Heard>>(MOST_KEPT);
      const transfers = kept<readonly ComplexResponse[]>(200);
      return (one, _index, variant) => {
        const name = `${anchor?.name ?? ''}\n${JSON.stringify(variant)}`;
        const heard = heardBy(name, () =>
          anchor === null
            ? heardInBox(contextOf(variant), receivers)
            : heardNearby(room, contextOf(variant), anchor, receivers, variant),
        );
        if (heard === null) return null;
        const at = receivers.findIndex((point) => distance_m(point, one.receiver) === 0);
        return curves(
          one,
          variant,
          frequency_hz,
          air.density_kg_m3,
          ({ drive: { source } }) => transfersFrom(transfers, name, source.at, heard)[at] ?? null,
        );
      };
    },
  };
}

function transfersFrom(
  keep: Kept<readonly ComplexResponse[]>,
  name: string,
  from: Point3,
  heard: (from: Point3) => readonly ComplexResponse[],
): readonly ComplexResponse[] {
  return keep(`${name}\n${JSON.stringify(from)}`, () => heard(from));
}

function areInside({ fieldRoom: { shape } }: FieldContext, places: readonly Point3[]): boolean {
  return places.every((place) => isInside(shape, place));
}

function heardInBox(context: FieldContext | null, receivers: readonly Point3[]): ReturnType<Heard> {
  if (context === null || !areInside(context, receivers)) return null;
  const listening = prepareRoomField(context.fieldRoom, context.frequency_hz).listenAt(receivers);
  return (from) => (isUsable(context, from, receivers) ? listening(from) : []);
}

function isUsable(context: FieldContext, from: Point3, receivers: readonly Point3[]): boolean {
  return areInside(context, [from]) && receivers.every((point) => areApart(point, from));
}

interface Anchor {
  readonly name: string;
  readonly variant: Variant;
  readonly context: FieldContext;
  readonly field: RoomField;
  readonly listenAt: (receivers: readonly Point3[]) => (from: Point3) => readonly ComplexResponse[];
  /** The sum of its own modes. */
  readonly itself: () => NearbySum;
}

/** null where the room has no shape, or none that a mesh fits. */
function anchored(
  contextOf: (variant: Variant) => FieldContext | null,
  variant: Variant,
): Anchor | null {
  const context = contextOf(variant);
  if (context === null || context.frequency_hz.length === 0) return null;
  const field = prepareRoomField(context.fieldRoom, context.frequency_hz);
  const itself = kept<NearbySum>(1);
  const listenings = kept<ReturnType<RoomField['listenAt']>>(1);
  const exact = kept<readonly ComplexResponse[]>(100);
  return {
    name: JSON.stringify(variant),
    variant,
    context,
    field,
    itself: () => itself('', () => sumOf(context, field, [1, 1, 1], context.fieldRoom)),
    listenAt: (receivers) => {
      const listening = listenings(JSON.stringify(receivers), () => field.listenAt(receivers));
      return (from) => exact(JSON.stringify(from), () => listening(from));
    },
  };
}

/** What the mesh says where it stands, and what the sum of its modes changes by from there. */
function heardNearby(
  room: Room,
  context: FieldContext | null,
  anchor: Anchor,
  receivers: readonly Point3[],
  variant: Variant,
): ReturnType<Heard> {
  if (context === null || !areInside(context, receivers)) return null;
  const listening = anchor.listenAt(receivers);
  const isThere = JSON.stringify(variant) === anchor.name;
  const before = isThere ? null : anchor.itself();
  const after = isThere ? null : sumThere(room, context, anchor, variant);
  return (from) => {
    if (!isUsable(context, from, receivers)) return [];
    const whole = listening(from);
    if (before === null || after === null) return whole;
    return whole.map((one, i) => {
      const ear = receivers[i] ?? from;
      return withChange(one, before(ear, from), after(ear, from));
    });
  };
}

function sumThere(
  room: Room,
  { fieldRoom }: FieldContext,
  { context, field, variant: from }: Anchor,
  variant: Variant,
): NearbySum {
  const extents = extentsOf(room.space);
  if (extents === null) throw new RangeError('a room without sides');
  const here = stretchBy(extents, from.size_m ?? []);
  const there = stretchBy(extents, variant.size_m ?? []);
  const by = (axis: 0 | 1 | 2) => there[axis] / here[axis];
  return sumOf(context, field, [by(0), by(1), by(2)], fieldRoom);
}

function sumOf(
  { fieldRoom: { shape }, frequency_hz }: FieldContext,
  { parts }: RoomField,
  stretch: Stretch,
  { surfaces, medium }: FieldRoom,
): NearbySum {
  if (parts === null) throw new RangeError('boxes need no sums of the first order');
  const origin = {
    x_m: Math.min(...shape.plan.map(({ x_m }) => x_m)),
    y_m: Math.min(...shape.plan.map(({ y_m }) => y_m)),
  };
  const nearby = { stretch, surfacesAt: surfacesOf(surfaces), medium };
  return nearbySum(parts(), shape.plan, origin, nearby, frequency_hz);
}
