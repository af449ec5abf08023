// Part of Setup: the room itself: size, decay, Schroeder's frequency, and, for a box, its modes and proportions.

import type { Room } from '../../schema/model/room.ts';
import { ceilingArea_m2, volume_m3, wallAreas_m2 } from '../acoustics/ceiling.ts';
import { area_m2 } from '../acoustics/polygon.ts';
import { meanReverberationTarget_s, schroederFrequency_hz } from '../acoustics/reverberation.ts';
import type { AirFigures, Note, SpaceFigures } from '../setup.ts';
import { decayTimeAt_s, measuredDecayTime } from './decayTime.ts';
import { modePart, NO_MODES } from './modes.ts';
import { proportionPart } from './proportions.ts';
import { placedSeats, placedSources, type Sounding } from './referenceSeat.ts';
import { type RoomShape, roomShape } from './roomShape.ts';

export interface SpacePart {
  readonly space: SpaceFigures | null;
  readonly notes: readonly Note[];
}

/** What of a room this part depends on. */
export type SpaceOf = Sounding & Pick<Room, 'space' | 'seats'>;

const PATH = ['space'] as const;

export function spacePart(room: SpaceOf, air: AirFigures): SpacePart {
  const shape = roomShape(room.space);
  if (shape === null) {
    return {
      space: null,
      notes: [{ path: PATH, message: 'Size not recorded: nothing of the room can be computed' }],
    };
  }
  const sizes = sizesOf(shape);
  const decayTime = measuredDecayTime(room.space.decayTime_s);
  const modes =
    shape.box &&
    modePart(shape.box, {
      speedOfSound_m_s: air.speedOfSound_m_s,
      decayTimeOf_s: ({ frequency_hz }) =>
        decayTime === null ? null : decayTimeAt_s(decayTime, frequency_hz),
      sources: placedSources(room),
      seats: placedSeats(room),
    });
  const notes: Note[] = [];
  if (sizes.volume_m3 === null) {
    notes.push({ path: PATH, message: 'Height not recorded: no volume, no Schroeder frequency' });
  }
  if (shape.box === null) {
    notes.push({ path: PATH, message: 'Not a box: modes by formula exist for box rooms only' });
  } else if (modes === null) {
    notes.push({ path: PATH, message: 'Too large a room to list its modes one by one' });
  }
  return {
    space: {
      ...sizes,
      decayTime,
      schroeder_hz:
        decayTime === null || sizes.volume_m3 === null
          ? null
          : schroederFrequency_hz(decayTime.decayTime_s, sizes.volume_m3),
      ...(modes ?? NO_MODES),
      proportions: shape.box && proportionPart(shape.box),
      nominalDecayTime_s:
        sizes.volume_m3 === null ? null : meanReverberationTarget_s(sizes.volume_m3),
    },
    notes,
  };
}

function sizesOf({
  plan,
  ceiling,
}: RoomShape): Pick<SpaceFigures, 'volume_m3' | 'floorArea_m2' | 'surfaceArea_m2'> {
  const floorArea_m2 = area_m2(plan);
  if (ceiling === null) return { volume_m3: null, floorArea_m2, surfaceArea_m2: null };
  const volume = volume_m3(plan, ceiling);
  const walls_m2 = wallAreas_m2(plan, ceiling).reduce((sum, wall_m2) => sum + wall_m2, 0);
  if (!(0 < volume)) return { volume_m3: null, floorArea_m2, surfaceArea_m2: null };
  return {
    volume_m3: volume,
    floorArea_m2,
    surfaceArea_m2: floorArea_m2 + ceilingArea_m2(plan, ceiling) + walls_m2,
  };
}
