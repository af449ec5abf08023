// Part of Setup: the room itself: size, decay, Schroeder's frequency, and, for a box, its modes and proportions.

import type { Room } from '../../schema/model/room.ts';
import type { BoxSize } from '../acoustics/boxModes.ts';
import { ceilingArea_m2, volume_m3, wallAreas_m2 } from '../acoustics/ceiling.ts';
import { area_m2 } from '../acoustics/polygon.ts';
import { meanReverberationTarget_s, schroederFrequency_hz } from '../acoustics/reverberation.ts';
import type { AirFigures, Note, SpaceFigures } from '../setup.ts';
import { type DecayTime, decayTimeAt_s, measuredDecayTime } from './decayTime.ts';
import { memoPart } from './memo.ts';
import { createStrengths, modePart, NO_MODES } from './modes.ts';
import { proportionPart } from './proportions.ts';
import { placedSeats, placedSources, type Sounding } from './referenceSeat.ts';
import { type RoomShape, roomShape } from './roomShape.ts';
import { modalDecayOf, surfaceDecayTime, unknownSurfaces } from './surfaceDecay.ts';
import { type CoveredArea, coveredAreas } from './surfaces.ts';

export interface SpacePart {
  readonly space: SpaceFigures | null;
  readonly notes: readonly Note[];
}

/** What of a room this part depends on. */
export type SpaceOf = Sounding & Pick<Room, 'space' | 'seats'>;

const PATH = ['space'] as const;

/** A worker: it looks at the room again only when that has changed, and at a thing only when it has moved. */
export function createSpacePart(): (room: SpaceOf, air: AirFigures) => SpacePart {
  const bareSpace = memoPart(['space'], bareSpacePart);
  const strengths = createStrengths();
  return (room, air) => {
    const { space, notes, box } = bareSpace(room, air);
    if (space === null || space.modes === null || box === null) return { space, notes };
    const modes = strengths(space.modes, box, placedSources(room), placedSeats(room));
    return { space: { ...space, modes }, notes };
  };
}

/** The same once. */
export function spacePart(room: SpaceOf, air: AirFigures): SpacePart {
  return createSpacePart()(room, air);
}

interface BareSpace extends SpacePart {
  readonly box: BoxSize | null;
}

/** The room with nothing in it. */
function bareSpacePart(room: Pick<Room, 'space'>, air: AirFigures): BareSpace {
  const shape = roomShape(room.space);
  if (shape === null) {
    return {
      box: null,
      space: null,
      notes: [{ path: PATH, message: 'Size not recorded: nothing of the room can be computed' }],
    };
  }
  const sizes = sizesOf(shape);
  const areas = coveredAreas(shape, room.space);
  const measured = measuredDecayTime(room.space.decayTime_s);
  const decayTime =
    measured ?? (sizes.volume_m3 === null ? null : surfaceDecayTime(areas, sizes.volume_m3, air));
  const damping =
    measured === null && shape.box ? modalDecayOf(areas, shape.box, air.speedOfSound_m_s) : null;
  const modes =
    shape.box &&
    modePart(shape.box, {
      speedOfSound_m_s: air.speedOfSound_m_s,
      decayTimeOf_s:
        damping ?? (({ frequency_hz }) => decayTime && decayTimeAt_s(decayTime, frequency_hz)),
    });
  return {
    box: shape.box,
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
    notes: notes(room, shape, sizes.volume_m3, modes === null, decayTime, areas),
  };
}

function notes(
  room: Pick<Room, 'space'>,
  shape: RoomShape,
  volume_m3: number | null,
  isWithoutModes: boolean,
  decayTime: DecayTime | null,
  areas: readonly CoveredArea[],
): readonly Note[] {
  const found: Note[] = [];
  const note = (message: string, ...below: string[]) =>
    found.push({ path: [...PATH, ...below], message });
  if (volume_m3 === null) note('Height not recorded: no volume, no Schroeder frequency');
  if (shape.box === null) note('Not a box: modes by formula exist for box rooms only');
  else if (isWithoutModes) note('Too large a room to list its modes one by one');
  const unknown = unknownSurfaces(areas);
  if (decayTime?.from === 'surfaces') {
    note(
      "Decay time from the surfaces by Eyring's formula: an estimate until it is measured",
      ...(room.space.surfaces.length === 0 ? [] : ['surfaces']),
    );
  } else if (decayTime === null && volume_m3 !== null) {
    note(
      0 < unknown.length
        ? `No decay time: none measured, and no covering known for ${unknown.join(', ')}`
        : 'No decay time: none measured, and the surfaces give none',
    );
  }
  return found;
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
