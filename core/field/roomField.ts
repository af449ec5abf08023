// The field of a room of any shape behind one face: made ready once, asked for transfers from sources to receivers.

import { ceilingHeight_m } from '../acoustics/ceiling.ts';
import type { ComplexResponse } from '../acoustics/complex.ts';
import { type BoxField, prepareBoxField } from '../acoustics/field/boxField.ts';
import type { Box, Medium } from '../acoustics/field/boxTransfer.ts';
import { distance_m, type Point3 } from '../acoustics/point.ts';
import { contains } from '../acoustics/polygon.ts';
import { type OverPlaces, type PrismSurfaces, preparePrismField } from '../elements/prismField.ts';
import type { ModalParts, RigidModes } from '../elements/rigidModes.ts';
import { prepareSlopedField } from '../elements/slopedField.ts';
import type { FieldMethod } from '../fieldFigures.ts';
import type { RoomShape } from '../parts/roomShape.ts';
import type { FieldSurfaces } from './surfaces.ts';

export interface RoomField {
  readonly method: FieldMethod;
  readonly frequency_hz: readonly number[];
  /** Rooms that are no box: their single modes and how long each rings; null for boxes. */
  readonly modes:
    | (() => { readonly modes: RigidModes; readonly damping_per_s: Float64Array })
    | null;
  /** The same modes with what each depends on, for slightly other rooms; null for boxes. */
  readonly parts: (() => ModalParts) | null;
  /** Many places at once, at any one frequency up to the highest; null for boxes, which have a quicker way. */
  readonly over: ((places: readonly Point3[]) => OverPlaces) | null;
  /** From a source to each receiver, Pa·s/m³ by frequency, e^{+jωt}. All of them inside, none nearer than `NEAREST_M`. */
  readonly listenAt: (
    receivers: readonly Point3[],
  ) => (source: Point3) => readonly ComplexResponse[];
}

/** Nearer to each other the near field rules, which is no matter of the room. */
export const NEAREST_M = 0.1;

/** What a field depends on, with its ceiling known. */
export interface FieldRoom {
  readonly shape: RoomShape & { readonly ceiling: NonNullable<RoomShape['ceiling']> };
  readonly surfaces: FieldSurfaces;
  readonly medium: Medium;
}

export function methodOf({ box, ceiling }: FieldRoom['shape']): FieldMethod {
  if (box !== null) return 'box';
  const isLevel = ceiling.slopeX_ratio === 0 && ceiling.slopeY_ratio === 0;
  return isLevel ? 'flat ceiling' : 'sloped ceiling';
}

/**
 * @param frequency_hz ascending, > 0
 * @throws RangeError on a plan that no mesh fits (crossing walls, slivers)
 */
export function prepareRoomField(room: FieldRoom, frequency_hz: readonly number[]): RoomField {
  const { shape, surfaces, medium } = room;
  const method = methodOf(shape);
  if (method === 'box') {
    const field = prepareBoxField((f_hz) => boxAt(room, f_hz), medium, frequency_hz);
    return {
      method,
      frequency_hz,
      modes: null,
      parts: null,
      over: null,
      listenAt: listenInBox(field),
    };
  }
  const surfacesAt = surfacesOf(surfaces);
  const { plan, ceiling } = shape;
  const prepared =
    method === 'flat ceiling'
      ? preparePrismField(plan, ceiling.atOrigin_m, surfacesAt, medium, frequency_hz)
      : prepareSlopedField(
          {
            plan,
            ceiling: {
              height_m: ceiling.atOrigin_m,
              slopeX: ceiling.slopeX_ratio,
              slopeY: ceiling.slopeY_ratio,
            },
          },
          surfacesAt,
          medium,
          frequency_hz,
        );
  return {
    method,
    frequency_hz,
    modes: () => {
      const modes = prepared.modes();
      return { modes, damping_per_s: modes.damping_per_s(surfacesAt) };
    },
    parts: prepared.parts,
    over: prepared.over,
    listenAt: prepared.listenAt,
  };
}

/** By name of what they are, as the elements take them. */
export function surfacesOf(surfaces: FieldSurfaces): (frequency_hz: number) => PrismSurfaces {
  return (frequency_hz) => {
    const [floor = HARD, ceiling = HARD, ...walls] = surfaces.at(frequency_hz);
    return { floor, ceiling, walls };
  };
}

const HARD = { real: 0, imaginary: 0 };

/** A box's axes with their walls at a frequency: width from left to right, depth from front to back, height. */
export function boxAt({ shape, surfaces }: FieldRoom, frequency_hz: number): Box {
  const size = shape.box;
  if (size === null) throw new RangeError('not a box');
  // In the order of a box's plan: front, right, back, left.
  const [floor = HARD, ceiling = HARD, front = HARD, right = HARD, back = HARD, left = HARD] =
    surfaces.at(frequency_hz);
  return [
    { length_m: size.x_m, walls: [left, right] },
    { length_m: size.y_m, walls: [front, back] },
    { length_m: size.z_m, walls: [floor, ceiling] },
  ];
}

function listenInBox(field: BoxField): RoomField['listenAt'] {
  return (receivers) => {
    const listening = field.listenAt(receivers.map(triple));
    return (source) => listening(triple(source));
  };
}

function triple({ x_m, y_m, z_m }: Point3): readonly [number, number, number] {
  return [x_m, y_m, z_m];
}

/** Whether a place lies inside the walls, floor and ceiling; those that lie in a surface count as inside. */
export function isInside({ plan, box, ceiling }: FieldRoom['shape'], at: Point3): boolean {
  if (at.z_m < 0 || ceilingHeight_m(ceiling, at) < at.z_m) return false;
  if (box !== null) return 0 <= at.x_m && at.x_m <= box.x_m && 0 <= at.y_m && at.y_m <= box.y_m;
  return contains(plan, at);
}

export function areApart(one: Point3, other: Point3): boolean {
  return NEAREST_M <= distance_m(one, other);
}
